import { addOuter, type Matrix, zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import type { AlikeRows } from "./alike-rows.ts";
import type { IntervalSample } from "./interval-sample.ts";

/** Log likelihood with its first and second derivatives. */
export interface LikelihoodPoint {
  value: number;
  gradient: Float64Array;
  /** minus the second derivatives; never negative definite, as the likelihood is concave here */
  information: Matrix;
}

/** A sample ready to be evaluated at many parameters. */
export interface WeibullSample {
  /** group of each row, and the values of the fixed columns in each group */
  groupOf: Int32Array;
  designRows: Float64Array[];
  /** log of the lower end, or of the upper one where the lower is 0 and adds nothing */
  logBase: Float64Array;
  /** log of upper over lower: 0 for an exact time, Infinity while waiting, and where the lower end is 0 */
  logWidth: Float64Array;
  /** 1 where the lower end is above 0 */
  hasLower: Uint8Array;
}

/**
 * Readies a sample; rows alike in every term share their sums over the columns.
 * @internal
 */
export function weibullSample(
  sample: IntervalSample,
  columns: ReadonlyArray<Float64Array>,
  { groupOf, first }: AlikeRows,
): WeibullSample {
  const { lower, upper } = sample;
  return {
    groupOf,
    designRows: Array.from(first, (i) => Float64Array.from(columns, (column) => column[i]!)),
    logBase: Float64Array.from(lower, (from, i) => Math.log(from > 0 ? from : upper[i]!)),
    logWidth: Float64Array.from(lower, (from, i) => (from > 0 ? Math.log1p((upper[i]! - from) / from) : Infinity)),
    hasLower: Uint8Array.from(lower, (from) => (from > 0 ? 1 : 0)),
  };
}

/**
 * Weibull log likelihood in parameters that make it concave: with y the log of a time, slope * y - x'location follows the
 * smallest-extreme-value law. Costs time in proportion to the rows, and to the groups of alike rows times columns squared.
 * @param parameters location along each column, then the slope (1 / scale)
 * @param slopeFree false holds the slope where it is (exponential times)
 * @returns undefined where the slope is not above 0 or the likelihood is 0 to working accuracy
 * @source Burridge 1981, Journal of the Royal Statistical Society B 43(1):41-45 (concavity); Kalbfleisch and Prentice
 *   2002, The Statistical Analysis of Failure Time Data, chapter 3 (from memory)
 * @internal
 */
export function weibullLikelihood(
  sample: WeibullSample,
  parameters: Float64Array,
  slopeFree: boolean,
): LikelihoodPoint | undefined {
  const { groupOf, designRows, logBase, logWidth, hasLower } = sample;
  const size = parameters.length - 1;
  const slope = parameters[size]!;
  if (!(slope > 0)) return undefined;
  const shifts = Float64Array.from(designRows, (row) => row.reduce((sum, x, k) => sum + x * parameters[k]!, 0));
  // per group: what multiplies minus its design row, that row twice, and that row and the slope
  const pulls = new Float64Array(designRows.length);
  const weights = new Float64Array(designRows.length);
  const mixtures = new Float64Array(designRows.length);
  let [slopePull, slopeWeight] = [0, 0];
  // compensated: over many rows plain rounding would hide the last Newton steps' gain
  let [value, lost] = [0, 0];
  const add = (term: number): void => {
    const next = value + term;
    lost += Math.abs(value) >= Math.abs(term) ? value - next + term : term - next + value;
    value = next;
  };
  const logSlope = Math.log(slope);
  for (let i = 0; i < groupOf.length; i++) {
    const group = groupOf[i]!;
    const base = logBase[i]!;
    const width = logWidth[i]!;
    const z = slope * base - shifts[group]!;
    const hazard = Math.exp(z);
    if (width === 0) {
      add(z - hazard + logSlope - base);
      pulls[group]! += 1 - hazard;
      weights[group]! += hazard;
      mixtures[group]! += hazard * base;
      slopePull += (1 - hazard) * base + 1 / slope;
      slopeWeight += hazard * base * base + 1 / (slope * slope);
      continue;
    }
    const low = hasLower[i] === 1 ? hazard : 0;
    // cumulative hazard between the ends, formed without subtracting nearly equal numbers
    const gap = hasLower[i] === 1 ? hazard * Math.expm1(slope * width) : hazard;
    add(-low);
    if (!(gap < Number.POSITIVE_INFINITY)) {
      pulls[group]! -= low;
      weights[group]! += low;
      mixtures[group]! += low * base;
      slopePull -= low * base;
      slopeWeight += low * base * base;
      continue;
    }
    add(Math.log(-Math.expm1(-gap)));
    // odds that an event still waiting at the lower end passes the upper one too
    const odds = 1 / Math.expm1(gap);
    if (!(odds < Number.POSITIVE_INFINITY)) return undefined;
    const kept = gap * odds;
    const high = low + gap;
    const between = hasLower[i] === 1 ? width : 0;
    const along = (odds === 0 ? 0 : gap * kept * (1 + odds) - kept) + low;
    const mixed = odds === 0 ? 0 : high * odds * (gap * (1 + odds) - 1) * between;
    const across = odds === 0 ? 0 : high * odds * (high * (1 + odds) - 1) * between * between;
    pulls[group]! += kept - low;
    weights[group]! += along;
    mixtures[group]! += along * base + mixed;
    slopePull += (kept - low) * base + high * odds * between;
    slopeWeight += along * base * base + 2 * mixed * base + across;
  }
  if (!Number.isFinite(value)) return undefined;
  const sums = { pulls, weights, mixtures, slopePull, slopeWeight };
  return { value: value + lost, ...derivatives(designRows, size, slopeFree, sums) };
}

/** Sums over the rows of each group of alike rows, and over all rows for the slope. */
interface GroupSums {
  pulls: Float64Array;
  weights: Float64Array;
  mixtures: Float64Array;
  slopePull: number;
  slopeWeight: number;
}

/** First derivatives, and the second with their sign turned. */
function derivatives(
  designRows: ReadonlyArray<Float64Array>,
  size: number,
  slopeFree: boolean,
  { pulls, weights, mixtures, slopePull, slopeWeight }: GroupSums,
): { gradient: Float64Array; information: Matrix } {
  const free = slopeFree ? size + 1 : size;
  const gradient = new Float64Array(free);
  const information = zeroMatrix(free, free);
  const row = new Float64Array(free);
  if (slopeFree) {
    gradient[size] = slopePull;
    information[size]![size] = slopeWeight;
  }
  designRows.forEach((design, group) => {
    for (let k = 0; k < size; k++) {
      row[k] = -design[k]!;
      gradient[k]! += pulls[group]! * row[k]!;
    }
    addOuter(information, weights[group]!, row, row);
    if (!slopeFree) return;
    for (let k = 0; k < size; k++) {
      information[k]![size]! += mixtures[group]! * row[k]!;
      information[size]![k] = information[k]![size]!;
    }
  });
  return { gradient, information };
}
