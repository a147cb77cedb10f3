import { fUpperTail } from "../distributions/f.ts";
import type { CurveData } from "./curve-data.ts";
import { replicateCells } from "./replicate-cells.ts";

/** Whether the curve misses the means of the replicated doses by more than the replicates' own scatter. */
export type LackOfFit =
  | {
      kind: "tested";
      /** what counts as replicates: "trays of one dose" or "trays of one dose in one block" */
      replicates: "same dose" | "same dose and block";
      lackSumOfSquares: number;
      lackDegreesOfFreedom: number;
      pureSumOfSquares: number;
      pureDegreesOfFreedom: number;
      f: number;
      p: number;
    }
  | { kind: "not-tested"; reason: string };

/**
 * F test of a fitted curve against pure error. With blocks, a dose effect that differs between blocks counts as lack of fit too.
 * @param residualSumOfSquares of the curve, with `parameterCount` parameters, block offsets included
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 4.4.4.6
 * @example lackOfFit(curveData("fitCurve", { doses: [0, 0, 1, 1, 2, 2], responses: [1, 2, 6, 7, 7, 9] }), 85 / 12, 2).f // 4.0833...
 */
export function lackOfFit(data: CurveData, residualSumOfSquares: number, parameterCount: number): LackOfFit {
  const cells = replicateCells(data);
  const lackDegreesOfFreedom = cells.members.length - parameterCount;
  const pureDegreesOfFreedom = cells.withinDegreesOfFreedom;
  const replicates = data.blockNames.length > 0 ? "same dose and block" : "same dose";
  if (pureDegreesOfFreedom < 1) {
    return { kind: "not-tested", reason: `no two values share the ${replicates}, so pure error is unknown` };
  }
  if (lackDegreesOfFreedom < 1) {
    return { kind: "not-tested", reason: "the curve has as many parameters as there are groups of replicates" };
  }
  if (cells.withinSumOfSquares === 0) {
    return { kind: "not-tested", reason: "the replicates do not differ at all, so pure error is 0" };
  }
  const lackSumOfSquares = Math.max(residualSumOfSquares - cells.withinSumOfSquares, 0);
  const f = lackSumOfSquares / lackDegreesOfFreedom / (cells.withinSumOfSquares / pureDegreesOfFreedom);
  return {
    kind: "tested",
    replicates,
    lackSumOfSquares,
    lackDegreesOfFreedom,
    pureSumOfSquares: cells.withinSumOfSquares,
    pureDegreesOfFreedom,
    f,
    p: fUpperTail(f, lackDegreesOfFreedom, pureDegreesOfFreedom),
  };
}
