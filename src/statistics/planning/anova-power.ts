import { fQuantile } from "../distributions/f.ts";
import { findRoot } from "../distributions/find-root.ts";
import { noncentralFUpperTail } from "../distributions/noncentral-f.ts";
import { requireCount, requireOpenProbability, requirePositive } from "../require-numbers.ts";
import { type SampleSize, smallestSize } from "./t-test-power.ts";

/** A planned comparison of several arms of equal size. */
export interface AnovaPlan {
  /** number of arms, 2 or more */
  groups: number;
  /** variance of the measurement within an arm, in its unit squared */
  withinVariance: number;
  /** chance of a false alarm, 0.05 unless stated */
  significance?: number;
}

/**
 * Chance that a one-way analysis of variance finds differences that are there.
 * @param plan with n, experimental units per arm, 2 or more, and betweenVariance, the variance of the true arm means
 *   (divisor arms - 1), in the measurement's unit squared
 * @returns a probability
 * @throws RangeError if a setting is out of range
 * @source noncentral F: Cohen 1988, Statistical Power Analysis for the Behavioral Sciences, 2nd edition, chapter 8
 * @example anovaPower({ groups: 4, n: 5, betweenVariance: 1, withinVariance: 3 }) // 0.35355942...
 */
export function anovaPower(plan: AnovaPlan & { n: number; betweenVariance: number }): number {
  requirePlan("anovaPower", plan);
  requireUnits("anovaPower", plan.n);
  if (!(plan.betweenVariance >= 0) || plan.betweenVariance === Number.POSITIVE_INFINITY) {
    throw new RangeError(`anovaPower: betweenVariance must be 0 or more; received ${plan.betweenVariance}`);
  }
  return powerOf(plan, plan.n, plan.betweenVariance);
}

/**
 * How many units per arm a one-way analysis of variance needs.
 * @param plan with betweenVariance, the variance of the true arm means (divisor arms - 1), above 0, and the power,
 *   between the significance and 1
 * @returns units per arm, never below 2
 * @throws RangeError if a setting is out of range
 * @source as {@link anovaPower}
 * @example anovaSampleSize({ groups: 4, betweenVariance: 1, withinVariance: 3, power: 0.8 }).n // 12
 */
export function anovaSampleSize(plan: AnovaPlan & { betweenVariance: number; power: number }): SampleSize {
  requirePlan("anovaSampleSize", plan);
  requirePower("anovaSampleSize", plan);
  requirePositive("anovaSampleSize", "betweenVariance", plan.betweenVariance);
  return smallestSize((n) => powerOf(plan, n, plan.betweenVariance) - plan.power);
}

/**
 * The smallest variance of the true arm means that a one-way analysis of variance of given size finds with the asked chance.
 * @param plan with n, units per arm, 2 or more, and the power, between the significance and 1
 * @returns variance of the arm means (divisor arms - 1), in the measurement's unit squared
 * @throws RangeError if a setting is out of range
 * @source as {@link anovaPower}
 * @example anovaDetectableVariance({ groups: 4, n: 12, withinVariance: 3, power: 0.8 }) // 0.9932...
 */
export function anovaDetectableVariance(plan: AnovaPlan & { n: number; power: number }): number {
  requirePlan("anovaDetectableVariance", plan);
  requirePower("anovaDetectableVariance", plan);
  requireUnits("anovaDetectableVariance", plan.n);
  const short = (between: number): number => powerOf(plan, plan.n, between) - plan.power;
  let high = plan.withinVariance;
  while (short(high) < 0) high *= 2;
  return findRoot(short, 0, high, 1e-14);
}

function powerOf(plan: AnovaPlan, n: number, betweenVariance: number): number {
  const df1 = plan.groups - 1;
  const df2 = (n - 1) * plan.groups;
  const critical = fQuantile(1 - (plan.significance ?? 0.05), df1, df2);
  return noncentralFUpperTail(critical, df1, df2, (df1 * n * betweenVariance) / plan.withinVariance);
}

function requirePlan(routine: string, plan: AnovaPlan): void {
  requireCount(routine, "groups", plan.groups, 2);
  requirePositive(routine, "withinVariance", plan.withinVariance);
  requireOpenProbability(routine, "significance", plan.significance ?? 0.05);
}

function requireUnits(routine: string, n: number): void {
  if (!(n >= 2) || n === Number.POSITIVE_INFINITY) {
    throw new RangeError(`${routine}: n must be 2 or more; received ${n}`);
  }
}

function requirePower(routine: string, plan: AnovaPlan & { power: number }): void {
  requireOpenProbability(routine, "power", plan.power);
  const significance = plan.significance ?? 0.05;
  if (!(plan.power > significance)) {
    throw new RangeError(`${routine}: power must be above the significance of ${significance}; received ${plan.power}`);
  }
}
