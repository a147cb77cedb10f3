import { fUpperTail } from "../distributions/f.ts";
import {
  type DoubleDouble,
  multiply,
  one,
  subtract,
  sumOfSquares,
  toNumber,
  zero,
} from "../linear-algebra/double-double.ts";
import { columnOf, type DoubleDoubleColumn, doubleDouble, entry } from "../linear-algebra/double-double-column.ts";
import { type OrthogonalFactor, orthogonalFactor } from "../linear-algebra/orthogonal-factor.ts";
import { solveUpper, solveUpperTransposed } from "../linear-algebra/triangle.ts";
import { requireSample } from "../require-numbers.ts";
import { designColumns, type ModelTerm } from "./design-columns.ts";

/** One coefficient, in the response's unit per unit of its column. */
export interface Coefficient {
  /** "intercept", "dose", "cook: B" */
  name: string;
  term: string;
  estimate: number;
  standardError: number;
}

/** A least-squares fit. */
export interface LinearModel {
  coefficients: Coefficient[];
  /** terms with columns that could not be separated from those before them, and were left out */
  dropped: string[];
  /** mean square 0 where what is left is rounding of the response and no least variance is stated */
  residual: { degreesOfFreedom: number; meanSquare: number };
  /** the last term adjusted for those before it; f is infinite for an exact fit, 0 when nothing is left to compare */
  lastTerm: { degreesOfFreedom: number; f: number; p: number };
  /** what contrasts start from: the triangle of the design's kept columns, and their estimates */
  working: { upper: DoubleDouble[][]; estimates: DoubleDouble[] };
}

/** What a fit is made of. */
export interface LinearModelInput {
  response: ReadonlyArray<number>;
  terms: ReadonlyArray<ModelTerm>;
  /** variance that a row is known to have, by what it is a mean of: where less is left, rows agree by chance; 0 unless stated */
  leastVariance?: number;
}

/** A residual this small beside the response is rounding. */
const roundingShare = 1e-15;

/**
 * A column that keeps less than this share of its length once the columns before it are removed depends on them. With 32
 * digits carried, the only noise in a column is the rounding it arrived with (1 part in 10^16), so dependence can be
 * distinguished from bad conditioning: powers of years are still independent, a copied or summed column is not.
 */
const dependentBelow = 1e-13;

/**
 * Least-squares fit of a response on numbers and factors.
 * @param input columns of one length; every column is taken as typed decimals and carried to 32 digits, so a badly
 *   conditioned design (years, high powers) keeps its digits
 * @throws RangeError if columns differ in length, a value is not finite, a term is malformed, there are no more rows than
 *   coefficients, or the response does not vary
 * @source Householder least squares: Golub and Van Loan 2013, Matrix Computations, 4th edition, algorithm 5.3.2;
 *   double-double arithmetic: Dekker 1971, Numerische Mathematik 18(3):224-242; extra sums of squares: Seber and Lee 2003,
 *   Linear Regression Analysis, sections 3.7 to 3.9
 * @example
 * const model = linearModel({ response: [1, 3, 5.5, 7], terms: [{ kind: "number", name: "dose", values: [0, 1, 2, 3] }] });
 * model.coefficients[1].estimate // 2.05
 */
export function linearModel(input: LinearModelInput): LinearModel {
  const routine = "linearModel";
  const { response, terms, leastVariance = 0 } = input;
  requireSample(routine, "response", response, 2);
  const columns = designColumns(routine, terms, response.length);
  const typed = columns.map(({ values }) => columnOf(values));
  const factor = orthogonalFactor(doubleDouble, typed, dependentBelow);
  const { kept, upper } = factor;
  const degreesOfFreedom = response.length - kept.length;
  if (degreesOfFreedom < 1) {
    throw new RangeError(
      `${routine}: there must be more rows than coefficients; received ${response.length} rows and ${kept.length} coefficients`,
    );
  }
  const rotated = factor.rotate(columnOf(response));
  const effects = kept.map((_, k) => entry(rotated, k));
  const left = Array.from({ length: degreesOfFreedom }, (_, i) => entry(rotated, kept.length + i));
  const whole = toNumber(sumOfSquares([...effects, ...left]));
  const explained = toNumber(sumOfSquares(effects.slice(1)));
  let unexplained = toNumber(sumOfSquares(left));
  if (explained + unexplained <= whole * roundingShare ** 2) {
    throw new RangeError(`${routine}: the response must vary; received ${response[0]} in every row`);
  }
  const exactFit = unexplained <= whole * roundingShare ** 2;
  if (exactFit) unexplained = 0;
  const estimates = solveUpper(doubleDouble, upper, effects).map((estimate, k) =>
    exactFit && effectSize(upper, k, estimate) <= roundingShare * Math.sqrt(whole) ? zero : estimate,
  );
  const meanSquare = Math.max(unexplained / degreesOfFreedom, leastVariance);
  const ofLast = effects.filter((_, k) => columns[kept[k]!]!.term === terms.at(-1)?.name);
  const sum = toNumber(sumOfSquares(ofLast));
  // an exact fit leaves nothing to compare with: effects that are rounding count as 0
  const isRounding = exactFit && sum <= 1e-28 * (explained + unexplained);
  const f = sum === 0 || isRounding ? 0 : sum / ofLast.length / meanSquare;
  return {
    coefficients: coefficientTable(factor, estimates, Math.sqrt(meanSquare)).map((one, k) => {
      const { name, term } = columns[kept[k]!]!;
      return { name, term, ...one };
    }),
    dropped: factor.dependent.map(({ column }) => columns[column]!.term),
    residual: { degreesOfFreedom, meanSquare },
    lastTerm: {
      degreesOfFreedom: ofLast.length,
      f,
      p: ofLast.length === 0 ? 1 : fUpperTail(f, ofLast.length, degreesOfFreedom),
    },
    working: { upper, estimates },
  };
}

/** Length of what a coefficient adds to the fitted values beyond the columns before it. */
function effectSize(upper: ReadonlyArray<ReadonlyArray<DoubleDouble>>, k: number, estimate: DoubleDouble): number {
  const product = multiply(estimate, upper[k]![k]!);
  return toNumber(product.high < 0 ? subtract(zero, product) : product);
}

function coefficientTable(
  { kept, upper }: OrthogonalFactor<DoubleDouble, DoubleDoubleColumn>,
  estimates: ReadonlyArray<DoubleDouble>,
  sigma: number,
): { estimate: number; standardError: number }[] {
  return kept.map((_, k) => {
    const unit = estimates.map((__, j) => (j === k ? one : zero));
    const spread = Math.sqrt(toNumber(sumOfSquares(solveUpperTransposed(doubleDouble, upper, unit))));
    return { estimate: toNumber(estimates[k]!), standardError: sigma * spread };
  });
}
