import { findRoot } from "../distributions/find-root.ts";
import { normalQuantile } from "../distributions/normal.ts";
import { studentTQuantile } from "../distributions/student-t.ts";
import { requireCount, requireFinite, requirePositive } from "../require-numbers.ts";
import { largestComparisonUpperTail } from "./largest-comparison.ts";

const level = 0.95;

/** Means that share one error variance. */
export interface MeansWithCommonError {
  means: ReadonlyArray<number>;
  /** observations behind each mean */
  counts: ReadonlyArray<number>;
  /** residual mean square of the analysis the means come from */
  errorVariance: number;
  /** of the residual mean square */
  degreesOfFreedom: number;
}

/** One group against the control. */
export interface ControlComparison {
  /** position of the group */
  group: number;
  /** mean of the group minus mean of the control */
  difference: number;
  /** 95 % limits that hold for all groups at once */
  lower: number;
  upper: number;
  standardError: number;
}

/**
 * Every mean against one control, with 95 % limits that hold together, from the means and residual mean square of any balanced
 * analysis, such as a trial in complete blocks.
 * @param control position of the control
 * @returns limits by numerical integration, error below 1e-10
 * @throws RangeError if there are fewer than two means, lists differ in length, a mean is not finite, a count is not a whole
 *   number above 0, the error variance or its degrees of freedom are not above 0, or the control is not one of the means
 * @source Dunnett 1955, Journal of the American Statistical Association 50(272):1096-1121; unequal counts: Dunnett 1964,
 *   Biometrics 20(3):482-491
 * @example dunnett({ means: [5, 6, 8], counts: [4, 4, 4], errorVariance: 1, degreesOfFreedom: 6 }, 0)[1].upper // 5.0242...
 */
export function dunnett(input: MeansWithCommonError, control: number): ControlComparison[] {
  const { means, counts, errorVariance, degreesOfFreedom } = input;
  if (means.length < 2 || counts.length !== means.length) {
    throw new RangeError(
      `dunnett: 2 means or more are needed, each with a count; received ${means.length} and ${counts.length}`,
    );
  }
  requireFinite("dunnett", "means", means);
  for (const count of counts) requireCount("dunnett", "a count", count, 1);
  requirePositive("dunnett", "errorVariance", errorVariance);
  requirePositive("dunnett", "degreesOfFreedom", degreesOfFreedom);
  if (!Number.isInteger(control) || control < 0 || control >= means.length) {
    throw new RangeError(`dunnett: control must be one of the ${means.length} groups; received position ${control}`);
  }
  const others = means.map((_, group) => group).filter((group) => group !== control);
  const ofControl = counts[control]!;
  const loadings = others.map((group) => Math.sqrt(counts[group]! / (counts[group]! + ofControl)));
  const criticalT = criticalValue(loadings, degreesOfFreedom);
  return others.map((group) => {
    const difference = means[group]! - means[control]!;
    const standardError = Math.sqrt(errorVariance * (1 / counts[group]! + 1 / ofControl));
    const half = criticalT * standardError;
    return { group, difference, lower: difference - half, upper: difference + half, standardError };
  });
}

/** The t that the largest of the statistics exceeds with 5 % probability. */
function criticalValue(loadings: ReadonlyArray<number>, degreesOfFreedom: number): number {
  // one comparison alone needs less, all of them by Bonferroni's bound need more
  const alone = studentTQuantile(1 - (1 - level) / 2, degreesOfFreedom);
  const bound = studentTQuantile(1 - (1 - level) / 2 / loadings.length, degreesOfFreedom);
  if (loadings.length === 1) return alone;
  // on the scale of normal deviates the probability is nearly straight in t
  const target = normalQuantile(1 - level);
  const distance = (t: number) => {
    const beyond = largestComparisonUpperTail(t, loadings, degreesOfFreedom);
    return beyond >= 1 ? 40 : normalQuantile(Math.max(beyond, 1e-300)) - target;
  };
  const slack = 1e-9 * (1 + Math.abs(bound));
  return findRoot(distance, alone - slack, bound + slack, 1e-12);
}
