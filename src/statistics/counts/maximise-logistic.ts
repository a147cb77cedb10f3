import { dot, ordinary } from "../linear-algebra/ordinary-columns.ts";
import { orthonormalColumns } from "../linear-algebra/orthonormal-columns.ts";
import { solveUpper } from "../linear-algebra/triangle.ts";
import { columnsOf, dependentBelow, type LogisticDesign } from "./logistic-design.ts";

/** Where the likelihood of a logistic regression is largest. */
export interface LogisticMaximum {
  coefficients: Float64Array;
  /** fitted proportion of each row */
  fitted: Float64Array;
  /** triangle of the weighted design; its cross-product is the information */
  triangle: Float64Array[];
  /** log-likelihood without the binomial coefficients, with half the log determinant of the information added when bias-reduced */
  objective: number;
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

/** A design whose columns may stand in any order. */
export type Counts = Omit<LogisticDesign, "names">;

const mostIterations = 200;

/** a step is halved down to this share: far-out rows can make the first ones overshoot by many powers of ten */
const smallestStep = 1e-14;

/**
 * Maximises the (penalised) likelihood of a logistic regression by iteratively reweighted least squares with step halving.
 * @param design with its free columns first
 * @throws Error if it has not settled after 200 steps
 * @source McCullagh and Nelder 1989, Generalized Linear Models, 2nd edition, section 2.5; bias-reduced score: Firth 1993,
 *   Biometrika 80(1):27-38; Heinze and Schemper 2002, Statistics in Medicine 21(16):2409-2419
 * @internal
 */
export function maximiseLogistic(design: Counts, search: LogisticSearch): LogisticMaximum {
  const columns = columnsOf(design);
  let current = search.starts
    .map((start) => evaluate(design, columns, search, start))
    .reduce((best, next) => (next.objective > best.objective ? next : best));
  for (let iteration = 1; iteration <= mostIterations; iteration++) {
    // held so far out that nothing is left to learn from: as unlikely as can be
    if (current.objective === Number.NEGATIVE_INFINITY) return current;
    const { step, gain } = newtonStep(design, columns, search, current);
    let size = 1;
    let next = evaluate(design, columns, search, combine(current.coefficients, step, size));
    // rounding of the objective must not look like a failed step
    const slack = 1e-12 * (1 + Math.abs(current.objective));
    while (!(next.objective >= current.objective - slack) && size > smallestStep) {
      size /= 2;
      next = evaluate(design, columns, search, combine(current.coefficients, step, size));
    }
    // `gain` is the squared step in standard errors
    if (gain < 1e-22 || (gain < 1e-16 && iteration > 60)) return next;
    // flat: the objective no longer rises, though rounding keeps the coefficients moving
    if (iteration > 100 && next.objective - current.objective <= slack) return next;
    current = next;
  }
  throw new Error(`${search.routine}: the fit must settle within ${mostIterations} steps; it did not`);
}

/** A point of the search: with the weighted design's orthonormal columns and the roots of the weights. */
type State = LogisticMaximum & { basis: Float64Array[]; roots: Float64Array };

function combine(a: Float64Array, step: Float64Array, size: number): Float64Array {
  return a.map((value, index) => value + size * step[index]!);
}

const weighted = (columns: ReadonlyArray<Float64Array>, roots: Float64Array) =>
  orthonormalColumns(
    columns.map((column) => column.map((value, row) => value * roots[row]!)),
    dependentBelow,
  );

function evaluate(
  design: Counts,
  columns: ReadonlyArray<Float64Array>,
  search: LogisticSearch,
  coefficients: Float64Array,
): State {
  const count = design.trials.length;
  const fitted = new Float64Array(count);
  const roots = new Float64Array(count);
  columns.forEach((column, index) => {
    const coefficient = coefficients[index]!;
    for (let row = 0; row < count; row++) fitted[row]! += coefficient * column[row]!;
  });
  let objective = 0;
  for (let row = 0; row < count; row++) {
    const predictor = fitted[row]!;
    const trials = design.trials[row]!;
    const successes = design.successes[row]!;
    const small = Math.exp(-Math.abs(predictor));
    fitted[row] = predictor >= 0 ? 1 / (1 + small) : small / (1 + small);
    roots[row] = Math.sqrt(trials * small) / (1 + small);
    // log of the chances of the likelier and the less likely outcome, exact for either sign
    const logNear = -Math.log1p(small);
    const far = predictor >= 0 ? trials - successes : successes;
    objective += trials * logNear - far * Math.abs(predictor);
  }
  const { basis, triangle, collinear } = weighted(columns, roots);
  // weights that underflow leave no information: a point the search has to back away from
  if (collinear.length > 0) objective = Number.NEGATIVE_INFINITY;
  if (search.biasReduced) for (const [index, row] of triangle.entries()) objective += Math.log(row[index]!);
  return { coefficients, fitted, roots, basis, triangle, objective };
}

/** How much of each row the fit follows, 0 to 1, summed over the columns. */
function leverages({ basis, fitted }: State): Float64Array {
  const leverage = new Float64Array(fitted.length);
  for (const column of basis) {
    for (let row = 0; row < leverage.length; row++) leverage[row]! += column[row]! ** 2;
  }
  return leverage;
}

/**
 * A step by the information that belongs to the score: the bias-reduced score counts a row as its trials and its leverage,
 * half of it with the outcome. Where a lone row far out has a leverage near 1, the plain information would step twice too far.
 */
function newtonStep(
  design: Counts,
  columns: ReadonlyArray<Float64Array>,
  search: LogisticSearch,
  state: State,
): { step: Float64Array; gain: number } {
  const { fitted, coefficients } = state;
  const leverage = search.biasReduced ? leverages(state) : undefined;
  // each row's share of the score, brought to unit variance
  const residuals = new Float64Array(fitted.length);
  const roots = state.roots.map((root, row) => root * Math.sqrt(1 + (leverage?.[row] ?? 0) / design.trials[row]!));
  for (let row = 0; row < fitted.length; row++) {
    const plain = design.successes[row]! - design.trials[row]! * fitted[row]!;
    const residual = plain + (leverage?.[row] ?? 0) * (0.5 - fitted[row]!);
    residuals[row] = roots[row]! > 0 ? residual / roots[row]! : 0;
  }
  const own = leverage === undefined ? undefined : weighted(columns, roots);
  const { basis, triangle } = own === undefined || own.collinear.length > 0 ? state : own;
  const score = Float64Array.from({ length: search.free }, (_, column) => dot(basis[column]!, residuals));
  const solved = solveUpper(ordinary, triangle.slice(0, search.free), score);
  const step = Float64Array.from(coefficients, (_, column) => solved[column] ?? 0);
  return { step, gain: dot(score, score) };
}
