import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { type OrthogonalFactor, orthogonalFactor } from "../linear-algebra/orthogonal-factor.ts";
import { inverseCrossProduct } from "../linear-algebra/triangle.ts";

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
  /** inverse of J'J, J the derivatives of the fitted values: the covariance apart from the error variance */
  inverseCrossProduct: number[][];
  /** true when the residuals are at right angles to every direction the parameters can move the fit in */
  converged: boolean;
  /** how far from that: the part of the residuals the parameters could still explain, relative to the rest */
  offset: number;
  /** smallest relative diagonal of the triangular factor; near 0 when parameters cannot be separated */
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
 * @source Marquardt 1963, Journal of the Society for Industrial and Applied Mathematics 11(2):431-441; step control
 *   Nielsen 1999, report IMM-REP-1999-05, Technical University of Denmark; scaling Moré 1978, Lecture Notes in
 *   Mathematics 630:105-116; offset criterion Bates and Watts 1981, Technometrics 23(2):179-183
 * @example levenbergMarquardt({ residualCount: 1, parameterCount: 1, evaluate: (p, r, s) => { r[0] = 4 - 2 * p[0]!; if (s) s[0]![0] = 2; return true; } }, [0]).parameters[0] // 2
 */
export function levenbergMarquardt(
  problem: LeastSquaresProblem,
  start: ArrayLike<number>,
  polish = true,
  maximumIterations = 500,
): LeastSquaresSolution {
  const { residualCount: rows, parameterCount: count } = problem;
  if (start.length !== count) {
    throw new RangeError(`levenbergMarquardt: ${count} starting values are needed; received ${start.length}`);
  }
  const parameters = Float64Array.from(start);
  const residuals = new Float64Array(rows);
  const slopes = Array.from({ length: count }, () => new Float64Array(rows));
  if (!problem.evaluate(parameters, residuals, slopes)) {
    throw new RangeError(
      `levenbergMarquardt: the model has no value at the start ${Array.from(parameters).join(", ")}`,
    );
  }
  const searched = dampedSearch(
    problem,
    { parameters, residuals, sum: sumOfSquares(residuals) },
    slopes,
    maximumIterations,
  );
  const best = polish ? gaussNewtonPolish(problem, searched.parameters) : searched.parameters;
  return { ...solutionAt(problem, best, slopes), iterations: searched.iterations };
}

/** A place of the search. */
interface Place {
  parameters: Float64Array;
  residuals: Float64Array;
  sum: number;
}

/** Damped steps from a place until the residuals hold nothing more to explain, or no step makes them smaller. */
function dampedSearch(
  problem: LeastSquaresProblem,
  start: Place,
  slopes: Float64Array[],
  maximumIterations: number,
): { parameters: Float64Array; iterations: number } {
  const { fixedSum, degreesOfFreedom } = fixedOf(problem);
  const scale = new Float64Array(problem.parameterCount);
  const control = { damping: 1e-3, growth: 2 };
  let place = start;
  let spare: Float64Array = new Float64Array(problem.residualCount);
  let iterations = 0;
  while (iterations < maximumIterations) {
    iterations++;
    slopes.forEach((slope, j) => {
      scale[j] = Math.max(scale[j]!, Math.sqrt(sumOfSquares(slope))) || 1;
    });
    const factor = orthogonalFactor(ordinary, slopes, 0);
    const rotated = factor.rotate(place.residuals).slice(0, factor.kept.length);
    if (relativeOffset(rotated, slopes.length, fixedSum + place.sum, degreesOfFreedom) < 1e-9) break;
    const next = dampedMove(problem, place, spare, { factor, rotated, scale }, control);
    if (next !== undefined) [place, spare] = [next, place.residuals];
    if (!problem.evaluate(place.parameters, place.residuals, slopes) || next === undefined) break;
  }
  return { parameters: place.parameters, iterations };
}

/** The linear approximation round a place. */
interface Linearised {
  factor: OrthogonalFactor<number, Float64Array>;
  /** the part of the residuals that the derivatives reach, rotated */
  rotated: Float64Array;
  scale: Float64Array;
}

/** The first step, ever more damped, that makes the sum of squares fall; nothing when steps have become too short. */
function dampedMove(
  problem: LeastSquaresProblem,
  { parameters, sum }: Place,
  residuals: Float64Array,
  linear: Linearised,
  control: { damping: number; growth: number },
): Place | undefined {
  for (;;) {
    const step = dampedStep(linear, control.damping);
    const trial = parameters.map((value, j) => value + step[j]!);
    const moved = step.reduce((most, value, j) => {
      return Math.max(most, Math.abs(value) / (Math.abs(parameters[j]!) + 1e-300));
    }, 0);
    const trialSum = problem.evaluate(trial, residuals) ? sumOfSquares(residuals) : Number.POSITIVE_INFINITY;
    const share = (sum - trialSum) / expectedFall(linear, step, control.damping);
    if (trialSum < sum && share > 1e-4) {
      control.damping = Math.max(control.damping * Math.max(1 / 3, 1 - (2 * share - 1) ** 3), 1e-15);
      control.growth = 2;
      return { parameters: trial, residuals, sum: trialSum };
    }
    control.damping *= control.growth;
    control.growth *= 2;
    if (moved < 1e-12 || control.damping > 1e25) return undefined;
  }
}

/** What there is to say of the place where a search stopped. */
function solutionAt(
  problem: LeastSquaresProblem,
  parameters: Float64Array,
  slopes: Float64Array[],
): Omit<LeastSquaresSolution, "iterations"> {
  const { fixedSum, degreesOfFreedom } = fixedOf(problem);
  const residuals = new Float64Array(problem.residualCount);
  problem.evaluate(parameters, residuals, slopes);
  const residualSumOfSquares = fixedSum + sumOfSquares(residuals);
  const factor = orthogonalFactor(ordinary, slopes, 0);
  const rotated = factor.rotate(residuals).slice(0, factor.kept.length);
  const offset = relativeOffset(rotated, slopes.length, residualSumOfSquares, degreesOfFreedom);
  const step = factor.solve(rotated);
  const settled = parameters.every((value, j) => Math.abs(step[j]!) <= 1e-9 * Math.abs(value) + 1e-300);
  return {
    parameters,
    residualSumOfSquares,
    inverseCrossProduct: covarianceOf(factor, slopes.length),
    converged: factor.independence > dependenceLimit && (offset < 1e-6 || settled),
    offset,
    independence: factor.independence,
  };
}

/** Sum of squares that no parameter changes, and the degrees of freedom of all residuals. */
function fixedOf(problem: LeastSquaresProblem): { fixedSum: number; degreesOfFreedom: number } {
  const { residualCount, parameterCount, fixedPart } = problem;
  return {
    fixedSum: fixedPart?.sumOfSquares ?? 0,
    degreesOfFreedom: residualCount + (fixedPart?.degreesOfFreedom ?? 0) - parameterCount,
  };
}

/** Inverse of the cross-product; 0 for a parameter that the others make needless. */
function covarianceOf({ kept, upper }: OrthogonalFactor<number, Float64Array>, count: number): number[][] {
  const covariance = Array.from({ length: count }, () => new Array<number>(count).fill(0));
  inverseCrossProduct(upper).forEach((row, a) => {
    row.forEach((value, b) => {
      covariance[kept[a]!]![kept[b]!] = value;
    });
  });
  return covariance;
}

/**
 * Whether the model and its derivatives have a value at these parameters, so that a search can start there.
 * @internal
 */
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
    const factor = orthogonalFactor(ordinary, slopes, 0);
    if (factor.independence <= dependenceLimit) break;
    const step = factor.solve(factor.rotate(residuals));
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

/** The step that minimises |r - J step|^2 + damping |scale step|^2, from the rotated derivatives and residuals. */
function dampedStep({ factor, rotated, scale }: Linearised, damping: number): number[] {
  const root = Math.sqrt(damping);
  const rank = rotated.length;
  const columns = factor.rotatedColumns.map((entries, j) => {
    const column = new Float64Array(rank + scale.length);
    column.set(entries);
    column[rank + j] = root * scale[j]!;
    return column;
  });
  const rightHandSide = new Float64Array(rank + scale.length);
  rightHandSide.set(rotated);
  const damped = orthogonalFactor(ordinary, columns, 0);
  return damped.solve(damped.rotate(rightHandSide));
}

/** The fall in the sum of squares that the linear approximation promises for a damped step. */
function expectedFall({ factor, rotated, scale }: Linearised, step: ReadonlyArray<number>, damping: number): number {
  let fall = 0;
  for (let i = 0; i < step.length; i++) {
    let moved = 0;
    if (i < rotated.length) for (let j = 0; j < step.length; j++) moved += factor.rotatedColumns[j]![i]! * step[j]!;
    fall += moved * moved + 2 * damping * (scale[i]! * step[i]!) ** 2;
  }
  return fall;
}

function relativeOffset(rotated: Float64Array, count: number, sum: number, degreesOfFreedom: number): number {
  const explained = sumOfSquares(rotated);
  const left = Math.max(sum - explained, sum * 1e-16);
  if (explained === 0 || sum === 0) return 0;
  return Math.sqrt(explained / count / (left / Math.max(degreesOfFreedom, 1)));
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
