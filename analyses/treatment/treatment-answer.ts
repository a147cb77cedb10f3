import type {
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
import { decisionNotes, spreadNote } from "./decision-notes.ts";
import { isDrawnByLot, type TreatmentDecision } from "./treatment-decision.ts";
import { differenceEstimate, levelsChart, levelsTable, pairsTable } from "./treatment-tables.ts";
import { cannotTellWords, capOf, endsOf, levelOf, type ResponseWords, verdictSentence } from "./verdict-words.ts";

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
  const [more, probably] =
    words.better === "higher" ? ["More from ", "Probably more from "] : ["Quicker with ", "Probably quicker with "];
  const short: Readonly<Record<Decision["verdict"], Sentence>> = {
    settled: [more!, ...pair, "."],
    leaning: [probably!, ...pair, "."],
    open: [`Whether ${what} matters is not known yet: `, ...pair, "."],
    "cannot-tell": [`What ${what} did cannot be told apart from the rest.`],
  };
  return {
    short: short[verdict],
    figure: { label: words.of, value, unit: response.unit, signed: true, digits: 2, ...range },
    strip: {
      kind: "difference",
      unit: response.unit,
      value,
      ...range,
      zero: words.better === "higher" ? "no gain" : "no change",
    },
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

/** The whole answer of a decision that compares. */
function comparedAnswer(trial: Trial, of: TreatmentDecision, words: ResponseWords): Answer {
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
    caveats: [...startedSentence(of, words), ...spreadNote(decision), ...decisionNotes(of).caveats],
  };
}

/** What is known where nothing can be compared: means and trays, and what would settle it. */
function meansOnly(of: TreatmentDecision, result: string): CannotTell {
  const { decision, thing, gathered } = of;
  const what = inSentence(thing.factor.label);
  const { reason, remedy } = cannotTellWords(what, decision);
  return noAnswer([`Cannot tell whether ${what} mattered for ${result}: ${reason}.`], [remedy], {
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

/**
 * The answer of a decision: verdict, size, range, chance, every tray, and what to do; means and trays where nothing can be
 * compared.
 * @param result what the thing may have changed, inside a sentence: "yield", "days to colonise"
 */
export function treatmentAnswer(trial: Trial, of: TreatmentDecision, words: ResponseWords, result: string): Outcome {
  const { label } = of.thing.factor;
  const asked = {
    question: `Did the ${inSentence(label)} change the ${result}?`,
    name: `${label} and ${result.split(" ")[0]!}`,
  };
  const outcome = of.decision.difference === undefined ? meansOnly(of, result) : comparedAnswer(trial, of, words);
  return { ...outcome, asked };
}
