import { chiSquareUpperTail } from "../distributions/chi-square.ts";
import { fUpperTail } from "../distributions/f.ts";
import { zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import type { MixedModel } from "./fit-mixed-model.ts";
import { minimiseDeviance } from "./variance-search.ts";

/** Tests that the variance between groups of one grouping is 0. */
export interface RandomInterceptTest {
  grouping: string;
  /** drop in deviance when the grouping is added, fixed part unchanged; never below 0 */
  likelihoodRatio: number;
  /** from the even mixture of 0 and chi-square with 1 degree of freedom, as 0 is the edge of what a variance can be */
  p: number;
  /** exact under normal errors, for a model with one grouping: between groups (fixed part taken out first) over within */
  exact?: { f: number; numeratorDf: number; denominatorDf: number; p: number };
}

/**
 * Likelihood-ratio test of one random grouping and, when it is the only one, the exact F test.
 * @throws RangeError if the model has no grouping of that name
 * @source Self and Liang 1987, Journal of the American Statistical Association 82(398):605-610; Stram and Lee 1994,
 *   Biometrics 50(4):1171-1177; exact test: Wald 1947, Annals of Mathematical Statistics 18:586-589 (from memory)
 * @example randomInterceptTest(fit, "cook").p // 6.6231e-6..., with the set-up of fitMixedModel
 */
export function randomInterceptTest(fit: MixedModel, grouping: string): RandomInterceptTest {
  const { factors, model, state, within, columns } = fit.working;
  const position = factors.findIndex((factor) => factor.name === grouping) + 1;
  if (position === 0) {
    throw new RangeError(
      `randomInterceptTest: "${grouping}" must be a random grouping of the model; it has ${factors.map((f) => f.name).join(", ")}`,
    );
  }
  const size = state.variances.length;
  const others = [...state.variances.keys()].filter((i) => i !== position);
  const directions = zeroMatrix(size, others.length);
  others.forEach((i, k) => {
    directions[i]![k] = 1;
  });
  // the variance given up goes to the residual, a start from which the residual is never far off
  const start = Float64Array.from(others, (i) => state.variances[i]! + (i === 0 ? state.variances[position]! : 0));
  const without = minimiseDeviance(model, { fixed: new Float64Array(size), directions }, start).state;
  const likelihoodRatio = Math.max(0, without.deviance - state.deviance);
  const result: RandomInterceptTest = {
    grouping,
    likelihoodRatio,
    p: likelihoodRatio === 0 ? 1 : chiSquareUpperTail(likelihoodRatio, 1) / 2,
  };
  if (factors.length > 1 || within === undefined) return result;
  const count = model.structure.count;
  const fixedRank = columns.basis.length;
  const denominatorDf = count - factors[0]!.labels.length - within.rank;
  const numeratorDf = count - fixedRank - denominatorDf;
  if (numeratorDf < 1 || denominatorDf < 1) return result;
  // the scaled response has a residual sum of squares of count - fixedRank by construction
  const between = Math.max(0, count - fixedRank - within.sumOfSquares);
  const f = between / numeratorDf / (within.sumOfSquares / denominatorDf);
  return { ...result, exact: { f, numeratorDf, denominatorDf, p: fUpperTail(f, numeratorDf, denominatorDf) } };
}
