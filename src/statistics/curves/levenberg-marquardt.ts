import { householderFactor, inverseOfCrossProduct, solveUpper } from "../linear-algebra/householder-factor.ts";

/** A least-squares problem: residuals that depend on parameters, already multiplied by the square root of their weights. */
export interface LeastSquaresProblem {
  residualCount: number;
  parameterCount: number;
  /** a sum of squares no parameter changes, and its degrees of freedom, beside the residuals; none when absent */
  fixedPart?: { sumOfSquares: number; degreesOfFreedom: number };
  /**
   * Fills `residuals` with observed minus fitted and, when given, `slopes` (one array per parameter) with the
   * derivatives of the FITTED values. Returns false where the model has no value.
   */
  evaluate(parameters: Float64Array, residuals: Float64Array, slopes?: Float64Array[]): boolean;
}

/** Where the search stopped. */
export interface LeastSquaresSolution {
  parameters: Float64Array;
  residualSumOfSquares: number;
  /** inverse of J'J by rows, J the derivatives of the fitted values: the covariance apart from the error variance */
  inverseCrossProduct: Float64Array;
  /** true when the residuals are at right angles to every direction the parameters can move the fit in */
  converged: boolean;
  /** how far from that: the part of the residuals the parameters could still explain, relative to the rest */
  offset: number;
  /** smallest relative diagonal of the triangular factor; near 0 when parameters cannot be told apart */
  independence: number;
  iterations: number;
}

/** Columns count as dependent below this. */
export const dependenceLimit = 1e-13;

/**
 * Least squares for a model that is not linear in its parameters: Levenberg-Marquardt steps on the triangular factor of the
 * derivatives, then Gauss-Newton steps until they no longer shrink. A linear model is solved by the same steps.
 * @param start values from which to search; the model must have a value there
 * @param polish whether the closing Gauss-Newton steps are made (leave them out where speed matters more than the last digits)
 * @returns the place where the search stopped; `converged` says whether it is a minimum
 * @throws RangeError if the model has no value at `start`, or the start has the wrong length
 * @source Marquardt 1963, SIAM Journal 11:431-441; step control Nielsen 1999, IMM-REP-1999-05; scaling More 1978, Lecture
 *   Notes in Mathematics 630:105-116; offset criterion Bates and Watts 1981, Technometrics 23:179-183 (all from memory)
 * @example levenbergMarquardt({ residualCount: 1, parameterCount: 1, evaluate: (p, r, s) => { r[0] = 4 - 2 * p[0]!; if (s) s[0]![0] = 2; return true; } }, [0]).parameters[0] // 2
 */
export function levenbergMarquardt(
  problem: LeastSquaresProblem,
  start: ArrayLike<number>,
  polish = true,
  maximumIterations = 500,
): LeastSquaresSolution {
  const { residualCount: rows, parameterCount: count, fixedPart } = problem;
  const fixedSum = fixedPart?.sumOfSquares ?? 0;
  const degreesOfFreedom = rows + (fixedPart?.degreesOfFreedom ?? 0) - count;
  if (start.length !== count) {
    throw new RangeError(`levenbergMarquardt: ${count} starting values are needed; received ${start.length}`);
  }
  let parameters: Float64Array = Float64Array.from(start);
  let residuals: Float64Array = new Float64Array(rows);
  let trialResiduals: Float64Array = new Float64Array(rows);
  const slopes = Array.from({ length: count }, () => new Float64Array(rows));
  const rotating = new Float64Array(rows);
  if (!problem.evaluate(parameters, residuals, slopes)) {
    throw new RangeError(
      `levenbergMarquardt: the model has no value at the start ${Array.from(parameters).join(", ")}`,
    );
  }
  let sum = sumOfSquares(residuals);
  const scale = new Float64Array(count);
  let damping = 1e-3;
  let growth = 2;
  let iterations = 0;
  let stuck = false;
  while (iterations < maximumIterations && !stuck) {
    iterations++;
    for (let j = 0; j < count; j++) scale[j] = Math.max(scale[j]!, Math.sqrt(sumOfSquares(slopes[j]!))) || 1;
    rotating.set(residuals);
    const factor = householderFactor(slopes, rotating);
    if (relativeOffset(factor.rotated, fixedSum + sum, degreesOfFreedom) < 1e-9) break;
    for (;;) {
      const step = dampedStep(factor.upper, factor.rotated, scale, damping, count);
      const trial = parameters.map((value, j) => value + step[j]!);
      let moved = 0;
      for (let j = 0; j < count; j++) {
        moved = Math.max(moved, Math.abs(step[j]!) / (Math.abs(parameters[j]!) + 1e-300));
      }
      const trialSum = problem.evaluate(trial, trialResiduals)
        ? sumOfSquares(trialResiduals)
        : Number.POSITIVE_INFINITY;
      const expected = expectedFall(factor.upper, step, scale, damping, count);
      const share = (sum - trialSum) / expected;
      if (trialSum < sum && share > 1e-4) {
        damping *= Math.max(1 / 3, 1 - (2 * share - 1) ** 3);
        damping = Math.max(damping, 1e-15);
        growth = 2;
        parameters = trial;
        [residuals, trialResiduals] = [trialResiduals, residuals];
        sum = trialSum;
        break;
      }
      damping *= growth;
      growth *= 2;
      if (moved < 1e-12 || damping > 1e25) {
        stuck = true;
        break;
      }
    }
    if (!problem.evaluate(parameters, residuals, slopes)) break;
  }
  if (polish) parameters = gaussNewtonPolish(problem, parameters);
  problem.evaluate(parameters, residuals, slopes);
  sum = sumOfSquares(residuals);
  rotating.set(residuals);
  const factor = householderFactor(slopes, rotating);
  const offset = relativeOffset(factor.rotated, fixedSum + sum, degreesOfFreedom);
  const step = solveUpper(factor.upper, count, factor.rotated);
  const settled = parameters.every((value, j) => Math.abs(step[j]!) <= 1e-9 * Math.abs(value) + 1e-300);
  return {
    parameters,
    residualSumOfSquares: fixedSum + sum,
    inverseCrossProduct: inverseOfCrossProduct(factor.upper, count),
    converged: factor.independence > dependenceLimit && (offset < 1e-6 || settled),
    offset,
    independence: factor.independence,
    iterations,
  };
}

/** Whether the model and its derivatives have a value at these parameters, so that a search can start there. */
export function hasValueAt(problem: LeastSquaresProblem, parameters: ArrayLike<number>): boolean {
  const slopes = Array.from({ length: problem.parameterCount }, () => new Float64Array(problem.residualCount));
  return problem.evaluate(Float64Array.from(parameters), new Float64Array(problem.residualCount), slopes);
}

/** Plain Gauss-Newton steps from close by; stops as soon as a step is not clearly shorter than the last. */
function gaussNewtonPolish(problem: LeastSquaresProblem, start: Float64Array): Float64Array {
  const { residualCount: rows, parameterCount: count } = problem;
  const slopes = Array.from({ length: count }, () => new Float64Array(rows));
  const residuals = new Float64Array(rows);
  let parameters = start;
  let sum = Number.POSITIVE_INFINITY;
  let lastLength = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 60; round++) {
    if (!problem.evaluate(parameters, residuals, slopes)) break;
    sum = sumOfSquares(residuals);
    const factor = householderFactor(slopes, residuals);
    if (factor.independence <= dependenceLimit) break;
    const step = solveUpper(factor.upper, count, factor.rotated);
    let length = 0;
    for (let j = 0; j < count; j++) {
      length = Math.max(length, Math.abs(step[j]!) / (Math.abs(parameters[j]!) || 1));
    }
    if (!(length < lastLength) || length === 0) break;
    const trial = parameters.map((value, j) => value + step[j]!);
    if (!problem.evaluate(trial, residuals)) break;
    if (sumOfSquares(residuals) > sum * (1 + 1e-11) + 1e-300) break;
    parameters = trial;
    lastLength = length;
  }
  return parameters;
}

/** The step that minimises |r - J step|^2 + damping |scale step|^2, from the triangular factor of J. */
function dampedStep(
  upper: Float64Array,
  rotated: Float64Array,
  scale: Float64Array,
  damping: number,
  count: number,
): Float64Array {
  const root = Math.sqrt(damping);
  const columns = Array.from({ length: count }, (_, j) => {
    const column = new Float64Array(2 * count);
    for (let i = 0; i <= j; i++) column[i] = upper[i * count + j]!;
    column[count + j] = root * scale[j]!;
    return column;
  });
  const rightHandSide = new Float64Array(2 * count);
  rightHandSide.set(rotated);
  const factor = householderFactor(columns, rightHandSide);
  return solveUpper(factor.upper, count, factor.rotated);
}

/** The fall in the sum of squares that the linear approximation promises for a damped step. */
function expectedFall(
  upper: Float64Array,
  step: Float64Array,
  scale: Float64Array,
  damping: number,
  count: number,
): number {
  let fall = 0;
  for (let i = 0; i < count; i++) {
    let moved = 0;
    for (let j = i; j < count; j++) moved += upper[i * count + j]! * step[j]!;
    fall += moved * moved + 2 * damping * (scale[i]! * step[i]!) ** 2;
  }
  return fall;
}

function relativeOffset(rotated: Float64Array, sum: number, degreesOfFreedom: number): number {
  const explained = sumOfSquares(rotated);
  const left = Math.max(sum - explained, sum * 1e-16);
  if (explained === 0 || sum === 0) return 0;
  return Math.sqrt(explained / rotated.length / (left / Math.max(degreesOfFreedom, 1)));
}

function sumOfSquares(values: Float64Array): number {
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < values.length; i++) {
    const term = values[i]! * values[i]! - lost;
    const next = sum + term;
    lost = next - sum - term;
    sum = next;
  }
  return sum;
}
