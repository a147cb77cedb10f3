import { chiSquareDraw } from "../../statistics/random/chi-square-draw.ts";
import type { SeededRandom } from "../../statistics/random/seeded-random.ts";
import { systematicCounts } from "../../statistics/random/systematic-counts.ts";
import type { YieldComponent, YieldMixture } from "./yield-mixture.ts";

/** Curves of grams per good tray drawn from the mixture. */
export interface CurveDraws {
  count: number;
  /** grams per draw and grid dose: draw i at grid place j is `grams[i * points + j]` */
  grams: Float64Array;
  points: number;
  /** variance of trays within a cell, and its ratio to that of cook by dose, averaged over the draws kept */
  trayVariance: number;
  cellRatio: number;
  /** share of draws without a valley */
  oneTop: number;
  /** so few had one top that all were kept */
  upDownUp: boolean;
}

/** A valley counts when it is deeper than this many tray standard deviations. */
const deepValley = 0.25;
/** Below this share of draws with one top the trays themselves go up, down and up. */
const fewOneTop = 0.3;

/**
 * The curve of one component for given deviates, written to `into` from place `from` on: all 0 gives the component's mean,
 * and deviates with variance sigma^2 a draw.
 * @param deviates one more than the columns of the basis, the shape's own last
 */
export function componentCurve(
  { basis, size, cells }: YieldMixture,
  { block, shape, row, diagonal, solved }: YieldComponent,
  deviates: Float64Array,
  into: Float64Array,
  from: number,
): void {
  const { factor, amplitude } = block;
  const own = (solved + deviates[size]!) / diagonal;
  const coefficients = new Float64Array(size);
  for (let i = size - 1; i >= 0; i--) {
    let sum = block.solved[i]! + deviates[i]! - row[i]! * own;
    for (let k = i + 1; k < size; k++) sum -= factor[k * size + i]! * coefficients[k]!;
    coefficients[i] = sum / factor[i * size + i]!;
  }
  // departures share the shape's amplitude, the mean has none
  for (let k = 0; k < size - 1; k++) coefficients[k]! *= amplitude;
  for (let j = 0; j < shape.values.length; j++) {
    let sum = cells.centre + own * amplitude * shape.values[j]!;
    for (let k = 0; k < size; k++) sum += coefficients[k]! * basis[j * size + k]!;
    into[from + j] = sum;
  }
}

/** Depth of the deepest valley: how far the curve lies below the lower of the peaks either side. */
export function deepestValley(values: Float64Array, from: number, points: number): number {
  let deepest = 0;
  // highest value to the right of each place is found by going down from the end once
  const after = new Float64Array(points);
  let top = Number.NEGATIVE_INFINITY;
  for (let j = points - 1; j >= 0; j--) {
    after[j] = top;
    top = Math.max(top, values[from + j]!);
  }
  let before = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < points; j++) {
    const value = values[from + j]!;
    deepest = Math.max(deepest, Math.min(before, after[j]!) - value);
    before = Math.max(before, value);
  }
  return deepest;
}

/**
 * Draws curves: components by weight, the tray variance rss / chi-square(N - 1), the curve around its mean; then leaves out
 * those that go up, down and up, unless hardly any would be left.
 * @param draws how many before the leaving out
 */
export function curveDraws(mixture: YieldMixture, draws: number, random: SeededRandom): CurveDraws {
  const { components, cells, size, basis } = mixture;
  const points = basis.length / size;
  const counts = systematicCounts(
    Float64Array.from(components, ({ weight }) => weight),
    draws,
    random,
  );
  const all = new Float64Array(draws * points);
  const variances = new Float64Array(draws);
  const ratios = new Float64Array(draws);
  const smooth = new Uint8Array(draws);
  const deviates = new Float64Array(size + 1);
  let made = 0;
  components.forEach((component, at) => {
    for (let n = counts[at]!; n > 0; n--) {
      const variance = component.rss / chiSquareDraw(cells.records - 1, random);
      const sigma = Math.sqrt(variance);
      for (let k = 0; k <= size; k++) deviates[k] = sigma * random.normal();
      const from = made * points;
      componentCurve(mixture, component, deviates, all, from);
      variances[made] = variance;
      ratios[made] = component.block.cellRatio;
      smooth[made] = deepestValley(all, from, points) <= deepValley * sigma ? 1 : 0;
      made++;
    }
  });
  const withOneTop = smooth.reduce((sum, one) => sum + one, 0);
  const upDownUp = withOneTop < fewOneTop * draws;
  return kept(all, points, variances, ratios, upDownUp ? smooth.fill(1) : smooth, withOneTop / draws, upDownUp);
}

function kept(
  all: Float64Array,
  points: number,
  variances: Float64Array,
  ratios: Float64Array,
  keep: Uint8Array,
  oneTop: number,
  upDownUp: boolean,
): CurveDraws {
  let count = 0;
  let varianceSum = 0;
  let ratioSum = 0;
  for (let i = 0; i < keep.length; i++) {
    if (keep[i] === 0) continue;
    all.copyWithin(count * points, i * points, (i + 1) * points);
    varianceSum += variances[i]!;
    ratioSum += ratios[i]!;
    count++;
  }
  return {
    count,
    grams: all.subarray(0, count * points),
    points,
    trayVariance: varianceSum / count,
    cellRatio: ratioSum / count,
    oneTop,
    upDownUp,
  };
}
