import { fUpperTail } from "../distributions/f.ts";
import { toNumber } from "../linear-algebra/double-double.ts";
import type { LinearModel } from "../linear-models/linear-model.ts";
import { requireSameLength } from "../require-numbers.ts";
import { groupSums } from "./group-sums.ts";
import type { VarianceLine } from "./one-way-anova.ts";

/** Scatter between rows treated alike. */
export interface PureError extends VarianceLine {
  /** how many different treatments there are */
  settings: number;
}

/** Whether a model misses the means of its replicates by more than the replicates' own scatter. */
export type ModelLackOfFit =
  | {
      kind: "tested";
      lack: VarianceLine;
      pureError: VarianceLine;
      f: number;
      numeratorDf: number;
      denominatorDf: number;
      p: number;
    }
  | { kind: "not-tested"; reason: string };

/**
 * Sum of squares between rows that were treated alike.
 * @param response one value per row
 * @param settings what each row was given, in any form in which equal means treated alike: "12 mL, cook B"
 * @returns mean square 0 when no row is replicated
 * @throws RangeError if lengths differ or a value is not finite
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 4.4.4.6
 * @example pureError([1, 3, 5], ["a", "a", "b"]).sumOfSquares // 2
 */
export function pureError(response: ReadonlyArray<number>, settings: ReadonlyArray<string | number>): PureError {
  requireSameLength("pureError", "response", response, "settings", settings);
  const members = new Map<string | number, number[]>();
  response.forEach((value, i) => {
    if (!Number.isFinite(value))
      throw new RangeError(`pureError: response must be finite; received ${value} in row ${i + 1}`);
    const own = members.get(settings[i]!);
    if (own === undefined) members.set(settings[i]!, [value]);
    else own.push(value);
  });
  let sumOfSquares = 0;
  for (const own of members.values()) sumOfSquares += toNumber(groupSums(own).sumOfSquares);
  const degreesOfFreedom = response.length - members.size;
  return {
    settings: members.size,
    degreesOfFreedom,
    sumOfSquares,
    meanSquare: degreesOfFreedom === 0 ? 0 : sumOfSquares / degreesOfFreedom,
  };
}

/**
 * F test of a linear model against pure error: rows with the same values in every term are the replicates.
 * @param model without weights
 * @returns the test, or why there is none
 * @throws RangeError if the model is weighted
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 4.4.4.6
 * @example modelLackOfFit(linearModel({ response: [1, 2, 6, 7, 7, 9], terms: [{ kind: "number", name: "dose", values: [0, 0, 5, 5, 10, 10] }] })).f // 4.0833...
 */
export function modelLackOfFit(model: LinearModel): ModelLackOfFit {
  const { response, values, weights } = model.working;
  if (weights !== undefined) throw new RangeError("modelLackOfFit: the model must not be weighted");
  const columns = [...values.values()];
  const settings = response.map((_, i) => JSON.stringify(columns.map((column) => column[i])));
  const pure = pureError(response, settings);
  if (pure.degreesOfFreedom < 1)
    return { kind: "not-tested", reason: "no two rows were treated alike, so pure error is unknown" };
  const numeratorDf = model.residual.degreesOfFreedom - pure.degreesOfFreedom;
  if (numeratorDf < 1) {
    return { kind: "not-tested", reason: "the model has as many coefficients as there are different treatments" };
  }
  if (pure.sumOfSquares === 0)
    return { kind: "not-tested", reason: "rows treated alike do not differ at all, so pure error is 0" };
  const lackSum = Math.max(model.residual.sumOfSquares - pure.sumOfSquares, 0);
  const lack = { degreesOfFreedom: numeratorDf, sumOfSquares: lackSum, meanSquare: lackSum / numeratorDf };
  const f = lack.meanSquare / pure.meanSquare;
  const { settings: _, ...line } = pure;
  return {
    kind: "tested",
    lack,
    pureError: line,
    f,
    numeratorDf,
    denominatorDf: pure.degreesOfFreedom,
    p: fUpperTail(f, numeratorDf, pure.degreesOfFreedom),
  };
}
