import { chiSquareUpperTail } from "../distributions/chi-square.ts";
import { normalCdf, normalQuantile } from "../distributions/normal.ts";
import { cholesky } from "../linear-algebra/cholesky.ts";
import { bilinear, type Matrix } from "../linear-algebra/dense-matrix.ts";
import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { type OrthonormalColumns, orthonormalColumns } from "../linear-algebra/orthonormal-columns.ts";
import { solveUpperTransposed } from "../linear-algebra/triangle.ts";
import type { ModelTerm } from "../linear-models/model-term.ts";
import { fixedDesign } from "../mixed-models/fixed-design.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { alikeRows } from "./alike-rows.ts";
import { type IntervalSample, requireIntervalSample } from "./interval-sample.ts";
import { maximiseWeibull } from "./weibull-maximum.ts";

/** What to fit. */
export interface WeibullInput extends IntervalSample {
  /** terms that may lengthen or shorten the time; an intercept is always there. Empty for one common law */
  terms: ReadonlyArray<ModelTerm>;
  /** "weibull" unless stated; "exponential" holds the scale at 1: a chance of the event that does not change with time */
  law?: "weibull" | "exponential";
  /** level of intervals; 0.95 unless stated */
  level?: number;
}

/** An estimate with limits and its z test against 0. */
export interface WaldEstimate {
  estimate: number;
  lower: number;
  upper: number;
  standardError: number;
  z: number;
  /** two-tailed */
  p: number;
}

/** One term's effect on the log of time. */
export interface WeibullCoefficient extends WaldEstimate {
  name: string;
  /** exp(estimate): times are this many times as long; for the intercept, the time by which 63.2 % are done at the reference */
  timeRatio: { estimate: number; lower: number; upper: number };
  /** exp(-estimate / scale): the rate of events is this many times as high */
  hazardRatio: { estimate: number; lower: number; upper: number };
}

/** A fitted Weibull (or exponential) regression. */
export interface WeibullFit {
  law: "weibull" | "exponential";
  observations: number;
  coefficients: WeibullCoefficient[];
  /** spread of log times; log scale with its standard error. Held at 1 with standard error 0 under the exponential law */
  scale: { estimate: number; lower: number; upper: number; log: WaldEstimate };
  /** 1 / scale: above 1 the chance of the event rises with time */
  shape: { estimate: number; lower: number; upper: number };
  logLikelihood: number;
  /** likelihood-ratio test of all terms against none; absent when there are no terms */
  overall?: { likelihoodRatio: number; df: number; p: number };
  /** columns left out because others already determine them, by name */
  collinear: { column: string; determinedBy: string[] }[];
  level: number;
}

function wald(estimate: number, variance: number, z: number): WaldEstimate {
  const standardError = Math.sqrt(variance);
  const ratio = standardError === 0 ? 0 : estimate / standardError;
  return {
    estimate,
    lower: estimate - z * standardError,
    upper: estimate + z * standardError,
    standardError,
    z: ratio,
    p: 2 * normalCdf(-Math.abs(ratio)),
  };
}

/**
 * Weibull regression of times to an event, exact, right-, left- or interval-censored, by maximum likelihood.
 * @throws RangeError if the sample is bad, no interval ends (nothing has happened yet), there are fewer observations than
 *   parameters, or the likelihood has no maximum (a group without a single event, all times alike), naming the column
 * @source Kalbfleisch and Prentice 2002, The Statistical Analysis of Failure Time Data, chapter 3 (from memory)
 * @example weibullRegression({ lower: [2, 5, 7, 9], upper: [2, 5, 7, Infinity], terms: [] }).shape.estimate // 1.8023...
 */
export function weibullRegression(input: WeibullInput): WeibullFit {
  const routine = "weibullRegression";
  const { law = "weibull", level = 0.95 } = input;
  requireOpenProbability(routine, "level", level);
  requireEvents(routine, input);
  const design = fixedDesign(routine, input.terms, input.lower.length);
  const columns = orthonormalColumns(design.map((column) => column.values));
  const size = columns.basis.length;
  const names = columns.kept.map((position) => design[position]!.name);
  const slopeFree = law === "weibull";
  if (input.lower.length < size + Number(slopeFree)) {
    throw new RangeError(
      `${routine}: needs at least as many observations as parameters, ${size + Number(slopeFree)}; received ${input.lower.length}`,
    );
  }
  const alike = alikeRows(input.terms, input.lower.length);
  const { parameters, point } = maximiseWeibull(routine, input, columns, alike, names, slopeFree);
  const inverse = cholesky(point.information)?.inverse();
  if (inverse === undefined) throw new RangeError(`${routine}: the information matrix must be positive definite`);
  const slope = parameters[size]!;
  const locations = names.map((_, k) => unit(columns, k).reduce((sum, part, j) => sum + part * parameters[j]!, 0));
  // log of the hazard ratio is minus the location; coefficient = location / slope; log scale = -log slope
  const locationRows = names.map((_, k) => padded(unit(columns, k), 0, slopeFree));
  const coefficientRows = names.map((_, k) => {
    const perSlope = unit(columns, k).map((part) => part / slope);
    return padded(perSlope, -locations[k]! / slope ** 2, slopeFree);
  });
  const scaleRow = padded(new Float64Array(size), -1 / slope, slopeFree);
  const z = normalQuantile((1 + level) / 2);
  const logScale = wald(-Math.log(slope), bilinear(scaleRow, inverse, scaleRow), z);
  const coefficients = names.map((name, k): WeibullCoefficient => {
    const effect = wald(locations[k]! / slope, variance(inverse, coefficientRows[k]!), z);
    const location = wald(locations[k]!, variance(inverse, locationRows[k]!), z);
    return { name, ...effect, timeRatio: around(effect, 1), hazardRatio: around(location, -1) };
  });
  const fit: WeibullFit = {
    law,
    observations: input.lower.length,
    coefficients,
    scale: { ...around(logScale, 1), log: logScale },
    shape: around(logScale, -1),
    logLikelihood: point.value,
    collinear: columns.collinear.map(({ column, multiples }) => ({
      column: design[column]!.name,
      determinedBy: names.filter((_, k) => multiples[k] !== 0),
    })),
    level,
  };
  if (size === 1) return fit;
  return { ...fit, overall: overallTest(routine, input, design[0]!.values, point.value, size - 1) };
}

function requireEvents(routine: string, input: WeibullInput): void {
  requireIntervalSample(routine, input);
  if (input.upper.every((upper) => upper === Number.POSITIVE_INFINITY)) {
    throw new RangeError(
      `${routine}: at least one event must have happened; all ${input.upper.length} are still waiting`,
    );
  }
}

/** An estimate and its limits out of the logarithms, or the reciprocal of these. */
function around(one: WaldEstimate, sign: 1 | -1): { estimate: number; lower: number; upper: number } {
  return {
    estimate: Math.exp(sign * one.estimate),
    lower: Math.exp(sign > 0 ? one.lower : -one.upper),
    upper: Math.exp(sign > 0 ? one.upper : -one.lower),
  };
}

/** Likelihood-ratio test that no term matters: the fit against one with the constant alone. */
function overallTest(
  routine: string,
  input: WeibullInput,
  constant: Float64Array,
  logLikelihood: number,
  df: number,
): { likelihoodRatio: number; df: number; p: number } {
  const common = orthonormalColumns([constant]);
  const allAlike = alikeRows([], input.lower.length);
  const slopeFree = input.law !== "exponential";
  const without = maximiseWeibull(routine, input, common, allAlike, ["intercept"], slopeFree).point.value;
  const likelihoodRatio = Math.max(0, 2 * (logLikelihood - without));
  return { likelihoodRatio, df, p: chiSquareUpperTail(likelihoodRatio, df) };
}

/** Weights over the perpendicular columns' locations that give coefficient k of the columns as named. */
function unit(columns: OrthonormalColumns, k: number): Float64Array {
  const unit = columns.kept.map((_, j) => (j === k ? 1 : 0));
  return Float64Array.from(solveUpperTransposed(ordinary, columns.triangle, unit));
}

function padded(row: Float64Array, last: number, slopeFree: boolean): Float64Array {
  return slopeFree ? Float64Array.of(...row, last) : row;
}

function variance(inverse: Matrix, row: Float64Array): number {
  return bilinear(row, inverse, row);
}
