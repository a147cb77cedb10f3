import { studentTCdf, studentTQuantile } from "../../statistics/distributions/student-t.ts";
import { fewCooks } from "./compare-inside-cooks.ts";
import type { VerdictSettings } from "./compared-tray.ts";
import type { Cap, Decision, Level, Verdict } from "./decision.ts";
import { type Estimate, pOf, shrinkageOf } from "./estimate.ts";
import { fillSettings } from "./fill-settings.ts";
import { leaningFrom, mostThat, verdictOf } from "./judge.ts";
import { type AgainstUsual, againstUsual, comparedLevels } from "./ranges-of-means.ts";

/** What a level gives more than the one it is measured against; limits hold for all such levels at once. */
export type Gain = AgainstUsual;

/**
 * What every other level gives more than one of them: of two levels the decision's own difference.
 * @returns none where nothing is compared, or no interval holds
 * @source Dunnett 1955, Journal of the American Statistical Association 50:1096-1121
 * @example gainsOver(decideComparison(comparedTrays.filter(({ level }) => level !== 6)), 3).length // 1
 */
export function gainsOver(decision: Decision, level: Level, settings: VerdictSettings = {}): Gain[] {
  const { difference } = decision;
  if (difference?.interval === undefined) return [];
  const { from, to, interval, estimate, standardError, degreesOfFreedom } = difference;
  if (comparedLevels(decision).length > 2) return againstUsual(decision, level, settings);
  if (level === from) return [{ level: to, estimate, standardError, degreesOfFreedom, ...interval }];
  if (level !== to || from === undefined) return [];
  return [
    {
      level: from,
      estimate: -estimate,
      standardError,
      degreesOfFreedom,
      lower: -interval.upper,
      upper: -interval.lower,
    },
  ];
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
