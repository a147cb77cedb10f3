import { requirePositive } from "../require-numbers.ts";
import { type SampleSize, tTestSampleSize } from "./t-test-power.ts";

/** What a grower knows before a trial of two arms. */
export interface TwoArmTrial {
  /** standard deviation between trays over their mean: 0.2 for 20 % */
  coefficientOfVariation: number;
  /** the difference worth finding, as a share of the mean: 0.1 for 10 % */
  relativeDifference: number;
  /** chance of finding it, 0.8 unless stated */
  power?: number;
  /** chance of a false alarm, 0.05 unless stated */
  significance?: number;
  /** two-sided unless stated */
  sides?: "two-sided" | "one-sided";
}

/**
 * How many trays each of two arms needs, from how much trays vary and the difference worth finding. Trays must be
 * treated independently; trays of one jar or one cooker load count for less (see designEffect).
 * @param trial settings as shares of the mean
 * @throws RangeError if a share is not above 0 or a probability is out of range
 * @source two-sample t test by the noncentral t: Cohen 1988, Statistical Power Analysis for the Behavioral Sciences, 2nd
 *   edition, chapter 2
 * @example traysPerArm({ coefficientOfVariation: 0.2, relativeDifference: 0.2 }).n // 17
 */
export function traysPerArm(trial: TwoArmTrial): SampleSize {
  requirePositive("traysPerArm", "coefficientOfVariation", trial.coefficientOfVariation);
  requirePositive("traysPerArm", "relativeDifference", trial.relativeDifference);
  return tTestSampleSize({
    design: "two-sample",
    standardDeviation: trial.coefficientOfVariation,
    difference: trial.relativeDifference,
    power: trial.power ?? 0.8,
    significance: trial.significance ?? 0.05,
    sides: trial.sides ?? "two-sided",
  });
}
