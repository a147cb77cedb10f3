import { chiSquareQuantile } from "../distributions/chi-square.ts";
import { zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import type { MixedModel } from "./fit-mixed-model.ts";
import { profileLimits } from "./profile-limits.ts";
import { minimiseDeviance } from "./variance-search.ts";

/** Interval of one variance, in the response's unit squared, and of its root. */
export interface VarianceInterval {
  name: string;
  variance: number;
  lower: number;
  /** Infinity when the trial sets no upper limit */
  upper: number;
  standardDeviation: { estimate: number; lower: number; upper: number };
  level: number;
}

/**
 * Profile-likelihood interval of each variance, random groupings first, residual last. A lower limit of 0 means that no
 * variance between groups is compatible with the data.
 * @param level 0.95 unless stated
 * @throws RangeError if the level is not between 0 and 1
 * @source Venzon and Moolgavkar 1988, Applied Statistics 37(1):87-94; chi-square calibration with 1 degree of freedom
 * @example varianceIntervals(fit)[0].lower // 5.1551..., with the set-up of fitMixedModel
 */
export function varianceIntervals(fit: MixedModel, level = 0.95): VarianceInterval[] {
  requireOpenProbability("varianceIntervals", "level", level);
  const allowance = chiSquareQuantile(level, 1);
  const order = [...fit.components.keys()].map((k) => k + 1);
  return [...order, 0].map((position) => {
    const { lower, upper } = intervalOf(fit, position, allowance);
    const component = position === 0 ? fit.residual : fit.components[position - 1]!;
    const standardDeviation = {
      estimate: component.standardDeviation,
      lower: Math.sqrt(lower),
      upper: Math.sqrt(upper),
    };
    return { name: component.name, variance: component.variance, lower, upper, standardDeviation, level };
  });
}

function intervalOf(fit: MixedModel, position: number, allowance: number): { lower: number; upper: number } {
  const { model, state, scale } = fit.working;
  const size = state.variances.length;
  const others = [...state.variances.keys()].filter((i) => i !== position);
  const directions = zeroMatrix(size, others.length);
  others.forEach((i, k) => {
    directions[i]![k] = 1;
  });
  let start = Float64Array.from(others, (i) => state.variances[i]!);
  const excess = (value: number): number => {
    const fixed = new Float64Array(size);
    fixed[position] = value;
    const optimum = minimiseDeviance(model, { fixed, directions }, start, "profile");
    start = optimum.free.map((free, k) => (free > 0 ? free : state.variances[others[k]!]!));
    return optimum.state.deviance - state.deviance;
  };
  const estimate = state.variances[position]!;
  const firstStep = estimate > 0 ? 0 : state.variances[0]! / model.structure.count;
  const limits = profileLimits(excess, estimate, allowance, {
    // the residual variance can only come near 0
    ...(position === 0 ? {} : { floor: 0 }),
    downwards: (value) => value / 1.7,
    upwards: (value) => value * 1.7 + firstStep,
    ceiling: Number.POSITIVE_INFINITY,
  });
  return { lower: limits.lower * scale * scale, upper: limits.upper * scale * scale };
}
