import { studentTCdf, studentTQuantile } from "../../statistics/distributions/student-t.ts";
import { fewCooks } from "./compare-inside-cooks.ts";
import type { VerdictSettings } from "./compared-tray.ts";
import type { Cap, Decision, Pair, Verdict } from "./decision.ts";
import { couldHaveShown, type Estimate, intervalOf, pOf, shrinkageOf } from "./estimate.ts";
import { fillSettings } from "./fill-settings.ts";
import type { Gain } from "./ranges-of-means.ts";

/** From this chance on a side, or a level, is leant to. */
export const leaningFrom = 0.85;

const strictness: Record<Verdict, number> = { settled: 0, leaning: 1, open: 2, "cannot-tell": 3 };

/** The strictest verdict that the caps leave. */
export function mostThat(caps: ReadonlyArray<Cap>): Verdict {
  return caps.reduce<Verdict>((most, { at }) => (strictness[at] > strictness[most] ? at : most), "settled");
}

/** What a decision holds before a significance level turns it into a verdict. */
export type Undecided = Omit<Decision, "verdict" | "significance" | "pairs"> & {
  /** pairs in the order in which they are tested */
  pairs: ReadonlyArray<Omit<Pair, "settled">>;
};

/**
 * Decides at a significance level, or decides again at another: the word, the interval that goes with it, the pairs.
 * Pairs of four or more ordered levels are tested in order and stop at the first that fails.
 * @source fixed order: Marcus, Peritz and Gabriel 1976, Biometrika 63:655-660; all pairs of three levels after the test of all:
 *   Hayter 1986, Journal of the American Statistical Association 81:1000-1004
 * @example atSignificance(decideComparison(comparedTrays), 0.005).verdict // "settled"
 */
export function atSignificance(undecided: Undecided, significance: number): Decision {
  const { p, chance, settleable, caps, errors, difference } = undecided;
  const most = mostThat(caps);
  const verdict = verdictOf(most, settleable && p !== undefined && p < significance, chance);
  const settled = verdict === "settled";
  let standing = settled;
  const pairs = undecided.pairs.map((pair): Pair => {
    const holds = standing && pair.p < significance;
    if (undecided.pairsInOrder && !holds) standing = false;
    return { ...pair, settled: holds };
  });
  const error = settled ? errors?.settled : errors?.supposed;
  return {
    ...undecided,
    verdict,
    significance,
    pairs,
    ...(difference === undefined || error === undefined
      ? {}
      : {
          difference: {
            ...difference,
            ...error,
            couldHaveShown: couldHaveShown(error),
            interval: intervalOf({ estimate: difference.estimate, ...error }, errors!.miss),
          },
        }),
  };
}

/** The word, from what the caps leave, whether it would settle, and the chance behind leaning. */
function verdictOf(most: Verdict, settles: boolean, chance: number | undefined): Verdict {
  if (most === "cannot-tell") return most;
  if (settles && most === "settled") return "settled";
  const leans = chance !== undefined && chance >= leaningFrom;
  return leans && strictness[most] <= strictness.leaning ? "leaning" : "open";
}

/** Whether a gain is more than it has to be. */
export interface JudgedGain {
  verdict: Verdict;
  caps: ReadonlyArray<Cap>;
  /** that the gain is just what it has to be, allowing for the gains judged together; absent where no test decides */
  p?: number;
  settleable: boolean;
  significance: number;
  /** chance that the gain is more than it has to be */
  chance: number;
}

/**
 * Judges whether a gain exceeds what it costs, with the caps, the error and the level of the decision it comes from.
 * @param least what the gain has to be, in its own unit
 * @param together how many gains are judged together (Bonferroni)
 * @source the project's own: the test of the verdict rules at `least` in place of 0
 * @example judgeGain(decideComparison(comparedTrays), gainsOver(decideComparison(comparedTrays), 3).at(-1)!, 0, 1).chance > 0.5 // true
 */
export function judgeGain(
  decision: Decision,
  gain: Gain,
  least: number,
  together: number,
  settings: VerdictSettings = {},
): JudgedGain {
  const { caps, significance, cooks } = decision;
  const error = errorTowards(gain, least, together);
  const chance = chanceOver(error, least, fillSettings(settings).gainSd(meanOf(decision)));
  // what is supposed of gains alone leans to nothing: the trays have to lie on that side, too
  const agrees = (chance - 0.5) * (gain.estimate - least) > 0;
  const sure = agrees ? Math.max(chance, 1 - chance) : 0.5;
  const p =
    decision.p === undefined ? undefined : Math.min(1, together * pOf({ ...error, estimate: gain.estimate - least }));
  const settleable = p !== undefined && (cooks > fewCooks || sure >= leaningFrom);
  const verdict = verdictOf(mostThat(caps), settleable && p < significance, sure);
  return { verdict, caps, ...(p === undefined ? {} : { p }), settleable, significance, chance };
}

/** The error on the side where the least lies: limits of started trays are not even. */
function errorTowards(gain: Gain, least: number, together: number): Estimate {
  const { estimate, standardError, degreesOfFreedom, lower, upper } = gain;
  if (together > 1) return { estimate, standardError, degreesOfFreedom };
  const side = least < estimate ? estimate - lower : upper - estimate;
  return { estimate, standardError: side / studentTQuantile(0.975, degreesOfFreedom), degreesOfFreedom };
}

/** Chance that the true gain is above `least`, gains being drawn towards 0 as everywhere. */
function chanceOver({ estimate, standardError, degreesOfFreedom }: Estimate, least: number, gainSd: number): number {
  if (standardError === 0) return estimate > least ? 1 : estimate < least ? 0 : 0.5;
  const shrinkage = shrinkageOf(standardError, gainSd);
  return studentTCdf((shrinkage * estimate - least) / (Math.sqrt(shrinkage) * standardError), degreesOfFreedom);
}

/** Mean of a tray as the decision has it. */
function meanOf({ levels }: Decision): number {
  const known = levels.flatMap(({ mean, values }) => (mean === undefined ? [] : [{ mean, trays: values.length }]));
  const trays = known.reduce((sum, one) => sum + one.trays, 0);
  return known.reduce((sum, one) => sum + (one.mean * one.trays) / trays, 0);
}
