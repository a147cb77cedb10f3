import { normalCdf, normalDensity } from "../distributions/normal.ts";
import { requireDegreesOfFreedom } from "../distributions/require-degrees-of-freedom.ts";
import { requireFinite, requireSameLength } from "../require-numbers.ts";

/** Steps of the common scale; of the values a share of the smallest spread, as long as these are not too many. */
const scaleSteps = 40;
const valueStep = 0.4;
const mostValueSteps = 400;
/** Standard deviations beyond which a normal variable is left out, and the log density of the scale. */
const farthest = 6;
const leastLogDensity = 16;

/**
 * Chance that each of several unknown means is the highest, each known as centre + spread x Z x S: Z independent normal, S a
 * scale common to all with (degrees of freedom) / S² chi-square, so that each alone is a t variable.
 * @param centres best guesses; `spreads` their standard deviations, 0 or more
 * @param degreesOfFreedom of the common scale, above 0
 * @returns shares that add up to 1; absolute error below 2e-5, or 1e-3 where one spread is a hundredth of another or less
 * @throws RangeError if columns differ in length, are empty or not finite, a spread is below 0, or the degrees of freedom are not above 0
 * @source numerical integration over the scale and the highest value; the t scale as in Box and Tiao 1973, Bayesian Inference
 *   in Statistical Analysis, section 2.4 (from memory)
 * @example chanceOfBest([0, 0], [1, 1], 5) // [0.5, 0.5]
 */
export function chanceOfBest(
  centres: ReadonlyArray<number>,
  spreads: ReadonlyArray<number>,
  degreesOfFreedom: number,
): number[] {
  const routine = "chanceOfBest";
  requireSameLength(routine, "centres", centres, "spreads", spreads);
  requireFinite(routine, "centres", centres);
  requireFinite(routine, "spreads", spreads);
  requireDegreesOfFreedom(routine, "degreesOfFreedom", degreesOfFreedom);
  if (centres.length === 0 || spreads.some((spread) => spread < 0)) {
    throw new RangeError(`${routine}: at least one centre and no spread below 0; received ${spreads.join(", ")}`);
  }
  const widest = Math.max(...spreads);
  const range = Math.max(...centres) - Math.min(...centres);
  if (!(widest > 1e-12 * range)) return sharesOfHighest(centres);
  const chances = centres.map(() => 0);
  for (const { scale, weight } of scalesOf(degreesOfFreedom)) {
    const ends = (at: ReadonlyArray<number>): [low: number, high: number] => [
      Math.max(...centres.map((centre, i) => centre - farthest * at[i]!)),
      Math.max(...centres.map((centre, i) => centre + farthest * at[i]!)),
    ];
    const at = spreads.map((spread) => spread * scale);
    const [from, to] = ends(at);
    // a mean known far better than the others is blurred to what the steps can see
    const seen = at.map((spread) => Math.max(spread, (to - from) / (valueStep * mostValueSteps)));
    const [low, high] = ends(seen);
    addHighest(chances, centres, seen, low, high, weight);
  }
  const total = chances.reduce((sum, chance) => sum + chance, 0);
  return chances.map((chance) => chance / total);
}

/** With no spread at all the highest is known; ties share it. */
function sharesOfHighest(centres: ReadonlyArray<number>): number[] {
  const highest = Math.max(...centres);
  const ties = centres.filter((centre) => centre === highest).length;
  return centres.map((centre) => (centre === highest ? 1 / ties : 0));
}

/** Adds to each chance the integral of its density times the distribution functions of the others. */
function addHighest(
  chances: number[],
  centres: ReadonlyArray<number>,
  spreads: ReadonlyArray<number>,
  low: number,
  high: number,
  weight: number,
): void {
  const valueSteps = Math.ceil((high - low) / (valueStep * Math.min(...spreads)));
  const step = (high - low) / valueSteps;
  const below = new Float64Array(centres.length);
  for (let k = 0; k <= valueSteps; k++) {
    const value = low + k * step;
    let product = 1;
    for (let i = 0; i < centres.length; i++) {
      below[i] = normalCdf((value - centres[i]!) / spreads[i]!);
      product *= below[i]!;
    }
    if (product < 1e-300) continue;
    for (let i = 0; i < centres.length; i++) {
      const density = normalDensity((value - centres[i]!) / spreads[i]!) / spreads[i]!;
      chances[i]! += weight * step * density * (product / below[i]!);
    }
  }
}

/** Values of the common scale with their weights: even steps of the logarithm of the chi-square variable. */
function scalesOf(degreesOfFreedom: number): { scale: number; weight: number }[] {
  const half = Math.min(degreesOfFreedom, 1e6) / 2;
  // where half (x - exp(x) + 1) falls to the least log density, from outside
  const depth = leastLogDensity / half;
  const low = -Math.sqrt(2 * depth) - depth;
  const high = Math.min(Math.sqrt(2 * depth), Math.log1p(depth) + 1.2);
  const values = Array.from({ length: scaleSteps + 1 }, (_, i) => {
    const log = low + ((high - low) * i) / scaleSteps;
    return { scale: Math.exp(-log / 2), weight: Math.exp(half * (log - Math.exp(log) + 1)) };
  });
  const total = values.reduce((sum, { weight }) => sum + weight, 0);
  return values
    .filter(({ weight }) => weight > 1e-12 * total)
    .map(({ scale, weight }) => ({ scale, weight: weight / total }));
}
