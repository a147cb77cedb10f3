import { chiSquareUpperTail } from "../distributions/chi-square.ts";
import { logGamma } from "../distributions/gamma.ts";
import { normalQuantile, normalUpperTail } from "../distributions/normal.ts";
import { inverseCrossProduct } from "../linear-algebra/triangle.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { collapseRows } from "./collapse-rows.ts";
import { type LogisticDesign, type LogisticInput, logisticDesign } from "./logistic-design.ts";
import { maximiseLogistic } from "./maximise-logistic.ts";
import { profileCoefficient } from "./profile-coefficient.ts";
import { findSeparation, type Separation } from "./separation.ts";

/** One coefficient: a change of the log odds per unit of its column. */
export interface LogisticCoefficient {
  name: string;
  estimate: number;
  /** limits by profile likelihood (penalised when bias-reduced), which stay sound in small samples; by Wald's method when profiles were left out */
  lower: number;
  upper: number;
  level: number;
  standardError: number;
  z: number;
  /** two-sided, by Wald's method */
  p: number;
  waldLower: number;
  waldUpper: number;
  /** by the likelihood ratio against a coefficient of 0; Wald's p when profiles were left out */
  likelihoodRatioP: number;
}

/** A fitted logistic regression. */
export interface LogisticRegression {
  method: "maximum likelihood" | "bias-reduced likelihood";
  separation: Separation;
  coefficients: LogisticCoefficient[];
  /** of the estimates, in the order of the coefficients */
  covariance: number[][];
  /** fitted proportion of each row */
  fitted: number[];
  deviance: number;
  nullDeviance: number;
  /** rows less coefficients */
  degreesOfFreedom: number;
  logLikelihood: number;
  akaikeInformation: number;
  /** all columns together against the intercept alone */
  likelihoodRatio: { chiSquare: number; degreesOfFreedom: number; p: number };
  /** sum of squared residuals over their binomial variance; well above the degrees of freedom when rows vary more than chance */
  pearsonChiSquare: number;
  level: number;
  /** what was fitted, for predictions and for errors by cluster */
  design: LogisticDesign;
}

/** Choices of a logistic regression. */
export interface LogisticOptions extends LogisticInput {
  /** always, never, or only when some estimates would be infinite (the default) */
  biasReduced?: "always" | "never" | "when separated";
  /** whether profile intervals are worked out (the default) or left out to save time */
  profiles?: boolean;
}

/**
 * How does the chance of an outcome change with one or more columns? Fits log odds as an intercept plus a sum of columns,
 * to 0/1 units or to counts out of n.
 * @param options counts, columns, level and method
 * @throws RangeError if the input is malformed, a column follows from the others, only one outcome occurs, or estimates are infinite and bias reduction is ruled out
 * @source McCullagh and Nelder 1989, Generalized Linear Models, 2nd edition, section 2.5; bias reduction: Firth 1993,
 *   Biometrika 80(1):27-38; its profile intervals: Heinze and Schemper 2002, Statistics in Medicine 21(16):2409-2419
 * @example logisticRegression({ successes: [1, 3], trials: [4, 4], columns: [{ name: "dose", values: [0, 1] }] }).coefficients[1].estimate // 2.1972245773362196
 */
export function logisticRegression(options: LogisticOptions): LogisticRegression {
  const routine = "logisticRegression";
  const level = options.level ?? 0.95;
  requireOpenProbability(routine, "level", level);
  const design = logisticDesign(routine, options);
  const separation = findSeparation(options);
  const choice = options.biasReduced ?? "when separated";
  const biasReduced = choice === "always" || (choice === "when separated" && separation.kind !== "none");
  if (!biasReduced && separation.kind !== "none") {
    throw new RangeError(
      `${routine}: maximum likelihood needs outcomes that overlap; received ${separation.kind} separation by ${separation.columns.join(", ")}`,
    );
  }
  const width = design.names.length;
  const starts = [new Float64Array(width)];
  const { design: collapsed, rowOf } = collapseRows(design);
  const best = maximiseLogistic(collapsed, { routine, biasReduced, free: width, starts });
  const none = maximiseLogistic(collapsed, { routine, biasReduced, free: 1, starts });
  const covariance = inverseCrossProduct(best.triangle);
  const z95 = normalQuantile((1 + level) / 2);

  const coefficients = design.names.map((name, index): LogisticCoefficient => {
    const estimate = best.coefficients[index]!;
    const standardError = Math.sqrt(covariance[index]![index]!);
    const z = estimate / standardError;
    const p = Math.min(1, 2 * normalUpperTail(Math.abs(z)));
    const wald = { waldLower: estimate - z95 * standardError, waldUpper: estimate + z95 * standardError };
    const profile =
      options.profiles === false
        ? { lower: wald.waldLower, upper: wald.waldUpper, likelihoodRatioP: p }
        : profileCoefficient(collapsed, best, index, covariance, level, biasReduced);
    return { name, estimate, ...profile, level, standardError, z, p, ...wald };
  });

  const fitted = Float64Array.from(rowOf, (row) => best.fitted[row]!);
  const deviance = devianceOf(design, fitted);
  const logLikelihood = logLikelihoodOf(design, fitted);
  const chiSquare = Math.max(0, 2 * (best.objective - none.objective));
  return {
    method: biasReduced ? "bias-reduced likelihood" : "maximum likelihood",
    separation,
    coefficients,
    covariance,
    fitted: Array.from(fitted),
    deviance,
    nullDeviance: devianceOf(design, nullFitted(design)),
    degreesOfFreedom: design.rows.length - width,
    logLikelihood,
    akaikeInformation: 2 * width - 2 * logLikelihood,
    likelihoodRatio: {
      chiSquare,
      degreesOfFreedom: width - 1,
      p: width === 1 ? 1 : chiSquareUpperTail(chiSquare, width - 1),
    },
    pearsonChiSquare: pearsonOf(design, fitted),
    level,
    design,
  };
}

function nullFitted(design: LogisticDesign): Float64Array {
  const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);
  return new Float64Array(design.rows.length).fill(sum(design.successes) / sum(design.trials));
}

function devianceOf(design: LogisticDesign, fitted: Float64Array): number {
  const part = (count: number, expected: number): number => (count === 0 ? 0 : count * Math.log(count / expected));
  return fitted.reduce((sum, proportion, row) => {
    const trials = design.trials[row]!;
    const successes = design.successes[row]!;
    return sum + 2 * (part(successes, trials * proportion) + part(trials - successes, trials * (1 - proportion)));
  }, 0);
}

function logLikelihoodOf(design: LogisticDesign, fitted: Float64Array): number {
  return fitted.reduce((sum, proportion, row) => {
    const trials = design.trials[row]!;
    const successes = design.successes[row]!;
    const ways = logGamma(trials + 1) - logGamma(successes + 1) - logGamma(trials - successes + 1);
    const won = successes === 0 ? 0 : successes * Math.log(proportion);
    const lost = successes === trials ? 0 : (trials - successes) * Math.log1p(-proportion);
    return sum + ways + won + lost;
  }, 0);
}

function pearsonOf(design: LogisticDesign, fitted: Float64Array): number {
  return fitted.reduce((sum, proportion, row) => {
    const trials = design.trials[row]!;
    const variance = trials * proportion * (1 - proportion);
    return variance > 0 ? sum + (design.successes[row]! - trials * proportion) ** 2 / variance : sum;
  }, 0);
}
