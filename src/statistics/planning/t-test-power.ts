import { findRoot } from "../distributions/find-root.ts";
import { noncentralTCdf, noncentralTUpperTail } from "../distributions/noncentral-t.ts";
import { studentTQuantile } from "../distributions/student-t.ts";
import { requireOpenProbability, requirePositive } from "../require-numbers.ts";

/** Which t test is planned. */
export interface TTestPlan {
  design: "two-sample" | "one-sample" | "paired";
  /** of one measurement; of the differences when paired; in the measurement's unit */
  standardDeviation: number;
  /** chance of a false alarm, 0.05 unless stated */
  significance?: number;
  /** two-sided unless stated */
  sides?: "two-sided" | "one-sided";
  /** whether a two-sided test's chance of a significant result in the wrong direction counts as power; it does unless ruled out */
  countWrongDirection?: boolean;
}

/** A number of units, whole and before rounding up. */
export interface SampleSize {
  /** units per arm (pairs when paired), rounded up */
  n: number;
  /** where the power is exactly as asked */
  exact: number;
}

/**
 * Chance that a t test finds a difference that is there.
 * @param plan with n, experimental units per arm (pairs when paired), 2 or more, and the true difference in the measurement's unit
 * @returns a probability
 * @throws RangeError if n is below 2, the standard deviation is not above 0, or the significance is not between 0 and 1
 * @source noncentral t: Cohen 1988, Statistical Power Analysis for the Behavioral Sciences, 2nd edition, chapter 2
 * @example tTestPower({ design: "two-sample", n: 20, difference: 1, standardDeviation: 1, countWrongDirection: false }) // 0.86895280...
 */
export function tTestPower(plan: TTestPlan & { n: number; difference: number }): number {
  const { n, difference } = plan;
  requirePlan("tTestPower", plan);
  requireUnits("tTestPower", n);
  if (!Number.isFinite(difference)) {
    throw new RangeError(`tTestPower: difference must be a finite number; received ${difference}`);
  }
  return powerOf(plan, n, difference);
}

/**
 * How many units a t test needs to find a difference with the asked chance.
 * @param plan with the true difference, not 0, in the measurement's unit, and the power, between the significance and 1
 * @returns units per arm (pairs when paired), never below 2
 * @throws RangeError if the difference is 0 or not finite, the power is not above the significance, or a setting is out of range
 * @source as {@link tTestPower}
 * @example tTestSampleSize({ design: "two-sample", difference: 1, standardDeviation: 1, power: 0.9 }).n // 23
 */
export function tTestSampleSize(plan: TTestPlan & { difference: number; power: number }): SampleSize {
  const { difference, power } = plan;
  requirePlan("tTestSampleSize", plan);
  requirePower("tTestSampleSize", plan, power);
  requirePositive("tTestSampleSize", "the size of the difference", Math.abs(difference));
  const short = (n: number): number => powerOf(plan, n, difference) - power;
  return smallestSize(short);
}

/**
 * The smallest true difference a t test of given size finds with the asked chance.
 * @param plan with n, units per arm (pairs when paired), and the power, between the significance and 1
 * @returns a difference above 0, in the measurement's unit
 * @throws RangeError if n is below 2, the power is not above the significance, or a setting is out of range
 * @source as {@link tTestPower}
 * @example tTestDetectableDifference({ design: "two-sample", n: 12, standardDeviation: 2.5, power: 0.8 }) // 2.9920...
 */
export function tTestDetectableDifference(plan: TTestPlan & { n: number; power: number }): number {
  const { n, power } = plan;
  requirePlan("tTestDetectableDifference", plan);
  requirePower("tTestDetectableDifference", plan, power);
  requireUnits("tTestDetectableDifference", n);
  const short = (difference: number): number => powerOf(plan, n, difference) - power;
  let high = plan.standardDeviation;
  while (short(high) < 0) high *= 2;
  return findRoot(short, 0, high, 1e-14);
}

/**
 * The smallest size, 2 or more, at which a rising shortfall reaches 0.
 * @example smallestSize((n) => n - 7).n // 7
 */
export function smallestSize(short: (n: number) => number): SampleSize {
  if (short(2) >= 0) return { n: 2, exact: 2 };
  let high = 4;
  while (short(high) < 0) high *= 2;
  const exact = findRoot(short, high === 4 ? 2 : high / 2, high, 1e-14);
  // a whole number but for a millionth stays that number: the power it lacks is far below what a plan can tell
  return { n: Math.ceil(exact - 1e-6), exact };
}

function powerOf(plan: TTestPlan, n: number, difference: number): number {
  const arms = plan.design === "two-sample" ? 2 : 1;
  const significance = plan.significance ?? 0.05;
  const degreesOfFreedom = (n - 1) * arms;
  const noncentrality = (Math.sqrt(n / arms) * difference) / plan.standardDeviation;
  if (plan.sides === "one-sided") {
    const critical = -studentTQuantile(significance, degreesOfFreedom);
    return noncentralTUpperTail(critical, degreesOfFreedom, noncentrality);
  }
  const critical = -studentTQuantile(significance / 2, degreesOfFreedom);
  const size = Math.abs(noncentrality);
  const right = noncentralTUpperTail(critical, degreesOfFreedom, size);
  return plan.countWrongDirection === false ? right : right + noncentralTCdf(-critical, degreesOfFreedom, size);
}

function requirePlan(routine: string, plan: TTestPlan): void {
  requirePositive(routine, "standardDeviation", plan.standardDeviation);
  requireOpenProbability(routine, "significance", plan.significance ?? 0.05);
}

function requireUnits(routine: string, n: number): void {
  if (!(n >= 2) || n === Number.POSITIVE_INFINITY) {
    throw new RangeError(`${routine}: n must be 2 or more; received ${n}`);
  }
}

function requirePower(routine: string, plan: TTestPlan, power: number): void {
  requireOpenProbability(routine, "power", power);
  const significance = plan.significance ?? 0.05;
  if (!(power > significance)) {
    throw new RangeError(`${routine}: power must be above the significance of ${significance}; received ${power}`);
  }
}
