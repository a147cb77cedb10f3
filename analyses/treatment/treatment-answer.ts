import type {
  Answer,
  AnswerFront,
  CannotTell,
  Chart,
  Excluded,
  NextStep,
  Outcome,
  Sentence,
  Table,
  Trial,
} from "../../src/analysis.ts";
import { atSignificance, couldShowAfter, type Decision } from "../../src/decisions/verdict/index.ts";
import { inSentence, levelName, theThing } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { namedThing } from "./book-dose-decision.ts";
import { cameTogether } from "./came-together.ts";
import { cannotTellWords, capOf } from "./cannot-tell-words.ts";
import { decisionNotes } from "./decision-notes.ts";
import { isDrawnByLot, type TreatmentDecision, thingsOf } from "./treatment-decision.ts";
import {
  differenceEstimate,
  levelsChart,
  levelsTable,
  pairsTable,
  readingsTable,
  usualTable,
} from "./treatment-tables.ts";
import {
  besideLevel,
  endsOf,
  extremesOf,
  groupName,
  isUnsteady,
  levelOf,
  meansInRow,
  type ResponseWords,
  verdictSentence,
  withMeans,
} from "./verdict-words.ts";

/** What stands at the front: at most sixteen words, the number and its picture. */
function frontOf(trial: Trial, of: TreatmentDecision, decision: Decision, words: ResponseWords): AnswerFront {
  const { thing, response } = of;
  const { difference, verdict } = decision;
  const what = inSentence(thing.factor.label);
  if (difference === undefined) return {};
  if (isUnsteady(decision)) return unsteadyFront(trial, of, decision, words);
  const { to, from, sign } = endsOf(difference, words);
  const against: Sentence = from === undefined ? ["the others"] : [besideLevel(thing.factor, from)];
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
    open: [`Whether ${what} matters is not known yet: `, besideLevel(thing.factor, to), " against ", ...against, "."],
    "cannot-tell": [`What ${what} did cannot be separated from the rest.`],
  };
  return {
    short: short[verdict],
    figure: {
      label: words.of || response.label.replace(/^days /, ""),
      value,
      unit: response.unit,
      signed: true,
      ...range,
    },
    strip: {
      kind: "difference",
      unit: response.unit,
      value,
      ...range,
      zero: words.better === "higher" ? "no gain" : "no change",
    },
    next: nextOf(trial, of, decision, words),
  };
}

/** Means that a strip has room for. */
const mostDrawn = 4;

/** The front where levels differ but not from end to end: the best level, and every mean. */
function unsteadyFront(trial: Trial, of: TreatmentDecision, decision: Decision, words: ResponseWords): AnswerFront {
  const {
    thing: { factor, kind },
    response: { unit },
  } = of;
  const found = extremesOf(decision, of.settings);
  if (found === undefined) return {};
  const { most, least, all } = found;
  const isMost = words.better === "higher";
  const [best, worst] = isMost ? [most, least] : [least, most];
  const label = `${words.did} ${isMost ? "most" : "least"}${words.of === "" ? "" : `, ${words.of}`}`;
  return {
    short: [
      `${factor.label} matters, but ${kind === "amount" ? "not steadily" : "no one level leads"}: `,
      levelOf(factor, worst.level),
      ` ${words.did} ${isMost ? "least" : "most"}.`,
    ],
    figure:
      typeof best.level === "number"
        ? { label, value: best.level, unit: factor.unit }
        : { label, text: levelName(factor, String(best.level)) },
    strip: {
      kind: "groups",
      unit,
      groups: all
        .filter((one) => all.length <= mostDrawn || one === most || one === least)
        .map(({ level, mean: value, lower: from, upper: to }) => ({
          ...groupName(factor, level),
          ...{ value, from, to },
        })),
    },
    next: nextOf(trial, of, decision, words),
  };
}

/** What to do about it, where trays decide: the level to use, or the thing to write down. */
function nextOf(trial: Trial, of: TreatmentDecision, decision: Decision, words: ResponseWords): NextStep[] {
  const { difference, caps, verdict } = decision;
  const { factor, kind } = of.thing;
  if (difference === undefined || of.thing.isPeriod) return [];
  if (caps.some(({ reason }) => reason === "cooks-not-recorded" || reason === "cook-assumed")) {
    return [
      {
        rank: "record",
        act: ["Write down the cook of every tray."],
        because: ["Cooks differ, and nothing says which tray came from which."],
      },
    ];
  }
  if (isUnsteady(decision)) return [];
  // what an amount, a supplement or a name earns is the money answers' to say; whether more cooks pay is that of more trays
  const saidByMoney = kind === "amount" || factor.key.startsWith("supplement") || namedThing(trial) === of.thing;
  if (verdict !== "settled" || words.better === "lower" || saidByMoney) return [];
  return [
    {
      rank: "dose",
      act: ["Use ", levelOf(factor, endsOf(difference, words).to), "."],
      because: ["It gave more than the others, cook by cook."],
    },
  ];
}

/** Whether started trays say anything that good ones do not. */
export const someLost = ({ decision }: TreatmentDecision): boolean => decision.levels.some(({ lost }) => lost > 0);

/** The figure of started trays, in a sentence of its own. */
function startedSentence(of: TreatmentDecision, words: ResponseWords): Sentence[] {
  const { response, thing } = of;
  if (!someLost(of)) return [];
  const difference = of.started()?.difference;
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
      { value: sign * difference.estimate, unit: response.unit, signed: true, within: { from: low!, to: high! } },
      " a started tray against ",
      from === undefined ? "the others" : besideLevel(thing.factor, from),
      " (",
      { from: low!, to: high!, unit: response.unit, signed: true },
      ").",
    ],
  ];
}

/** Lost trays say nothing of the weight of a good one. */
function lostOf({ gathered }: TreatmentDecision): Excluded[] {
  const lost = gathered.trays.flatMap(({ row, value }) => (value === "lost" ? [gathered.byRow[row]!.trayId] : []));
  return lost.length === 0 ? [] : [{ trays: lost, reason: "lost, so counted in the figure of started trays alone" }];
}

/** All that depends on the word: sentence, front, figures, tables, chart. */
function partsAt(trial: Trial, of: TreatmentDecision, decision: Decision, words: ResponseWords) {
  const { response } = of;
  const started = someLost(of) ? of.started() : undefined;
  const later = decision.verdict === "open" ? couldShowAfter(decision, 1, of.settings) : undefined;
  const tables = [
    levelsTable(of, decision),
    pairsTable(of, decision),
    usualTable(of, decision, trial.trays),
    readingsTable(of),
  ];
  return {
    certainty: decision.verdict === "cannot-tell" ? ("open" as const) : decision.verdict,
    sentence: verdictSentence(of, decision, words, isDrawnByLot(trial), later),
    ...frontOf(trial, of, decision, words),
    estimates: [
      ...differenceEstimate(of, decision),
      ...(started === undefined
        ? []
        : differenceEstimate(of, started, response.label.replace("good", "started")).map(({ p: _, ...rest }) => rest)),
    ],
    tables: tables.filter((one): one is Table => one !== undefined),
    charts: [levelsChart(of, decision)] satisfies Chart[],
  };
}

/** The whole answer of a decision that compares. */
function comparedAnswer(trial: Trial, of: TreatmentDecision, words: ResponseWords): Answer {
  const { decision, gathered, isMain, settledBefore } = of;
  const others = thingsOf(trial).filter(({ factor }) => factor !== of.substrate?.factor);
  const notes = decisionNotes(trial, of, cameTogether(of.thing, others, trial));
  // the main question comes first in a report, so nothing lowers it
  const mayFall = decision.verdict === "settled" && !isMain;
  return {
    kind: "answer",
    ...partsAt(trial, of, decision, words),
    ...(mayFall ? { lowered: partsAt(trial, of, atSignificance(decision, Number.MIN_VALUE), words) } : {}),
    // the others go by the word of the main question, whatever reading its level was kept for
    test: {
      ...decision,
      settledBefore,
      settleable: decision.settleable && (!isMain || decision.verdict === "settled"),
    },
    excluded: [...gathered.excluded, ...lostOf(of)],
    method: notes.method,
    caveats: [...startedSentence(of, words), ...notes.caveats],
  };
}

/** Means are told one by one of so many levels. */
const mostTold = 6;

/** "Seen so far: 3 mL 30.1 g and 9 mL 35.4 g dry a good tray; of 12 mL none." */
function seenSoFar({ decision, thing: { factor }, response }: TreatmentDecision, words: ResponseWords): Sentence {
  const seen = withMeans(decision.levels);
  const none = decision.levels.filter(({ mean }) => mean === undefined);
  if (seen.length === 0 || decision.levels.length > mostTold) return [];
  return [
    " Seen so far: ",
    ...meansInRow(factor, seen, response.unit),
    words.of === "" ? "" : ` ${words.of}`,
    ...none.flatMap(({ level }, at): Sentence => [at === 0 ? "; none of " : ", ", levelOf(factor, level)]),
    ".",
  ];
}

/** What is known where nothing can be compared: means and trays, and what would settle it. */
function meansOnly(trial: Trial, of: TreatmentDecision, words: ResponseWords, result: string): CannotTell {
  const { decision, thing, gathered } = of;
  const notes = decisionNotes(trial, of, []);
  const what = inSentence(thing.factor.label);
  const { reason, remedy, missing, next } = cannotTellWords(what, decision, of.beside);
  // a level of which all were lost was tried already
  const none = decision.levels.find(({ mean, started }) => mean === undefined && started > 0);
  const settle: Sentence =
    none !== undefined && capOf(decision) === "one-level"
      ? ["Start more trays of ", levelOf(thing.factor, none.level), ": none was picked."]
      : [remedy];
  return noAnswer([`Cannot tell whether ${what} mattered for ${result}: ${reason}.`, ...seenSoFar(of, words)], settle, {
    missing,
    // no answer stands on the front where the layout allows none: what would allow one does
    ...(missing.kind === "layout" ? { next: [next] } : {}),
    tables: [levelsTable(of, decision)],
    charts: [levelsChart(of, decision)],
    excluded: gathered.excluded,
    method: notes.method,
    caveats: [...startedSentence(of, words), ...notes.caveats],
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
    question: `Did ${theThing(of.thing.factor)} change the ${result}?`,
    name: `${label} and ${result.split(" ")[0]!}`,
  };
  const outcome =
    of.decision.difference === undefined ? meansOnly(trial, of, words, result) : comparedAnswer(trial, of, words);
  return { ...outcome, asked };
}
