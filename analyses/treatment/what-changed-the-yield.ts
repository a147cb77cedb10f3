import type {
  Analysis,
  Answer,
  AnswerFront,
  CannotTell,
  Chart,
  Excluded,
  Outcome,
  Sentence,
  Table,
  Trial,
} from "../../src/analysis.ts";
import { atSignificance, type Decision } from "../../src/decisions/verdict/index.ts";
import { inSentence } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { type YieldWeight, yieldPerGoodTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { missingTrays } from "../rows/missing-trays.ts";
import { decisionNotes, spreadNote } from "./decision-notes.ts";
import { decideTreatment, isDrawnByLot, type TreatmentDecision, thingsOf } from "./treatment-decision.ts";
import { differenceEstimate, levelsChart, levelsTable, pairsTable } from "./treatment-tables.ts";
import { cannotTellWords, capOf, endsOf, levelOf, type ResponseWords, verdictSentence } from "./verdict-words.ts";

export const yieldWords = (weight: YieldWeight): ResponseWords => ({
  of: `${weight} a good tray`,
  more: "more",
  less: "less",
  better: "higher",
});

/** The thing a book is about, compared on the weight of good trays; undefined where nothing varied or nothing is weighed. */
export function yieldDecision(trial: Trial, thing = thingsOf(trial)[0]): TreatmentDecision | undefined {
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined || thing === undefined) return undefined;
  return decideTreatment(trial, thing, { response: yieldPerGoodTray(weight), better: "higher", withLost: true });
}

/** What stands at the front: at most sixteen words, the number and its picture. */
function frontOf(of: TreatmentDecision, decision: Decision, words: ResponseWords): AnswerFront {
  const { thing, response } = of;
  const { difference, verdict } = decision;
  const what = inSentence(thing.factor.label);
  if (difference === undefined) return {};
  const { to, from, sign } = endsOf(difference, words);
  const against: Sentence = from === undefined ? ["the others"] : [levelOf(thing.factor, from)];
  const pair: Sentence = [levelOf(thing.factor, to), " against ", ...against];
  const { lower, upper } = difference.interval ?? {};
  const range =
    lower === undefined || upper === undefined
      ? {}
      : sign < 0
        ? { from: -upper, to: -lower }
        : { from: lower, to: upper };
  const value = sign * difference.estimate;
  const short: Readonly<Record<Decision["verdict"], Sentence>> = {
    settled: ["More from ", ...pair, "."],
    leaning: ["Probably more from ", ...pair, "."],
    open: [`Whether ${what} matters is not known yet: `, ...pair, "."],
    "cannot-tell": [`What ${what} did cannot be told apart from the rest.`],
  };
  return {
    short: short[verdict],
    figure: { label: words.of, value, unit: response.unit, signed: true, digits: 2, ...range },
    strip: { kind: "difference", unit: response.unit, value, ...range, zero: "no gain" },
  };
}

/** The figure of started trays, in a sentence of its own. */
function startedSentence({ started, response, thing }: TreatmentDecision, words: ResponseWords): Sentence[] {
  const difference = started?.difference;
  if (difference === undefined || difference.interval === undefined) return [];
  const { to, from, sign } = endsOf(difference, words);
  const [low, high] = [difference.interval.lower, difference.interval.upper]
    .map((end) => sign * end)
    .sort((a, b) => a - b);
  return [
    [
      "Lost trays counted as nothing, ",
      levelOf(thing.factor, to),
      " gave ",
      { value: sign * difference.estimate, unit: response.unit, signed: true, digits: 2 },
      " a started tray against ",
      from === undefined ? "the others" : levelOf(thing.factor, from),
      " (",
      { from: low!, to: high!, unit: response.unit, signed: true },
      ").",
    ],
  ];
}

/** Lost trays say nothing of the weight of a good one. */
function lostOf({ gathered }: TreatmentDecision): Excluded[] {
  const lost = gathered.trays.flatMap(({ row, value }) => (value === "lost" ? [gathered.trayOf.get(row)!.trayId] : []));
  return lost.length === 0 ? [] : [{ trays: lost, reason: "lost, so they count in the figure of started trays alone" }];
}

function settledParts(trial: Trial, of: TreatmentDecision, decision: Decision, words: ResponseWords) {
  const sentence = verdictSentence(of, decision, words, isDrawnByLot(trial));
  return { sentence, ...frontOf(of, decision, words) };
}

function answerOf(trial: Trial, of: TreatmentDecision, words: ResponseWords): Answer {
  const { decision, started, gathered, response } = of;
  const pairs = pairsTable(of, decision);
  const lowered = atSignificance(decision, Number.MIN_VALUE);
  return {
    kind: "answer",
    certainty: decision.verdict === "cannot-tell" ? "open" : decision.verdict,
    ...settledParts(trial, of, decision, words),
    ...(decision.verdict === "settled" ? { lowered: settledParts(trial, of, lowered, words) } : {}),
    test: decision,
    estimates: [
      ...differenceEstimate(of, decision),
      ...(started === undefined
        ? []
        : differenceEstimate(of, started, response.label.replace("good", "started")).map(({ p: _, ...rest }) => rest)),
    ],
    tables: [levelsTable(of, decision), pairs].filter((one): one is Table => one !== undefined),
    charts: [levelsChart(of, decision)] satisfies Chart[],
    excluded: [...gathered.excluded, ...lostOf(of)],
    method: decisionNotes(of).method,
    caveats: [
      ...startedSentence(of, words),
      ...spreadNote(decision),
      ...decisionNotes(of).caveats,
      ...missingTrays(trial),
    ],
  };
}

function cannotTell(of: TreatmentDecision): CannotTell {
  const { decision, thing, gathered } = of;
  const what = inSentence(thing.factor.label);
  const { reason, remedy } = cannotTellWords(what, decision);
  return noAnswer([`Cannot tell whether ${what} mattered for yield: ${reason}.`], [remedy], {
    missing: {
      kind: capOf(decision) === "one-level" ? "vary" : "layout",
      need: `two levels of ${what} in each of two cooks`,
    },
    tables: [levelsTable(of, decision)],
    charts: [levelsChart(of, decision)],
    excluded: gathered.excluded,
    method: decisionNotes(of).method,
    caveats: [...spreadNote(decision), ...decisionNotes(of).caveats],
  });
}

function run(trial: Trial): Outcome {
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined) {
    return noAnswer(
      ["Cannot tell what changed the yield: no good tray has a weight."],
      ["Weigh each tray at harvest, fresh and dry, and type the weights in."],
      { missing: { kind: "record", need: "the weight of each harvested tray" } },
    );
  }
  const of = yieldDecision(trial);
  if (of === undefined) {
    return noAnswer(
      ["Cannot tell what changed the yield: every finished tray was treated alike."],
      ["Give some trays of each cook another dose, strain or supplement, and write it down."],
      { missing: { kind: "vary", need: "two levels of one thing in the same cook" } },
    );
  }
  return of.decision.difference === undefined ? cannotTell(of) : answerOf(trial, of, yieldWords(weight));
}

/** Whether what was varied changed the yield: one verdict with its parts. */
export const whatChangedTheYield: Analysis = {
  id: "what-changed-the-yield",
  name: "What changed yield",
  question: "Did what you varied change the yield?",
  needs: ["tray_id"],
  experimentalUnit: "tray",
  assumes: ["trays of one cook were given their level without looking at them", "trays were weighed the same way"],
  topic: "growing",
  headline: true,
  main: true,
  run,
};
