import type { AnsweredQuestion, Chart, Estimate, Excluded, Figure, Missing, Strip, Table, Topic } from "../analysis.ts";
import type { Settings } from "../records/setting.ts";
import { sentenceText } from "../report/format-quantity.ts";
import { certaintyOf } from "../report/front/verdict-mark.tsx";
import { sentenceOf } from "./ask-question.ts";

/** A thing to do, its sentences as text. */
interface NextData {
  rank: string;
  act: string;
  because?: string;
  /** a question's id, or "tray:" and a tray's name */
  see: string;
}

/**
 * One answer as data: every number unrounded, every sentence as text, and everything the page draws. The same shape stands
 * in the file beside the report and in what `report --json` prints; `docs/answers.schema.json` describes it.
 */
export interface AnswerData {
  id: string;
  name: string;
  question: string;
  topic: Topic;
  headline: boolean;
  kind: "answer" | "cannot-tell";
  certainty: string;
  /** the sentence of the answer, or what cannot be answered */
  text: string;
  short?: string;
  figure?: Figure;
  strip?: Strip;
  next: NextData[];
  wouldSettle?: string;
  missing?: Missing;
  estimates: Estimate[];
  tables: Table[];
  charts: Chart[];
  excluded: Excluded[];
  method: string[];
  caveats: string[];
  withoutMoney?: string;
  withoutFlagged?: { trays: string[]; changes: boolean; text: string };
}

/** An answer as data. @param settings of the book, which decide how numbers in sentences are written */
export function answerData(answer: AnsweredQuestion, settings: Settings): AnswerData {
  const { id, name, question, topic, headline, outcome, withoutFlagged } = answer;
  const text = (sentence: Parameters<typeof sentenceText>[0]) => sentenceText(sentence, settings);
  return {
    ...{ id, name, question, topic, headline },
    kind: outcome.kind,
    certainty: certaintyOf(outcome),
    text: text(sentenceOf(outcome)),
    ...(outcome.short === undefined ? {} : { short: text(outcome.short) }),
    ...(outcome.figure === undefined ? {} : { figure: outcome.figure }),
    ...(outcome.strip === undefined ? {} : { strip: outcome.strip }),
    next: (outcome.next ?? []).map(({ rank, act, because, see }) => ({
      rank,
      act: text(act),
      ...(because === undefined ? {} : { because: text(because) }),
      see: see ?? id,
    })),
    ...(outcome.kind === "cannot-tell" ? { wouldSettle: text(outcome.wouldSettle) } : {}),
    ...(outcome.kind === "cannot-tell" && outcome.missing !== undefined ? { missing: outcome.missing } : {}),
    estimates: outcome.estimates,
    tables: outcome.tables,
    charts: outcome.charts,
    excluded: outcome.excluded,
    method: outcome.method.map(text),
    caveats: outcome.caveats.map(text),
    ...(outcome.withoutMoney === undefined ? {} : { withoutMoney: outcome.withoutMoney }),
    ...(withoutFlagged === undefined
      ? {}
      : {
          withoutFlagged: {
            trays: withoutFlagged.trays,
            changes: withoutFlagged.changes,
            text: text(withoutFlagged.sentence),
          },
        }),
  };
}
