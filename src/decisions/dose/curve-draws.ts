import { chiSquareDraw } from "../../statistics/random/chi-square-draw.ts";
import type { SeededRandom } from "../../statistics/random/seeded-random.ts";
import { systematicCounts } from "../../statistics/random/systematic-counts.ts";
import { shapeRow, type YieldComponent, type YieldMixture } from "./yield-mixture.ts";

/** Curves of grams per good tray drawn from the mixture. */
export interface CurveDraws {
  count: number;
  /** grams per grid dose and draw: draw i at grid place j is `grams[j * count + i]` */
  grams: Float64Array;
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

/** Writes curves of one component after another. */
export interface CurveWriter {
  /** takes the component that the next curves are of */
  take(component: YieldComponent): void;
  /**
   * Writes the curve for given deviates to `into` from place `from` on: all 0 gives the component's mean, and deviates with
   * variance sigma^2 a draw.
   * @param deviates one more than the columns of the basis, the shape's own last
   */
  write(deviates: Float64Array, into: Float64Array, from: number): void;
}

/** Sets up the writing of a mixture's curves; the room to work in is shared by all of them. */
export function curveWriter({ basis, size, cells }: YieldMixture): CurveWriter {
  const row = new Float64Array(size);
  const coefficients = new Float64Array(size);
  let taken: YieldComponent | undefined;
  return {
    take(component) {
      taken = component;
      shapeRow(component.block, component.cross, row);
    },
    write(deviates, into, from) {
      const { block, shape, diagonal, solved } = taken!;
      const { factor, amplitude } = block;
      const own = (solved + deviates[size]!) / diagonal;
      for (let i = size - 1; i >= 0; i--) {
        let sum = block.solved[i]! + deviates[i]! - row[i]! * own;
        for (let k = i + 1; k < size; k++) sum -= factor[k * size + i]! * coefficients[k]!;
        coefficients[i] = sum / factor[i * size + i]!;
      }
      // departures share the shape's amplitude, the mean has none
      for (let k = 0; k < size - 1; k++) coefficients[k]! *= amplitude;
      const { values } = shape;
      for (let j = 0; j < values.length; j++) {
        let sum = cells.centre + own * amplitude * values[j]!;
        for (let k = 0; k < size; k++) sum += coefficients[k]! * basis[j * size + k]!;
        into[from + j] = sum;
      }
    },
  };
}

/** Depth of the deepest valley: how far the curve lies below the lower of the peaks either side. */
export function deepestValley(values: Float64Array, from: number, points: number): number {
  let top = from;
  for (let at = from + 1; at < from + points; at++) if (values[at]! > values[top]!) top = at;
  let deepest = 0;
  // on either side of the top the lower of the two peaks is the one further out
  let peak = values[from]!;
  for (let at = from; at < top; at++) {
    if (values[at]! > peak) peak = values[at]!;
    else if (peak - values[at]! > deepest) deepest = peak - values[at]!;
  }
  peak = values[from + points - 1]!;
  for (let at = from + points - 1; at > top; at--) {
    if (values[at]! > peak) peak = values[at]!;
    else if (peak - values[at]! > deepest) deepest = peak - values[at]!;
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
  const writer = curveWriter(mixture);
  let made = 0;
  components.forEach((component, at) => {
    if (counts[at]! > 0) writer.take(component);
    for (let n = counts[at]!; n > 0; n--) {
      const variance = component.rss / chiSquareDraw(cells.degreesOfFreedom, random);
      const sigma = Math.sqrt(variance);
      for (let k = 0; k <= size; k++) deviates[k] = sigma * random.normal();
      const from = made * points;
      writer.write(deviates, all, from);
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

/** The draws to keep, turned so that the draws of one dose lie together. */
function kept(
  all: Float64Array,
  points: number,
  variances: Float64Array,
  ratios: Float64Array,
  keep: Uint8Array,
  oneTop: number,
  upDownUp: boolean,
): CurveDraws {
  const count = keep.reduce((sum, one) => sum + one, 0);
  const grams = new Float64Array(count * points);
  let variance = 0;
  let ratio = 0;
  let into = 0;
  for (let i = 0; i < keep.length; i++) {
    if (keep[i] === 0) continue;
    for (let j = 0; j < points; j++) grams[j * count + into] = all[i * points + j]!;
    variance += variances[i]!;
    ratio += ratios[i]!;
    into++;
  }
  return { count, grams, trayVariance: variance / count, cellRatio: ratio / count, oneTop, upDownUp };
}
