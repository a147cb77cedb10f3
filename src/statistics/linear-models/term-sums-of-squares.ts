import { fUpperTail } from "../distributions/f.ts";
import { type DoubleDouble, sumOfSquares, toNumber } from "../linear-algebra/double-double.ts";
import { entry } from "../linear-algebra/double-double-column.ts";
import type { LinearModel } from "./linear-model.ts";

/** One line of an analysis of variance. */
export interface TermTest {
  term: string;
  degreesOfFreedom: number;
  sumOfSquares: number;
  meanSquare: number;
  /** mean square over the residual mean square; infinite for an exact fit, 0 when both are 0 */
  f: number;
  p: number;
}

/**
 * Analysis of variance with each term adjusted for the terms before it; the sums of squares add up to the regression's.
 * @returns one line per term in the order given; a term all of whose columns were dropped has no line
 * @source extra sums of squares: Seber and Lee 2003, Linear Regression Analysis, sections 3.7 to 3.9
 * @example sequentialTests(model)[0].sumOfSquares // 21.0125, with the set-up of linearModel
 */
export function sequentialTests(model: LinearModel): TermTest[] {
  const { factor, rotated, columns, codings } = model.working;
  return codings.flatMap((coding) => {
    const effects: DoubleDouble[] = [];
    factor.kept.forEach((position, k) => {
      if (columns[position]!.term === coding.name) effects.push(entry(rotated, k));
    });
    return effects.length === 0 ? [] : [termTest(model, coding.name, effects)];
  });
}

function termTest(model: LinearModel, term: string, effects: ReadonlyArray<DoubleDouble>): TermTest {
  const sum = toNumber(sumOfSquares(effects));
  // an exact fit leaves nothing to compare with: effects that are rounding count as 0
  const sumOfSquaresOfTerm = model.exactFit && sum <= 1e-28 * model.total.sumOfSquares ? 0 : sum;
  const meanSquare = sumOfSquaresOfTerm / effects.length;
  const f = meanSquare === 0 ? 0 : meanSquare / model.residual.meanSquare;
  return {
    term,
    degreesOfFreedom: effects.length,
    sumOfSquares: sumOfSquaresOfTerm,
    meanSquare,
    f,
    p: fUpperTail(f, effects.length, model.residual.degreesOfFreedom),
  };
}
