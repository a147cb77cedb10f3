import type { Matrix } from "../mixed-models/dense-matrix.ts";
import { addOuter, zeroMatrix } from "../mixed-models/dense-matrix.ts";
import type { IntervalSample } from "./interval-sample.ts";

/** Log likelihood with its first and second derivatives. */
export interface LikelihoodPoint {
  value: number;
  gradient: Float64Array;
  /** minus the second derivatives; never negative definite, as the likelihood is concave here */
  information: Matrix;
}

/**
 * Weibull log likelihood in parameters that make it concave: with y the log of a time, slope * y - x'location follows the
 * smallest-extreme-value law.
 * @param columns fixed columns
 * @param parameters location along each column, then the slope (1 / scale)
 * @param slopeFree false holds the slope where it is (exponential times)
 * @returns undefined where the slope is not above 0 or the likelihood is 0 to working accuracy
 * @source Burridge 1981, Journal of the Royal Statistical Society B 43:41-45 (concavity); Kalbfleisch and Prentice 2002,
 *   The Statistical Analysis of Failure Time Data, chapter 3 (from memory)
 */
export function weibullLikelihood(
  sample: IntervalSample,
  columns: ReadonlyArray<Float64Array>,
  parameters: Float64Array,
  slopeFree: boolean,
): LikelihoodPoint | undefined {
  const size = columns.length;
  const slope = parameters[size]!;
  if (!(slope > 0)) return undefined;
  const free = slopeFree ? size + 1 : size;
  const gradient = new Float64Array(free);
  const information = zeroMatrix(free, free);
  const row = new Float64Array(free);
  const slopeRow = new Float64Array(free);
  if (slopeFree) slopeRow[size] = 1;
  let value = 0;
  for (let i = 0; i < sample.lower.length; i++) {
    const [lower, upper] = [sample.lower[i]!, sample.upper[i]!];
    let shift = 0;
    for (let k = 0; k < size; k++) {
      const x = columns[k]![i]!;
      shift += x * parameters[k]!;
      row[k] = -x;
    }
    // the row belongs to the lower end, or to the upper one when the lower is 0 and adds nothing
    const logBase = Math.log(lower > 0 ? lower : upper);
    if (slopeFree) row[size] = logBase;
    const z = slope * logBase - shift;
    const hazard = Math.exp(z);
    if (lower === upper) {
      value += z - hazard + Math.log(slope) - logBase;
      for (let k = 0; k < free; k++) gradient[k]! += (1 - hazard) * row[k]!;
      addOuter(information, hazard, row, row);
      if (slopeFree) {
        gradient[size]! += 1 / slope;
        information[size]![size]! += 1 / (slope * slope);
      }
      continue;
    }
    const low = lower > 0 ? hazard : 0;
    const logWidth = lower > 0 ? Math.log1p((upper - lower) / lower) : 0;
    // cumulative hazard between the ends, formed without subtracting nearly equal numbers
    const gap = lower > 0 ? hazard * Math.expm1(slope * logWidth) : hazard;
    value -= low;
    if (!(gap < Number.POSITIVE_INFINITY)) {
      for (let k = 0; k < free; k++) gradient[k]! -= low * row[k]!;
      addOuter(information, low, row, row);
      continue;
    }
    value += Math.log(-Math.expm1(-gap));
    // odds that an event still waiting at the lower end passes the upper one too
    const odds = 1 / Math.expm1(gap);
    if (!(odds < Number.POSITIVE_INFINITY)) return undefined;
    const kept = gap * odds;
    const high = low + gap;
    const along = odds === 0 ? 0 : gap * kept * (1 + odds) - kept;
    const mixed = odds === 0 ? 0 : high * odds * (gap * (1 + odds) - 1);
    const across = odds === 0 ? 0 : high * odds * (high * (1 + odds) - 1);
    for (let k = 0; k < free; k++) gradient[k]! += (kept - low) * row[k]!;
    addOuter(information, along + low, row, row);
    if (!slopeFree) continue;
    gradient[size]! += high * odds * logWidth;
    addOuter(information, mixed * logWidth, row, slopeRow);
    addOuter(information, mixed * logWidth, slopeRow, row);
    information[size]![size]! += across * logWidth * logWidth;
  }
  return Number.isFinite(value) ? { value, gradient, information } : undefined;
}
