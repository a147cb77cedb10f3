import type { Analysis, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import type { VariedThing } from "../../src/design/varied-things.ts";
import { capital, inRow, inSentence, levelLabel } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { cameTogether } from "./came-together.ts";
import { type TreatmentDecision, thingsOf } from "./treatment-decision.ts";
import { endsOf } from "./verdict-words.ts";
import { yieldDecision, yieldWords } from "./what-changed-the-yield.ts";

/** More things than this are looked at by nobody; those that lie best over the cooks come first. */
const mostThings = 12;

const placeWords: Readonly<Record<VariedThing["place"], string>> = {
  "inside cooks": "within cooks",
  "one cook": "in one cook",
  "whole cooks": "from cook to cook",
};

interface Looked {
  of: TreatmentDecision;
  ties: string[];
  /** whether yield goes with it, beside so many that are looked at, and not with something that always came together with it */
  standsOut: boolean;
}

/** Whether yield goes with it as far as it is looked at alone. */
const leans = ({ decision: { verdict } }: TreatmentDecision): boolean => verdict === "settled" || verdict === "leaning";

/** The chance of being wrong that a single leaning is allowed, by the verdict rules. */
const leaningMiss = 0.15;

/**
 * Whether one of several things that were looked at stands out: the chance of a false lead is shared among them.
 * @source Bonferroni's inequality: Dunn 1961, Journal of the American Statistical Association 56(293):52-64
 */
function standsOutAmong(
  { decision: { verdict, chance = 0.5, p = 1, significance } }: TreatmentDecision,
  count: number,
) {
  const likelier = Math.max(chance, 1 - chance);
  return likelier >= 1 - leaningMiss / count || (verdict === "settled" && p < significance / count);
}

function thingsTable(looked: ReadonlyArray<Looked>): Table {
  return {
    caption: "What else varied, and the yield of good trays",
    columns: [
      { label: "varied" },
      { label: "how" },
      { label: "better" },
      { label: "by", unit: looked[0]!.of.response.unit },
      { label: "how sure" },
      { label: "came together with" },
    ],
    rows: looked.map(({ of: { thing, decision }, ties }) => {
      const words = yieldWords("dry");
      const difference = decision.difference;
      const ends = difference === undefined ? undefined : endsOf(difference, words);
      return [
        thing.factor.label,
        placeWords[thing.place],
        ends === undefined ? "" : levelLabel(thing.factor, String(ends.to)),
        difference === undefined ? null : Math.abs(difference.estimate),
        decision.verdict === "cannot-tell"
          ? "cannot tell"
          : decision.verdict === "settled"
            ? "leaning"
            : decision.verdict,
        ties.join(", "),
      ];
    }),
    note: "Seasons and years hold whatever else changed with time: they show that periods differ, not why.",
  };
}

const namesOf = (some: ReadonlyArray<Looked>): string[] => some.map(({ of }) => inSentence(of.thing.factor.label));

/** "My_lamp came together with inoculum: the two cannot be separated." */
const tiedSentence = ({ of, ties }: Looked): string =>
  `${of.thing.factor.label} came together with ${inRow(ties)}, so it cannot be separated from ${ties.length === 1 ? "it" : "them"}.`;

function sentenceOf(looked: ReadonlyArray<Looked>): Sentence {
  const clear = looked.filter((one) => one.standsOut);
  const tied = looked.filter(({ ties }) => ties.length > 0);
  const apart = looked.filter(({ ties }) => ties.length === 0);
  const faint = apart.filter((one) => !one.standsOut && leans(one.of));
  const quiet = apart.filter((one) => !one.standsOut && !leans(one.of));
  const none = clear.length === 0;
  const said = [
    none ? "" : `Yield may also go with ${inRow(namesOf(clear))}.`,
    faint.length === 0
      ? ""
      : `${capital(inRow(namesOf(faint)))} ${faint.length === 1 ? "leans by itself" : "lean by themselves"}, as one of ${apart.length} things looked at may do by chance.`,
    quiet.length === 0
      ? ""
      : none && faint.length === 0
        ? `Nothing else that varied is seen to go with the yield: ${inRow(namesOf(quiet))}.`
        : `No sign of it for ${inRow(namesOf(quiet))}.`,
    ...tied.map(tiedSentence),
  ];
  return [said.filter((one) => one !== "").join(" ")];
}

function run(trial: Trial): Outcome {
  const [main, ...others] = thingsOf(trial);
  const found = others.slice(0, mostThings).flatMap((thing) => {
    const of = yieldDecision(trial, thing);
    return of === undefined
      ? []
      : [{ of, ties: cameTogether(thing, main === undefined ? others : [main, ...others], trial) }];
  });
  const apart = found.filter(({ ties }) => ties.length === 0).length;
  const looked = found.map(
    (one): Looked => ({ ...one, standsOut: one.ties.length === 0 && leans(one.of) && standsOutAmong(one.of, apart) }),
  );
  if (looked.length === 0) {
    return noAnswer(
      ["Cannot tell what else mattered: nothing else varied, or no good tray has a weight."],
      ["Write down what differed between trays: strain, supplement, temperature, whatever you changed."],
      { missing: { kind: "vary", need: "something else written down that differed between trays" } },
    );
  }
  const leads = looked.filter(({ standsOut }) => standsOut);
  return {
    kind: "answer",
    // each line has a word of its own; the whole is a list to look through, and settles nothing
    certainty: leads.length > 0 ? "leaning" : "open",
    sentence: sentenceOf(looked),
    short:
      leads.length > 0
        ? [`Yield may also go with ${inSentence(leads[0]!.of.thing.factor.label)}.`]
        : looked.every(({ ties }) => ties.length > 0)
          ? ["Nothing else can be separated from what was tried."]
          : ["Nothing else stands out."],
    figure: { label: "other things go with the yield", value: leads.length, of: looked.length, unit: "things" },
    strip: {
      kind: "measures",
      measures: looked.map((one) => ({ name: inSentence(one.of.thing.factor.label), moved: one.standsOut })),
    },
    estimates: [],
    tables: [thingsTable(looked)],
    charts: [],
    excluded: [],
    method: [["Each is compared as the main question is, on its own; none of them is settled by this list."]],
    caveats: [],
  };
}

/** Everything else that varied, each with its word, and what it cannot be separated from. */
export const whatElseWasVaried: Analysis = {
  id: "what-else-was-varied",
  name: "What else varied",
  question: "What else varied, and does the yield go with it?",
  needs: ["tray_id"],
  assumes: ["columns set before the harvest were typed before it"],
  topic: "growing",
  headline: false,
  run,
};
