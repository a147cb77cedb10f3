import type { Quantity, Sentence, SentencePart } from "../../src/analysis.ts";
import {
  type Decision,
  type Difference,
  type Level,
  type MeanRange,
  rangesOfMeans,
  type VerdictSettings,
} from "../../src/decisions/verdict/index.ts";
import type { Factor } from "../../src/design/factor.ts";
import { inRow, inSentence, isOwnColumn, levelLabel, levelName } from "../comparison/level-text.ts";
import { cannotTellWords } from "./cannot-tell-words.ts";
import { isForSubstrate, substrateWords } from "./substrate-beside.ts";
import type { TreatmentDecision } from "./treatment-decision.ts";

/** A chance as a person says it: "about 7 in 8". */
export function chanceText(chance: number): string {
  if (chance >= 0.995) return "more than 99 in 100";
  if (chance <= 0.005) return "less than 1 in 100";
  const known: ReadonlyArray<readonly [share: number, text: string]> = [
    [0.02, "1 in 50"],
    [0.05, "1 in 20"],
    [0.1, "1 in 10"],
    [0.125, "1 in 8"],
    [0.2, "1 in 5"],
    [0.25, "1 in 4"],
    [1 / 3, "1 in 3"],
    [0.4, "2 in 5"],
    [0.5, "1 in 2"],
    [0.6, "3 in 5"],
    [2 / 3, "2 in 3"],
    [0.75, "3 in 4"],
    [0.8, "4 in 5"],
    [0.875, "7 in 8"],
    [0.9, "9 in 10"],
    [0.95, "19 in 20"],
    [0.98, "49 in 50"],
  ];
  const nearest = known.reduce((best, one) => (Math.abs(one[0] - chance) < Math.abs(best[0] - chance) ? one : best));
  return `about ${nearest[1]}`;
}

/** A level inside a sentence: an amount with its unit, or its name. */
export const levelOf = (thing: Factor, level: Level): SentencePart =>
  typeof level === "number" && thing.unit !== ""
    ? { value: level, unit: thing.unit, isSet: true }
    : levelName(thing, String(level));

/** A level beside another of the same thing, whose name is said already; 0 of what has a unit has it, too. */
export const besideLevel = (thing: Factor, level: Level): SentencePart =>
  isOwnColumn(thing) && thing.unit === "" ? String(level) : levelOf(thing, level);

/** The levels of which a tray gave a result. */
export const withMeans = (
  levels: ReadonlyArray<{ level: Level; mean?: number | undefined }>,
): { level: Level; mean: number }[] => levels.flatMap(({ level, mean }) => (mean === undefined ? [] : { level, mean }));

/** Levels with their means: "3 mL 30.1 g, 6 mL 33 g and 9 mL 35.4 g". @param last what joins the last one */
export const meansInRow = (
  thing: Factor,
  seen: ReadonlyArray<{ level: Level; mean: number }>,
  unit: string,
  last = " and ",
): Sentence =>
  seen.flatMap(({ level, mean }, at): Sentence => {
    const before = at === 0 ? "" : at === seen.length - 1 ? last : ", ";
    return [before, levelOf(thing, level), " ", { value: mean, unit, digits: 3 }];
  });

/** The name of a level in a picture of several, and its place among the doses where it is one. */
export const groupName = (thing: Factor, level: Level): { name: string; dose?: number } => ({
  name: levelLabel(thing, String(level)),
  ...(typeof level === "number" ? { dose: level } : {}),
});

/** How a response is spoken of. */
export interface ResponseWords {
  /** "dry a good tray"; stands behind the amount and "more" */
  of: string;
  more: string;
  less: string;
  /** past, and present where chance chose: "gave", "gives" */
  did: string;
  does: string;
  /** whether more is better */
  better: "higher" | "lower";
}

/** An amount of a difference, to the decimals that its interval can carry. */
const amountIn = ({ interval }: Difference, value: number, unit: string): Quantity =>
  interval === undefined
    ? { value: Math.abs(value), unit, digits: 2 }
    : { value: Math.abs(value), unit, within: { from: interval.lower, to: interval.upper } };

/** "5.7 g more" */
const amountMore = (of: Difference, estimate: number, unit: string, words: ResponseWords): Sentence => [
  amountIn(of, estimate, unit),
  ` ${estimate < 0 ? words.less : words.more}`,
];

/** " (1.1 to 10.3 g)" or " (2 g less to 10 g more)"; `sign` is that of `endsOf` */
function betweenWords(of: Difference, unit: string, sign: number, words: ResponseWords): Sentence {
  const { interval } = of;
  if (interval === undefined) return [];
  const [low, high] = sign < 0 ? [-interval.upper, -interval.lower] : [interval.lower, interval.upper];
  const { more, less } = words;
  if (low >= 0) return [" (", { from: low, to: high, unit }, ")"];
  if (high <= 0) return [" (", { from: -high, to: -low, unit }, ")"];
  return [" (", amountIn(of, low, unit), ` ${less} to `, amountIn(of, high, unit), ` ${more})`];
}

/** The two ends a difference is between, the better one first. */
export function endsOf(
  difference: Difference,
  words: ResponseWords,
): { to: Level; from: Level | undefined; sign: number } {
  const sign = difference.estimate < 0 ? -1 : 1;
  const upward = words.better === "higher" ? sign : -sign;
  if (upward > 0 || difference.from === undefined) return { to: difference.to, from: difference.from, sign: 1 };
  return { to: difference.from, from: difference.to, sign: -1 };
}

const against = (thing: Factor, from: Level | undefined): Sentence =>
  from === undefined ? [" than the others"] : [" than ", besideLevel(thing, from)];

/** Whether a difference is 0 in the decimals of its range, which two digits of its width tell. */
function isNought({ estimate, interval }: Difference): boolean {
  const width = interval === undefined ? 0 : interval.upper - interval.lower;
  if (estimate === 0 || !Number.isFinite(width) || width === 0) return estimate === 0;
  const secondDigit = Math.floor(Math.log10(width)) - 1;
  return Math.abs(estimate) < 10 ** secondDigit / 2;
}

/** Both ends came out alike: nothing is more or less. */
function sameSentence(
  factor: Factor,
  { difference }: Decision,
  { did, of, more, less }: ResponseWords,
  unit: string,
): Sentence {
  const { to, from, interval, couldHaveShown } = difference!;
  const both: Sentence = [levelOf(factor, to), from === undefined ? " and the others" : " and "];
  return [
    "Not known yet: ",
    ...both,
    ...(from === undefined ? [] : [besideLevel(factor, from)]),
    ` ${did} the same${of === "" ? "" : ` ${of}`}`,
    ...(interval === undefined || !(interval.upper > 0)
      ? []
      : [
          " (",
          { value: interval.upper, unit, digits: 2 } as const,
          ` ${less} to `,
          { value: interval.upper, unit, digits: 2 } as const,
          ` ${more}); only about `,
          { value: couldHaveShown, unit, digits: 2 } as const,
          " could have shown",
        ]),
    ".",
  ];
}

/** "matters, but not as a steady rise" */
const mattersUnsteadily = ({ better }: ResponseWords): string =>
  `matters, but not as a steady ${better === "higher" ? "rise" : "change"}`;

/** Levels differ, but the difference that is told is not clear of nothing: a curve, or names among which none leads. */
export const isUnsteady = ({ verdict, difference }: Decision): boolean =>
  verdict === "settled" &&
  difference?.interval !== undefined &&
  difference.interval.lower < 0 &&
  difference.interval.upper > 0;

/** The levels with the highest and the lowest mean over the same cooks; undefined where nothing is compared. */
export function extremesOf(
  decision: Decision,
  settings: VerdictSettings,
): { most: MeanRange; least: MeanRange; all: MeanRange[] } | undefined {
  const all = rangesOfMeans(decision, settings);
  const byMean = all.toSorted((a, b) => b.mean - a.mean);
  const [most, least] = [byMean[0], byMean.at(-1)];
  return most === undefined || least === undefined ? undefined : { most, least, all };
}

/** "8 mL gave most (35.6 g), 2 mL least (30.1 g); "; nothing where nothing is compared. */
function extremeWords(
  { factor, decision, settings, unit }: { factor: Factor; decision: Decision; settings: VerdictSettings; unit: string },
  did: string,
): Sentence {
  const found = extremesOf(decision, settings);
  if (found === undefined) return [];
  const mean = ({ mean: value }: MeanRange): Sentence => [" (", { value, unit }, ")"];
  const { most, least } = found;
  return [
    levelOf(factor, most.level),
    ` ${did} most`,
    ...mean(most),
    ", ",
    besideLevel(factor, least.level),
    " least",
    ...mean(least),
    "; ",
  ];
}

/** "the chance that it is better is about 7 in 8": of two ends the likelier; of several names that of being the best. */
function chanceWords({ chance = 0.5, best = [] }: Decision, to: Level): string {
  if (best.length < 3) return `the chance that it is better is ${chanceText(Math.max(chance, 1 - chance))}`;
  return `the chance that it is the best is ${chanceText(best.find(({ level }) => level === to)?.chance ?? chance)}`;
}

/** " Still in the running: Amber and Birch."; nothing where no name is out of it, or only one is in. */
function runningWords({ running = [], levels }: Decision): string {
  const names = running.map(String);
  return names.length > 1 && names.length < levels.length ? ` Still in the running: ${inRow(names)}.` : "";
}

/**
 * The sentence of a decision that compares. No word says that the thing caused it, unless chance chose who got what.
 * @param drawnByLot whether chance chose; then "gives", else "gave"
 * @param onceMore difference that one more cook could show
 */
export function verdictSentence(
  { thing: { factor, kind }, response, beside, settings, substrate }: TreatmentDecision,
  decision: Decision,
  words: ResponseWords,
  drawnByLot: boolean,
  onceMore?: number,
): Sentence {
  const { difference, verdict } = decision;
  const what = inSentence(factor.label);
  if (difference === undefined) return [`Cannot tell: ${cannotTellWords(what, decision, beside).reason}.`];
  const { unit } = response;
  const { to, from, sign } = endsOf(difference, words);
  if (isNought(difference)) return sameSentence(factor, decision, words, unit);
  const estimate = sign * difference.estimate;
  const amount = amountMore(difference, estimate, unit, words);
  const between = betweenWords(difference, unit, sign, words);
  if (verdict === "settled" && difference.interval !== undefined) {
    if (isUnsteady(decision)) {
      return kind === "amount"
        ? [
            `${factor.label} ${mattersUnsteadily(words)}: `,
            ...extremeWords({ factor, decision, settings, unit }, words.did),
            "from end to end ",
            ...amount,
            ...between,
            ".",
          ]
        : [
            `${factor.label} matters, but none stands clear of all the others: `,
            levelOf(factor, to),
            ` ${words.did} `,
            ...amount,
            ...against(factor, from),
            ...between,
            ".",
          ];
    }
    return [
      levelOf(factor, to),
      ` ${drawnByLot ? words.does : words.did} `,
      ...amount,
      words.of === "" ? "" : ` ${words.of}`,
      ...against(factor, from),
      ...between,
      ", likely nearer ",
      amountIn(difference, difference.shrunken, unit),
      ".",
    ];
  }
  const [opening, link] =
    verdict === "leaning"
      ? ["Leaning to ", ": "]
      : [
          `Not known yet${(decision.best?.length ?? 0) < 3 ? "" : " which is best"}: `,
          ` ${drawnByLot ? words.does : words.did} `,
        ];
  const more: Sentence = [...amount, words.of === "" ? "" : ` ${words.of}`, ...against(factor, from), ...between];
  const toward: Sentence = [opening!, levelOf(factor, to), link!, ...more];
  if (substrate !== undefined && isForSubstrate(decision)) {
    return [...toward, ", but its trays", ...substrateWords(substrate, unit, sign), ". Give every tray as much."];
  }
  const chance = `; ${chanceWords(decision, to)}. `;
  if (verdict === "leaning") return [...toward, `${chance}To be surer, repeat it in another cook.`];
  return [
    ...toward,
    `${chance}Only about `,
    { value: difference.couldHaveShown, unit, digits: 2 },
    " could have shown",
    ...(onceMore === undefined || onceMore > 0.97 * difference.couldHaveShown
      ? []
      : ["; with one more cook, about ", { value: onceMore, unit, digits: 2 } as const]),
    ".",
    runningWords(decision),
  ];
}
