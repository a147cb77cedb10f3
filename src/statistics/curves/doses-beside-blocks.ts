import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { orthogonalFactor } from "../linear-algebra/orthogonal-factor.ts";
import { solveUpper, solveUpperTransposed } from "../linear-algebra/triangle.ts";
import { type CurveData, offsetCount } from "./curve-data.ts";

/**
 * What data with blocks say of the doses: one mean per dose, adjusted for the blocks. A curve with an offset for each block
 * fitted to all values is the same as the curve fitted to these means by generalised least squares, with far fewer numbers.
 */
export interface DosesBesideBlocks {
  /** one value per different dose, ascending, correlated as `mixing` says */
  data: CurveData;
  /** writes the adjusted means of other responses at the same places into `into` */
  meansOf(responses: Float64Array, into: Float64Array): void;
  /** offsets of the blocks, each but the last, beside a curve with these values at the doses */
  offsetsAt(fitted: ArrayLike<number>): number[];
}

/** With fewer offsets than this the fit to all values costs little. */
const fewestOffsets = 8;
/** Doses kept apart less well than this within blocks are left to the fit to all values. */
const leastIndependence = 1e-3;

interface Layout {
  doseOf: Int32Array;
  /** summed weight of each block */
  weightOf: Float64Array;
  /** share of each dose in a block's weight, by blocks */
  shares: Float64Array[];
  /** sum of the reciprocals of the blocks' weights */
  reciprocals: number;
}

function layoutOf(data: CurveData): Layout {
  const places = new Map(data.differentDoses.map((dose, place) => [dose, place]));
  const doseOf = Int32Array.from(data.doses, (dose) => places.get(dose)!);
  const weightOf = new Float64Array(data.blockNames.length);
  const shares = data.blockNames.map(() => new Float64Array(places.size));
  data.rootWeights.forEach((root, i) => {
    const block = data.blockOf[i]!;
    weightOf[block]! += root * root;
    shares[block]![doseOf[i]!]! += root * root;
  });
  shares.forEach((row, block) => {
    for (let dose = 0; dose < row.length; dose++) row[dose]! /= weightOf[block]!;
  });
  return { doseOf, weightOf, shares, reciprocals: weightOf.reduce((sum, weight) => sum + 1 / weight, 0) };
}

/** Indicators of the doses with the block offsets taken out: a row per value, and one for the offsets' summing to 0. */
function doseColumns(data: CurveData, { doseOf, shares, reciprocals }: Layout): Float64Array[] {
  const rows = data.doses.length;
  return data.differentDoses.map((_, dose) => {
    const column = new Float64Array(rows + 1);
    for (let i = 0; i < rows; i++) {
      column[i] = data.rootWeights[i]! * ((doseOf[i] === dose ? 1 : 0) - shares[data.blockOf[i]!]![dose]!);
    }
    column[rows] = shares.reduce((sum, row) => sum + row[dose]!, 0) / Math.sqrt(reciprocals);
    return column;
  });
}

/** Least squares for the doses beside the blocks: the triangular factor, or nothing where doses hardly differ within blocks. */
function factorOf(data: CurveData, { doseOf }: Layout, columns: Float64Array[]): number[][] | undefined {
  const count = columns.length;
  const weights = new Float64Array(count);
  data.rootWeights.forEach((root, i) => {
    weights[doseOf[i]!]! += root * root;
  });
  const { upper } = orthogonalFactor(
    ordinary,
    columns.map((column) => column.slice()),
    0,
  );
  const separated =
    upper.length === count &&
    weights.every((weight, dose) => Math.abs(upper[dose]![dose]!) > leastIndependence * Math.sqrt(weight));
  return separated ? upper : undefined;
}

/** The adjusted means are sums of the responses: the coefficients, one row for each dose. */
function coefficientsOf(
  data: CurveData,
  { weightOf, reciprocals }: Layout,
  columns: Float64Array[],
  upper: number[][],
): Float64Array[] {
  const [rows, count] = [data.doses.length, columns.length];
  const coefficients = columns.map(() => new Float64Array(rows));
  const v = new Float64Array(count);
  for (let i = 0; i < rows; i++) {
    const root = data.rootWeights[i]!;
    const shareOfMean = root / (Math.sqrt(reciprocals) * weightOf[data.blockOf[i]!]!);
    for (let dose = 0; dose < count; dose++)
      v[dose] = root * (columns[dose]![i]! + columns[dose]![rows]! * shareOfMean);
    const solved = solveUpper(ordinary, upper, solveUpperTransposed(ordinary, upper, v));
    for (let dose = 0; dose < count; dose++) coefficients[dose]![i] = solved[dose]!;
  }
  return coefficients;
}

/** Weighted mean of the values of each block. */
function blockMeans(data: CurveData, { weightOf }: Layout, values: Float64Array): Float64Array {
  const means = new Float64Array(weightOf.length);
  for (let i = 0; i < values.length; i++) means[data.blockOf[i]!]! += data.rootWeights[i]! ** 2 * values[i]!;
  for (let block = 0; block < means.length; block++) means[block]! /= weightOf[block]!;
  return means;
}

/** Adjusted means of the data's own responses, taken twice: the second time from what is left, which adds the last digits. */
function ownMeans(data: CurveData, { doseOf }: Layout, meansOf: DosesBesideBlocks["meansOf"]): Float64Array {
  const means = new Float64Array(data.differentDoses.length);
  meansOf(data.responses, means);
  const correction = new Float64Array(means.length);
  meansOf(
    Float64Array.from(data.responses, (response, i) => response - means[doseOf[i]!]!),
    correction,
  );
  return means.map((mean, dose) => mean + correction[dose]!);
}

/**
 * Takes the block offsets out of a curve's data.
 * @returns undefined where it would save nothing (few blocks, or more doses than blocks), or where doses and blocks cannot
 *   be separated
 * @source partitioned least squares: Frisch and Waugh 1933, Econometrica 1(4):387-401; generalised least squares on
 *   adjusted means: Searle 1987, Linear Models for Unbalanced Data, section 9.3 (from memory)
 * @internal
 */
export function dosesBesideBlocks(data: CurveData): DosesBesideBlocks | undefined {
  const offsets = offsetCount(data);
  const count = data.differentDoses.length;
  if (offsets < fewestOffsets || count > offsets) return undefined;
  const layout = layoutOf(data);
  const { doseOf, weightOf, shares, reciprocals } = layout;
  const columns = doseColumns(data, layout);
  const upper = factorOf(data, layout, columns);
  if (upper === undefined) return undefined;
  const coefficients = coefficientsOf(data, layout, columns, upper);
  const meansOf = (responses: Float64Array, into: Float64Array): void => {
    for (let dose = 0; dose < count; dose++) {
      const row = coefficients[dose]!;
      let sum = 0;
      for (let i = 0; i < row.length; i++) sum += row[i]! * responses[i]!;
      into[dose] = sum;
    }
  };
  const means = ownMeans(data, layout, meansOf);
  const left = Float64Array.from(data.responses, (response, i) => response - means[doseOf[i]!]!);
  const leftOf = blockMeans(data, layout, left);
  let sumOfSquares = leftOf.reduce((sum, mean) => sum + mean, 0) ** 2 / reciprocals;
  left.forEach((value, i) => {
    sumOfSquares += (data.rootWeights[i]! * (value - leftOf[data.blockOf[i]!]!)) ** 2;
  });
  return {
    data: {
      doses: Float64Array.from(data.differentDoses),
      responses: means,
      rootWeights: new Float64Array(count).fill(1),
      blockOf: new Int32Array(0),
      blockNames: [],
      differentDoses: data.differentDoses,
      correlated: { mixing: upper, sumOfSquares, degreesOfFreedom: data.doses.length - offsets - count },
    },
    meansOf,
    offsetsAt: (fitted) => {
      const own = leftOf.map((mean, block) =>
        shares[block]!.reduce((sum, share, dose) => sum + share * (means[dose]! - fitted[dose]!), mean),
      );
      const multiplier = own.reduce((sum, mean) => sum + mean, 0) / reciprocals;
      return Array.from({ length: offsets }, (_, block) => own[block]! - multiplier / weightOf[block]!);
    },
  };
}
