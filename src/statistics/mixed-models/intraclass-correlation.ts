import { chiSquareQuantile } from "../distributions/chi-square.ts";
import { zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import type { MixedModel } from "./fit-mixed-model.ts";
import { profileLimits } from "./profile-limits.ts";
import { minimiseDeviance, type VariancePlane } from "./variance-search.ts";

/** Share of the variance that lies between groups. */
export interface IntraclassCorrelation {
  /** the groupings whose variances are counted */
  groupings: string[];
  estimate: number;
  /** profile-likelihood limits */
  lower: number;
  upper: number;
  level: number;
}

/**
 * Variances that keep the share of the counted ones at a given value form a plane; its free numbers are the variances not
 * counted, or, when only the residual is not counted, the counted ones.
 */
function sharePlane(size: number, counted: ReadonlyArray<number>, share: number): VariancePlane & { free: number[] } {
  const odds = share / (1 - share);
  const rest = Array.from({ length: size }, (_, i) => i).filter((i) => !counted.includes(i));
  const free = counted.length === 1 || share === 0 ? rest : [...counted];
  const directions = zeroMatrix(size, free.length);
  free.forEach((i, k) => {
    directions[i]![k] = 1;
    if (share === 0) return;
    if (free === rest) directions[counted[0]!]![k] = odds;
    else directions[0]![k] = 1 / odds;
  });
  return { fixed: new Float64Array(size), directions, free };
}

/**
 * Intraclass correlation: the variance between groups as a share of the whole, equal to the correlation of two observations
 * in the same group. With nested groupings the correlation of two trays from one jar counts the jar's and the cook's
 * variance: name both.
 * @param groupings names to count: one, or all of the model's; all unless stated
 * @param level 0.95 unless stated
 * @throws RangeError if a name is no random grouping, the level is not between 0 and 1, or more than one but not all are named
 * @source Donner 1986, International Statistical Review 54(1):67-82; interval by profile likelihood
 * @example intraclassCorrelation(fit, ["cook"]).estimate // 0.9753..., with the set-up of fitMixedModel
 */
export function intraclassCorrelation(
  fit: MixedModel,
  groupings: ReadonlyArray<string> = fit.components.map((component) => component.name),
  level = 0.95,
): IntraclassCorrelation {
  const routine = "intraclassCorrelation";
  requireOpenProbability(routine, "level", level);
  const { model, state } = fit.working;
  const names = fit.components.map((component) => component.name);
  const counted = [...new Set(groupings)].map((name) => names.indexOf(name) + 1);
  if (counted.includes(0) || counted.length === 0 || (counted.length > 1 && counted.length < names.length)) {
    throw new RangeError(
      `${routine}: groupings must be one or all of ${names.join(", ")}; received ${groupings.join(", ") || "none"}`,
    );
  }
  const total = state.variances.reduce((sum, variance) => sum + variance, 0);
  const estimate = counted.reduce((sum, i) => sum + state.variances[i]!, 0) / total;
  const excess = (share: number): number => {
    const plane = sharePlane(state.variances.length, counted, share);
    const start = Float64Array.from(plane.free, (i) => Math.max(state.variances[i]!, total * 1e-3));
    return minimiseDeviance(model, plane, start, "profile").state.deviance - state.deviance;
  };
  const highest = 1 - 1e-9;
  const limits = profileLimits(excess, estimate, chiSquareQuantile(level, 1), {
    floor: 0,
    downwards: (share) => share / 2,
    upwards: (share) => (share + 1) / 2,
    ceiling: highest,
  });
  const upper = limits.upper >= highest ? 1 : limits.upper;
  return { groupings: counted.map((i) => names[i - 1]!), estimate, lower: limits.lower, upper, level };
}
