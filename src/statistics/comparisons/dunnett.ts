import { findRoot } from "../distributions/find-root.ts";
import { normalQuantile } from "../distributions/normal.ts";
import { studentTQuantile } from "../distributions/student-t.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { type Direction, largestComparisonUpperTail } from "./largest-comparison.ts";
import { groupMeans } from "./means-of-groups.ts";
import { type MeansWithCommonError, requireMeansWithCommonError } from "./means-with-common-error.ts";

/** One group compared with the control. */
export interface ControlComparison {
  /** position of the group */
  group: number;
  /** group's mean less the control's */
  difference: number;
  /** limits that hold for all groups at once; infinite on the side that a one-sided question leaves open */
  lower: number;
  upper: number;
  standardError: number;
  t: number;
  /** adjusted for all groups */
  p: number;
}

/** Every group compared with the control. */
export interface DunnettResult {
  control: number;
  degreesOfFreedom: number;
  /** the t that the largest difference exceeds with probability 1 - level when nothing differs */
  criticalT: number;
  level: number;
  direction: Direction;
  comparisons: ControlComparison[];
}

/** How groups are compared with a control. */
export interface DunnettOptions {
  /** position of the control; 0 unless stated */
  control?: number;
  /** of the whole set of intervals; 0.95 unless stated */
  level?: number;
  /** "either" (the default), or "above" or "below" the control when only that would matter */
  direction?: Direction;
}

/**
 * Compares every group with one control, with p-values and limits that hold together, taking variances as equal.
 * @param groups values of each group; counts may differ
 * @param options see {@link DunnettOptions}
 * @returns exact p-values and limits by numerical integration, error below 1e-10
 * @throws RangeError if there are fewer than two groups, one is empty, a value is not finite, nothing varies within groups,
 *   or the control is not one of the groups
 * @source Dunnett 1955, Journal of the American Statistical Association 50(272):1096-1121; unequal counts: Dunnett 1964,
 *   Biometrics 20(3):482-491
 * @example dunnett([[5, 6, 7], [7, 8, 10], [6, 7, 7]]).comparisons[0].p // 0.07167...
 */
export function dunnett(groups: ReadonlyArray<ReadonlyArray<number>>, options: DunnettOptions = {}): DunnettResult {
  const means = groupMeans("dunnett", groups, 1);
  const degreesOfFreedom = means.reduce((sum, { count }) => sum + count - 1, 0);
  const squares = means.reduce((sum, { count, variance }) => sum + (count - 1) * variance, 0);
  if (degreesOfFreedom < 1 || squares === 0) {
    throw new RangeError("dunnett: values must differ within a group; received groups without any spread");
  }
  return dunnettOfMeans(
    {
      means: means.map(({ mean }) => mean),
      counts: means.map(({ count }) => count),
      errorVariance: squares / degreesOfFreedom,
      degreesOfFreedom,
    },
    options,
  );
}

/**
 * As `dunnett`, from the means and residual mean square of any balanced analysis, such as a trial in complete blocks.
 * @throws RangeError if there are fewer than two means, lists differ in length, a mean is not finite, a count is not a whole
 *   number above 0, the error variance or its degrees of freedom are not above 0, or the control is not one of the means
 * @source as {@link dunnett}
 * @example dunnettOfMeans({ means: [5, 6, 8], counts: [4, 4, 4], errorVariance: 1, degreesOfFreedom: 6 }).comparisons[1].t // 4.2426...
 */
export function dunnettOfMeans(input: MeansWithCommonError, options: DunnettOptions = {}): DunnettResult {
  const routine = "dunnettOfMeans";
  const { control = 0, level = 0.95, direction = "either" } = options;
  requireMeansWithCommonError(routine, input);
  requireOpenProbability(routine, "level", level);
  const { means, counts, errorVariance, degreesOfFreedom } = input;
  if (!Number.isInteger(control) || control < 0 || control >= means.length) {
    throw new RangeError(`${routine}: control must be one of the ${means.length} groups; received position ${control}`);
  }
  const others = means.map((_, group) => group).filter((group) => group !== control);
  const ofControl = counts[control]!;
  const loadings = others.map((group) => Math.sqrt(counts[group]! / (counts[group]! + ofControl)));
  const criticalT = criticalValue(level, loadings, degreesOfFreedom, direction);
  const comparisons = others.map((group) => {
    const difference = means[group]! - means[control]!;
    const standardError = Math.sqrt(errorVariance * (1 / counts[group]! + 1 / ofControl));
    const t = difference / standardError;
    const towards = direction === "either" ? Math.abs(t) : direction === "above" ? t : -t;
    const half = criticalT * standardError;
    return {
      group,
      difference,
      lower: direction === "below" ? Number.NEGATIVE_INFINITY : difference - half,
      upper: direction === "above" ? Number.POSITIVE_INFINITY : difference + half,
      standardError,
      t,
      p:
        direction === "either" && towards === 0
          ? 1
          : largestComparisonUpperTail(towards, loadings, degreesOfFreedom, direction),
    };
  });
  return { control, degreesOfFreedom, criticalT, level, direction, comparisons };
}

/** The t that the largest of the statistics exceeds with probability 1 - level. */
function criticalValue(
  level: number,
  loadings: ReadonlyArray<number>,
  degreesOfFreedom: number,
  direction: Direction,
): number {
  // one comparison alone needs less, all of them by Bonferroni's bound need more
  const tails = direction === "either" ? 2 : 1;
  const alone = studentTQuantile(1 - (1 - level) / tails, degreesOfFreedom);
  const bound = studentTQuantile(1 - (1 - level) / tails / loadings.length, degreesOfFreedom);
  if (loadings.length === 1) return alone;
  // on the scale of normal deviates the probability is nearly straight in t
  const target = normalQuantile(1 - level);
  const distance = (t: number) => {
    const beyond = largestComparisonUpperTail(t, loadings, degreesOfFreedom, direction);
    return beyond >= 1 ? 40 : normalQuantile(Math.max(beyond, 1e-300)) - target;
  };
  const slack = 1e-9 * (1 + Math.abs(bound));
  return findRoot(distance, alone - slack, bound + slack, 1e-12);
}
