import type { LogisticDesign } from "./logistic-design.ts";
import { backSolve, splitColumns } from "./orthogonal-design.ts";

/** Where the likelihood of a logistic regression is largest. */
export interface LogisticMaximum {
  coefficients: Float64Array;
  /** fitted proportion of each row */
  fitted: Float64Array;
  /** triangle of the weighted design; its cross-product is the information */
  r: Float64Array[];
  /** leverage of each row in the weighted design */
  leverage: Float64Array;
  /** log-likelihood without the binomial coefficients, with half the log determinant of the information added when bias-reduced */
  objective: number;
  iterations: number;
}

/** How to maximise. */
export interface LogisticSearch {
  routine: string;
  /** adds half the log determinant of the information, which removes the first-order bias and keeps all estimates finite */
  biasReduced: boolean;
  /** how many leading columns are free; the rest keep their starting values */
  free: number;
  /** points to begin from, alike in the columns held fixed; the likeliest is taken */
  starts: ReadonlyArray<Float64Array>;
}

const mostIterations = 200;

/**
 * Maximises the (penalised) likelihood of a logistic regression by iteratively reweighted least squares with step halving.
 * @param design with its free columns first
 * @throws Error if it has not settled after 200 steps
 * @source McCullagh and Nelder 1989, Generalized Linear Models, section 2.5; bias-reduced score: Firth 1993, Biometrika
 *   80:27-38; Heinze and Schemper 2002, Statistics in Medicine 21:2409-2419 (from memory)
 */
export function maximiseLogistic(design: LogisticDesign, search: LogisticSearch): LogisticMaximum {
  let current = search.starts
    .map((start) => evaluate(design, search, start))
    .reduce((best, next) => (next.objective > best.objective ? next : best));
  for (let iteration = 1; iteration <= mostIterations; iteration++) {
    const { step, gain } = newtonStep(design, search, current);
    let size = 1;
    let next = evaluate(design, search, combine(current.coefficients, step, size));
    // rounding of the objective must not look like a failed step
    const slack = 1e-12 * (1 + Math.abs(current.objective));
    while (!(next.objective >= current.objective - slack) && size > 1e-6) {
      size /= 2;
      next = evaluate(design, search, combine(current.coefficients, step, size));
    }
    // `gain` is the squared step in standard errors
    if (gain < 1e-22 || (gain < 1e-16 && iteration > 60)) return { ...next, iterations: iteration };
    current = next;
  }
  throw new Error(`${search.routine}: the fit must settle within ${mostIterations} steps; it did not`);
}

type State = Omit<LogisticMaximum, "iterations"> & { q: Float64Array[] };

function combine(a: Float64Array, step: Float64Array, size: number): Float64Array {
  return a.map((value, index) => value + size * step[index]!);
}

function evaluate(design: LogisticDesign, search: LogisticSearch, coefficients: Float64Array): State {
  const fitted = new Float64Array(design.rows.length);
  const weighted: Float64Array[] = [];
  let objective = 0;
  design.rows.forEach((row, index) => {
    let predictor = 0;
    for (let column = 0; column < row.length; column++) predictor += row[column]! * coefficients[column]!;
    const trials = design.trials[index]!;
    const successes = design.successes[index]!;
    const small = Math.exp(-Math.abs(predictor));
    fitted[index] = predictor >= 0 ? 1 / (1 + small) : small / (1 + small);
    // log of the chances of success and failure, exact for either sign
    const logNear = -Math.log1p(small);
    const logFar = -Math.abs(predictor) + logNear;
    objective +=
      predictor >= 0
        ? successes * logNear + (trials - successes) * logFar
        : successes * logFar + (trials - successes) * logNear;
    const root = Math.sqrt(trials * small) / (1 + small);
    weighted.push(row.map((value) => value * root));
  });
  const { q, r, dependent } = splitColumns(weighted, design.names.length);
  // weights that underflow leave no information: a point the search has to back away from
  if (dependent !== undefined) objective = Number.NEGATIVE_INFINITY;
  if (search.biasReduced) for (let index = 0; index < r.length; index++) objective += Math.log(r[index]![index]!);
  const leverage = Float64Array.from(q, (row) => row.reduce((sum, value) => sum + value * value, 0));
  return { coefficients, fitted, q, r, leverage, objective };
}

function newtonStep(
  design: LogisticDesign,
  search: LogisticSearch,
  state: State,
): { step: Float64Array; gain: number } {
  const score = new Float64Array(search.free);
  state.q.forEach((row, index) => {
    const fitted = state.fitted[index]!;
    const trials = design.trials[index]!;
    let residual = design.successes[index]! - trials * fitted;
    if (search.biasReduced) residual += state.leverage[index]! * (0.5 - fitted);
    const root = Math.sqrt(trials * fitted * (1 - fitted));
    if (root > 0)
      for (let column = 0; column < search.free; column++) score[column]! += (row[column]! * residual) / root;
  });
  const solved = backSolve(state.r.slice(0, search.free), score);
  const step = Float64Array.from(state.coefficients, (_, column) => solved[column] ?? 0);
  return { step, gain: score.reduce((sum, value) => sum + value * value, 0) };
}
