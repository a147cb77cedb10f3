import { type CurveData, offsetCount } from "./curve-data.ts";
import type { CurveForm } from "./curve-form.ts";
import { curveProblem } from "./curve-problem.ts";
import { dosesBesideBlocks } from "./doses-beside-blocks.ts";
import { dependenceLimit, hasValueAt, type LeastSquaresSolution, levenbergMarquardt } from "./levenberg-marquardt.ts";
import { replicateCells } from "./replicate-cells.ts";

/** Least-squares estimates of a form, before anything is made of them. */
export interface CurveEstimate {
  kind: "estimated";
  /** the form's parameters, then the block offsets (each but the last) */
  parameters: Float64Array;
  residualSumOfSquares: number;
  /** covariance of the form's parameters apart from the error variance, by rows */
  inverseCrossProduct: number[][];
  iterations: number;
  /** relative offset at the end: 0 at an exact minimum */
  offset: number;
  /** true when the search from the given starting values failed and the form's own were used */
  restarted: boolean;
}

/** Why a form could not be fitted, in a plain sentence without a full stop. */
export interface NoEstimate {
  kind: "none";
  reason: string;
}

/**
 * Finds the least-squares parameters of a form.
 * @param starts starting values to search from; when they lead nowhere the form's own are tried
 * @example estimateCurve(straightLine, curveData("fitCurve", { doses: [0, 1, 2], responses: [1, 3, 5] })).parameters // [1, 2]
 */
export function estimateCurve(
  form: CurveForm,
  data: CurveData,
  starts?: ReadonlyArray<ReadonlyArray<number>>,
): CurveEstimate | NoEstimate {
  const refused = tooThin(form, data);
  if (refused) return { kind: "none", reason: refused };
  const given = searchFrom(form, data, starts);
  if (!starts || given.kind === "estimated") return given;
  const own = searchFrom(form, data);
  return own.kind === "estimated" ? { ...own, restarted: true } : given;
}

/** Searches from each start and keeps the best minimum; many blocks are taken out first, which changes nothing but the work. */
function searchFrom(
  form: CurveForm,
  data: CurveData,
  starts?: ReadonlyArray<ReadonlyArray<number>>,
): CurveEstimate | NoEstimate {
  // the fit to the means of replicates is the fit to the values, so the wide search may use them
  const cells = replicateCells(data);
  const beside = dosesBesideBlocks(cells.means);
  if (beside === undefined) return searchOn(form, data, cells.means, starts);
  const { correlated } = beside.data;
  const withScatter: CurveData = {
    ...beside.data,
    correlated: {
      ...correlated!,
      sumOfSquares: correlated!.sumOfSquares + cells.withinSumOfSquares,
      degreesOfFreedom: correlated!.degreesOfFreedom + cells.withinDegreesOfFreedom,
    },
  };
  const found = searchOn(form, withScatter, withScatter, starts);
  if (found.kind === "none") return found;
  const fitted = withScatter.doses.map((dose) => form.value(dose, found.parameters));
  return { ...found, parameters: Float64Array.from([...found.parameters, ...beside.offsetsAt(fitted)]) };
}

/** Searches on the values from places found on their means. */
function searchOn(
  form: CurveForm,
  data: CurveData,
  means: CurveData,
  starts?: ReadonlyArray<ReadonlyArray<number>>,
): CurveEstimate | NoEstimate {
  const problem = curveProblem(form, data);
  const noOffsets = new Array<number>(offsetCount(data)).fill(0);
  const direct = starts ? undefined : form.solve?.(means);
  const begin = direct
    ? [[...direct.parameters, ...direct.offsets]]
    : (starts ?? form.starts(means)).map((start) => [...start, ...noOffsets]);
  let best: LeastSquaresSolution | undefined;
  for (const start of begin) {
    // a corner has no derivative to follow, so a direct solution there is only measured, not moved
    const stay = direct !== undefined && form.cornered === true;
    if (!hasValueAt(problem, start)) {
      if (starts) return { kind: "none", reason: `the curve has no value at the starting values ${start.join(", ")}` };
      continue;
    }
    const found = levenbergMarquardt(problem, start, !stay, stay ? 0 : 500);
    if (!best || isBetter(found, best)) best = found;
  }
  if (!best) return { kind: "none", reason: "no starting values could be found: the data do not have this shape" };
  const stopped = !best.converged && !(direct && form.cornered);
  const objection = form.objection?.(best.parameters, data, stopped);
  if (objection) return { kind: "none", reason: objection };
  if (best.independence <= dependenceLimit) {
    return {
      kind: "none",
      reason: `the data cannot tell ${form.parameters.join(", ")}${noOffsets.length > 0 ? " and the block offsets" : ""} apart`,
    };
  }
  if (stopped) {
    return {
      kind: "none",
      reason: `the search stopped after ${best.iterations} steps without reaching a minimum: these data do not fix all of ${form.parameters.join(", ")}`,
    };
  }
  return {
    kind: "estimated",
    parameters: best.parameters,
    residualSumOfSquares: best.residualSumOfSquares,
    inverseCrossProduct: best.inverseCrossProduct,
    iterations: best.iterations,
    offset: best.offset,
    restarted: false,
  };
}

/** The smaller sum of squares wins; a minimum also wins over a search that ran off without gaining anything by it. */
function isBetter(found: LeastSquaresSolution, best: LeastSquaresSolution): boolean {
  const [ours, theirs] = [found.residualSumOfSquares, best.residualSumOfSquares];
  if (found.converged === best.converged) return ours < theirs;
  return found.converged ? ours <= theirs * (1 + 1e-6) : ours * (1 + 1e-6) < theirs;
}

/** Data that cannot fix the form whatever the search does. */
function tooThin(form: CurveForm, data: CurveData): string | undefined {
  const different = data.differentDoses.length;
  if (different < form.dosesNeeded) {
    return `the form "${form.label}" needs at least ${form.dosesNeeded} different doses; there ${different === 1 ? "is 1" : `are ${different}`}`;
  }
  const count = form.parameters.length + offsetCount(data);
  if (data.doses.length <= count) {
    return `${data.doses.length} values for ${count} parameters leave nothing to measure the scatter with`;
  }
  const first = data.responses[0]!;
  if (!form.linear && data.responses.every((value) => value === first)) {
    const bends = form.parameters.slice(1).join(" and ");
    return `every response is the same: flat data cannot fix ${bends || "the parameters"}`;
  }
  return undefined;
}
