import { fUpperTail } from "../distributions/f.ts";
import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import {
  type DoubleDouble,
  multiply,
  one,
  squareRoot,
  subtract,
  sumOfSquares,
  toNumber,
  zero,
} from "../linear-algebra/double-double.ts";
import {
  columnOf,
  columnProduct,
  type DoubleDoubleColumn,
  doubleDouble,
  emptyColumn,
  entry,
  setEntry,
  subtractMultiple,
} from "../linear-algebra/double-double-column.ts";
import { type DoubleDoubleFactor, doubleDoubleFactor } from "../linear-algebra/double-double-factor.ts";
import { solveUpper, solveUpperTransposed } from "../linear-algebra/triangle.ts";
import { typedDecimal } from "../linear-algebra/typed-decimal.ts";
import { requireOpenProbability, requirePositive, requireSameLength, requireSample } from "../require-numbers.ts";
import { type DesignColumn, designColumns, type TermValues } from "./design-columns.ts";
import { type DroppedColumn, droppedColumns } from "./dropped-columns.ts";
import { type ModelTerm, type TermCoding, termCodings } from "./model-term.ts";

/** What a linear model is fitted to. */
export interface LinearModelInput {
  response: ReadonlyArray<number>;
  terms: ReadonlyArray<ModelTerm>;
  /** whether the model has a constant; true unless stated */
  intercept?: boolean;
  /** one number above 0 per row, in proportion to 1 / variance of that row; all equal unless stated */
  weights?: ReadonlyArray<number>;
  /** level of the intervals; 0.95 unless stated */
  level?: number;
}

/** One coefficient, in the response's unit per unit of its column. */
export interface Coefficient {
  /** "intercept", "dose", "cook: B", "cook: B × dose" */
  name: string;
  term: string;
  estimate: number;
  lower: number;
  upper: number;
  standardError: number;
  /** estimate / standardError; infinite for an exact fit, 0 when both are 0 */
  t: number;
  /** two-tailed */
  p: number;
}

/** A least-squares fit. */
export interface LinearModel {
  observations: number;
  coefficients: Coefficient[];
  /** columns that could not be separated from those before them */
  dropped: DroppedColumn[];
  residual: { degreesOfFreedom: number; sumOfSquares: number; meanSquare: number };
  /** sigma: square root of the residual mean square, in the response's unit */
  residualStandardDeviation: number;
  /** all terms together; f is 0 and p 1 when there is no term to test */
  regression: { degreesOfFreedom: number; sumOfSquares: number; meanSquare: number; f: number; p: number };
  /** about the (weighted) mean, or about 0 without an intercept */
  total: { degreesOfFreedom: number; sumOfSquares: number };
  rSquared: number;
  adjustedRSquared: number;
  fitted: number[];
  /** response - fitted, not weighted */
  residuals: number[];
  /** true when what is left is rounding of the response: residuals are then reported as 0 */
  exactFit: boolean;
  level: number;
  working: LinearModelWorking;
}

/** What the tests, predictions and diagnostics of a fit start from. */
export interface LinearModelWorking {
  response: ReadonlyArray<number>;
  codings: TermCoding[];
  values: TermValues;
  intercept: boolean;
  columns: DesignColumn[];
  /** of the columns times the root weights */
  factor: DoubleDoubleFactor;
  /** response times the root weights, rotated: one effect per kept column, then the residual part */
  rotated: DoubleDoubleColumn;
  /** one per kept column */
  estimates: DoubleDouble[];
  weights: ReadonlyArray<number> | undefined;
  rootWeights: DoubleDoubleColumn | undefined;
}

/** A residual this small beside the response is rounding. */
const roundingShare = 1e-15;

/**
 * Least-squares fit of a response on numbers, powers, factors and their interactions.
 * @param input columns of one length; every column is taken as typed decimals and carried to 32 digits, so a badly
 *   conditioned design (years, high powers) keeps its digits
 * @returns estimates, tests and fitted values; columns that depend on others are left out and named in `dropped`
 * @throws RangeError if columns differ in length, a value is not finite, a weight is not above 0, a term is malformed, there
 *   are no more rows than coefficients, or the response does not vary (about 0 without an intercept)
 * @source Householder least squares: Golub and Van Loan 2013, Matrix Computations, 4th edition, algorithm 5.3.2;
 *   double-double arithmetic: Dekker 1971, Numerische Mathematik 18(3):224-242
 * @example
 * const model = linearModel({ response: [1, 3, 5.5, 7], terms: [{ kind: "number", name: "dose", values: [0, 1, 2, 3] }] });
 * model.coefficients[1].estimate // 2.05
 */
export function linearModel(input: LinearModelInput): LinearModel {
  const routine = "linearModel";
  const { response, terms, intercept = true, weights, level = 0.95 } = input;
  requireSample(routine, "response", response, 2);
  requireOpenProbability(routine, "level", level);
  const observations = response.length;
  if (weights !== undefined) {
    requireSameLength(routine, "response", response, "weights", weights);
    for (const weight of weights) requirePositive(routine, "a weight", weight);
  }
  const codings = termCodings(routine, terms, observations);
  if (codings.length === 0 && !intercept)
    throw new RangeError(`${routine}: a model needs a term or an intercept; received neither`);
  const values: TermValues = new Map(
    terms.flatMap((term) => (term.kind === "interaction" ? [] : [[term.name, term.values]])),
  );
  const columns = designColumns(codings, values, observations, intercept);
  const rootWeights = weights === undefined ? undefined : rootsOf(weights);
  const weighted = (column: DoubleDoubleColumn) =>
    rootWeights === undefined ? column : columnProduct(column, rootWeights);
  const factor = doubleDoubleFactor(columns.map((column) => weighted(column.values)));
  const rank = factor.kept.length;
  const degreesOfFreedom = observations - rank;
  if (degreesOfFreedom < 1) {
    throw new RangeError(
      `${routine}: there must be more rows than coefficients; received ${observations} rows and ${rank} coefficients`,
    );
  }
  const typed = columnOf(response);
  const rotated = factor.rotate(weighted(typed));
  const effects = Array.from({ length: rank }, (_, i) => entry(rotated, i));
  const left = tail(rotated, rank);
  const explained = intercept ? effects.slice(1) : effects;
  const whole = toNumber(sumOfSquares([...effects, ...left]));
  let residualSumOfSquares = toNumber(sumOfSquares(left));
  const regressionSumOfSquares = toNumber(sumOfSquares(explained));
  if (regressionSumOfSquares + residualSumOfSquares <= whole * roundingShare ** 2) {
    throw new RangeError(`${routine}: the response must vary; received ${response[0]} in every row`);
  }
  const exactFit = residualSumOfSquares <= whole * roundingShare ** 2;
  if (exactFit) {
    residualSumOfSquares = 0;
    clearTail(rotated, rank);
  }
  const estimates = solveUpper(doubleDouble, factor.upper, effects).map((estimate, k) =>
    exactFit && toNumber(effectSize(factor, k, estimate)) <= roundingShare * Math.sqrt(whole) ? zero : estimate,
  );
  const meanSquare = residualSumOfSquares / degreesOfFreedom;
  const regressionDf = explained.length;
  const totalSumOfSquares = regressionSumOfSquares + residualSumOfSquares;
  const f = regressionDf === 0 ? 0 : regressionSumOfSquares / regressionDf / meanSquare;
  const residuals = residualColumn(factor, rotated, rank, rootWeights);
  return {
    observations,
    coefficients: coefficientTable(columns, factor, estimates, Math.sqrt(meanSquare), degreesOfFreedom, level),
    dropped: droppedColumns(columns, factor),
    residual: { degreesOfFreedom, sumOfSquares: residualSumOfSquares, meanSquare },
    residualStandardDeviation: Math.sqrt(meanSquare),
    regression: {
      degreesOfFreedom: regressionDf,
      sumOfSquares: regressionSumOfSquares,
      meanSquare: regressionDf === 0 ? 0 : regressionSumOfSquares / regressionDf,
      f,
      p: regressionDf === 0 ? 1 : fUpperTail(f, regressionDf, degreesOfFreedom),
    },
    total: { degreesOfFreedom: observations - (intercept ? 1 : 0), sumOfSquares: totalSumOfSquares },
    rSquared: regressionSumOfSquares / totalSumOfSquares,
    adjustedRSquared: 1 - meanSquare / (totalSumOfSquares / (observations - (intercept ? 1 : 0))),
    fitted: Array.from({ length: observations }, (_, i) => toNumber(subtract(entry(typed, i), entry(residuals, i)))),
    residuals: Array.from({ length: observations }, (_, i) => toNumber(entry(residuals, i))),
    exactFit,
    level,
    working: { response, codings, values, intercept, columns, factor, rotated, estimates, weights, rootWeights },
  };
}

function rootsOf(weights: ReadonlyArray<number>): DoubleDoubleColumn {
  const roots = emptyColumn(weights.length);
  weights.forEach((weight, i) => {
    setEntry(roots, i, squareRoot(typedDecimal(weight)));
  });
  return roots;
}

function tail(column: DoubleDoubleColumn, from: number): DoubleDouble[] {
  return Array.from({ length: column.high.length - from }, (_, i) => entry(column, from + i));
}

function clearTail(column: DoubleDoubleColumn, from: number): void {
  column.high.fill(0, from);
  column.low.fill(0, from);
}

/** Length of what a coefficient adds to the fitted values beyond the columns before it. */
function effectSize(factor: DoubleDoubleFactor, k: number, estimate: DoubleDouble): DoubleDouble {
  const product = multiply(estimate, factor.upper[k]![k]!);
  return product.high < 0 ? subtract(zero, product) : product;
}

function residualColumn(
  factor: DoubleDoubleFactor,
  rotated: DoubleDoubleColumn,
  rank: number,
  rootWeights: DoubleDoubleColumn | undefined,
): DoubleDoubleColumn {
  const onlyResidual = emptyColumn(rotated.high.length);
  subtractMultiple(onlyResidual, { high: -1, low: 0 }, rotated, rank);
  const residuals = factor.rotateBack(onlyResidual);
  if (rootWeights !== undefined) {
    for (let i = 0; i < residuals.high.length; i++) {
      residuals.high[i] = toNumber(entry(residuals, i)) / toNumber(entry(rootWeights, i));
      residuals.low[i] = 0;
    }
  }
  return residuals;
}

function coefficientTable(
  columns: ReadonlyArray<DesignColumn>,
  factor: DoubleDoubleFactor,
  estimates: ReadonlyArray<DoubleDouble>,
  sigma: number,
  degreesOfFreedom: number,
  level: number,
): Coefficient[] {
  const quantile = studentTQuantile((1 + level) / 2, degreesOfFreedom);
  return factor.kept.map((position, k) => {
    const unit = estimates.map((_, j) => (j === k ? one : zero));
    const spread = Math.sqrt(toNumber(sumOfSquares(solveUpperTransposed(doubleDouble, factor.upper, unit))));
    const estimate = toNumber(estimates[k]!);
    const standardError = sigma * spread;
    const t = estimate === 0 ? 0 : estimate / standardError;
    return {
      name: columns[position]!.name,
      term: columns[position]!.term,
      estimate,
      lower: estimate - quantile * standardError,
      upper: estimate + quantile * standardError,
      standardError,
      t,
      p: studentTTwoTailed(t, degreesOfFreedom),
    };
  });
}
