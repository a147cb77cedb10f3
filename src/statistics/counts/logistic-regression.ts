import { normalQuantile } from "../distributions/normal.ts";
import { inverseCrossProduct } from "../linear-algebra/triangle.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { collapseRows } from "./collapse-rows.ts";
import { isSeparated } from "./is-separated.ts";
import { type LogisticDesign, type LogisticInput, logisticDesign } from "./logistic-design.ts";
import { maximiseLogistic } from "./maximise-logistic.ts";
import { profileLimits } from "./profile-limits.ts";

/** One coefficient: a change of the log odds per unit of its column. */
export interface LogisticCoefficient {
  name: string;
  estimate: number;
  /** limits by profile likelihood (penalised when bias-reduced), which stay sound in small samples; by Wald's method when profiles were left out */
  lower: number;
  upper: number;
}

/** A fitted logistic regression. */
export interface LogisticRegression {
  /** that some combination of the columns tells the outcomes apart: the fit is then bias-reduced, else by maximum likelihood */
  separated: boolean;
  coefficients: LogisticCoefficient[];
  /** of the estimates, in the order of the coefficients */
  covariance: number[][];
  /** fitted proportion of each row */
  fitted: number[];
  level: number;
  /** what was fitted, for errors by cluster */
  design: LogisticDesign;
}

/** Choices of a logistic regression. */
export interface LogisticOptions extends LogisticInput {
  /** confidence level of the intervals, 0.95 unless stated */
  level?: number;
  /** whether profile intervals are worked out (the default) or left out to save time */
  profiles?: boolean;
}

/**
 * How does the chance of an outcome change with one or more columns? Fits log odds as an intercept plus a sum of columns,
 * to 0/1 units or to counts out of n. Where outcomes are separated, the bias-reduced likelihood keeps all estimates finite.
 * @param options counts, columns and level
 * @throws RangeError if the input is malformed or a column follows from the others
 * @source McCullagh and Nelder 1989, Generalized Linear Models, 2nd edition, section 2.5; bias reduction: Firth 1993,
 *   Biometrika 80(1):27-38; its profile intervals: Heinze and Schemper 2002, Statistics in Medicine 21(16):2409-2419
 * @example logisticRegression({ successes: [1, 3], trials: [4, 4], columns: [{ name: "dose", values: [0, 1] }] }).coefficients[1].estimate // 2.1972245773362196
 */
export function logisticRegression(options: LogisticOptions): LogisticRegression {
  const routine = "logisticRegression";
  const { level = 0.95, profiles = true } = options;
  requireOpenProbability(routine, "level", level);
  const design = logisticDesign(routine, options);
  const { design: collapsed, rowOf } = collapseRows(design);
  const separated = isSeparated(routine, collapsed);
  const free = design.names.length;
  const starts = [new Float64Array(free)];
  const best = maximiseLogistic(collapsed, { routine, biasReduced: separated, free, starts });
  const covariance = inverseCrossProduct(best.triangle);
  const normal = normalQuantile((1 + level) / 2);
  const coefficients = design.names.map((name, index): LogisticCoefficient => {
    const estimate = best.coefficients[index]!;
    if (profiles) return { name, estimate, ...profileLimits(collapsed, best, index, covariance, level, separated) };
    const half = normal * Math.sqrt(covariance[index]![index]!);
    return { name, estimate, lower: estimate - half, upper: estimate + half };
  });
  const fitted = rowOf.map((row) => best.fitted[row]!);
  return { separated, coefficients, covariance, fitted, level, design };
}
