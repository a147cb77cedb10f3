import { studentizedRangeQuantile, studentizedRangeUpperTail } from "../distributions/studentized-range.ts";
import { adjustedDifferences } from "../linear-models/adjusted-means.ts";
import type { LinearModel } from "../linear-models/linear-model.ts";
import type { Setting } from "../linear-models/predict-mean.ts";

/** Two levels of a factor compared, with limits and p that hold for all pairs at once. */
export interface SimultaneousLevelDifference {
  first: string;
  second: string;
  /** second adjusted mean less the first */
  difference: number;
  lower: number;
  upper: number;
  standardError: number;
  df: number;
  /** |t| times √2 */
  q: number;
  /** adjusted for all pairs */
  p: number;
}

/**
 * All differences between the adjusted means of a factor with limits that hold together: for blocks that lost units, or means
 * adjusted for another factor or a number.
 * @param factor name of a factor in the model
 * @param at other values to hold numbers or factors at, as for `adjustedMeans`
 * @param level of the whole set of intervals; the model's unless stated
 * @returns pairs in the order 1-2, 1-3, ..., of the factor's levels, reference first; exact where all differences have one
 *   standard error, else an approximation that errs on the safe side in practice
 * @throws RangeError if the factor is unknown, the fit is exact, or the data cannot tell a difference because columns were dropped
 * @source Kramer 1957, Biometrics 13:13-18 (from memory); Hayter 1989, Journal of the American Statistical Association
 *   84:1091-1097 (from memory)
 * @example
 * const model = linearModel({ response: [4, 6, 9, 11, 5, 9], terms: [{ kind: "factor", name: "cook", values: ["A", "A", "B", "B", "C", "C"] }] });
 * tukeyKramerOfModel(model, "cook")[0].q // 3.5355...
 */
export function tukeyKramerOfModel(
  model: LinearModel,
  factor: string,
  at: Setting = {},
  level = model.level,
): SimultaneousLevelDifference[] {
  if (model.exactFit) throw new RangeError("tukeyKramerOfModel: the fit must leave residuals; received an exact fit");
  const differences = adjustedDifferences(model, factor, at, level);
  if (differences.length === 0) {
    throw new RangeError(`tukeyKramerOfModel: "${factor}" needs at least 2 levels; received 1`);
  }
  const levels = new Set(differences.flatMap(({ first, second }) => [first, second])).size;
  const df = model.residual.degreesOfFreedom;
  const critical = studentizedRangeQuantile(level, levels, df) / Math.SQRT2;
  return differences.map(({ first, second, difference: { estimate, standardError, t } }) => {
    const q = Math.SQRT2 * Math.abs(t);
    return {
      first,
      second,
      difference: estimate,
      lower: estimate - critical * standardError,
      upper: estimate + critical * standardError,
      standardError,
      df,
      q,
      p: studentizedRangeUpperTail(q, levels, df),
    };
  });
}
