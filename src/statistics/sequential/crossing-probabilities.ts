import { normalCdf, normalDensity, normalUpperTail } from "../distributions/normal.ts";
import { requireFinite } from "../require-numbers.ts";
import { gaussLegendre } from "./gauss-legendre.ts";

export interface CrossingInput {
  /** share of the full information at each look, ascending, the last usually 1 */
  informationFractions: ReadonlyArray<number>;
  /** upper limit of z at each look; the lower one is its mirror image. Infinity for a look without a limit */
  bounds: ReadonlyArray<number>;
  /** expected z at information 1; 0 under no difference */
  drift?: number;
}

export interface CrossingProbabilities {
  /** probability of first crossing above (below) at each look */
  upper: number[];
  lower: number[];
  /** probability of having crossed by each look, either side */
  cumulative: number[];
}

/**
 * Probabilities that a z statistic followed over several looks first leaves its limits at each look, by recursive numerical
 * integration of the density of those that have stayed inside.
 * @throws RangeError if fractions are not above 0 and ascending, a limit is not above 0, or lengths differ
 * @source Armitage, McPherson and Rowe 1969, Journal of the Royal Statistical Society A 132(2):235-244; Jennison and
 *   Turnbull 2000, Group Sequential Methods with Applications to Clinical Trials, chapter 19
 * @example crossingProbabilities({ informationFractions: [0.5, 1], bounds: [2.178, 2.178] }).cumulative[1] // 0.05003...
 */
export function crossingProbabilities(input: CrossingInput): CrossingProbabilities {
  const { informationFractions, bounds, drift = 0 } = input;
  requireFractions("crossingProbabilities", informationFractions);
  if (bounds.length !== informationFractions.length) {
    throw new RangeError(`crossingProbabilities: one limit per look is needed; received ${bounds.length}`);
  }
  for (const bound of bounds) {
    if (!(bound > 0)) throw new RangeError(`crossingProbabilities: limits must be above 0; received ${bound}`);
  }
  requireFinite("crossingProbabilities", "drift", [drift]);
  const process = new StoppedProcess(drift);
  const upper: number[] = [];
  const lower: number[] = [];
  const cumulative: number[] = [];
  let sum = 0;
  informationFractions.forEach((fraction, k) => {
    const crossed = process.crossing(fraction, bounds[k]!);
    upper.push(crossed.upper);
    lower.push(crossed.lower);
    sum += crossed.upper + crossed.lower;
    cumulative.push(sum);
    process.advance(fraction, bounds[k]!);
  });
  return { upper, lower, cumulative };
}

/**
 * Fails unless the fractions are above 0 and ascending.
 * @internal
 */
export function requireFractions(routine: string, fractions: ReadonlyArray<number>): void {
  if (fractions.length === 0) throw new RangeError(`${routine}: at least one look is needed`);
  requireFinite(routine, "informationFractions", fractions);
  fractions.forEach((fraction, k) => {
    const before = k === 0 ? 0 : fractions[k - 1]!;
    if (!(fraction - before > 1e-9)) {
      throw new RangeError(
        `${routine}: informationFractions must be above 0 and ascending; look ${k + 1} is ${fraction} after ${before}`,
      );
    }
  });
}

/** Beyond this many standard deviations nothing is left to integrate. */
const furthest = 9;
const panelSize = 24;
const rule = gaussLegendre(panelSize);

/** Brownian motion with drift, followed from look to look; what has left the limits is gone. */
export class StoppedProcess {
  readonly #drift: number;
  #time = 0;
  /** places, and the probability mass (density times quadrature weight) there, of those still inside */
  #places = Float64Array.of(0);
  #masses = Float64Array.of(1);

  constructor(drift: number) {
    this.#drift = drift;
  }

  /** Probability of leaving at the next look with limits of +- bound on z. */
  crossing(fraction: number, bound: number): { upper: number; lower: number } {
    if (bound === Number.POSITIVE_INFINITY) return { upper: 0, lower: 0 };
    const limit = bound * Math.sqrt(fraction);
    const step = fraction - this.#time;
    const spread = Math.sqrt(step);
    let [upper, lower] = [0, 0];
    for (let i = 0; i < this.#places.length; i++) {
      const centre = this.#places[i]! + this.#drift * step;
      upper += this.#masses[i]! * normalUpperTail((limit - centre) / spread);
      lower += this.#masses[i]! * normalCdf((-limit - centre) / spread);
    }
    return { upper, lower };
  }

  /** Moves to the look and drops what lies outside its limits. */
  advance(fraction: number, bound: number): void {
    const step = fraction - this.#time;
    const spread = Math.sqrt(step);
    const centre = this.#drift * fraction;
    const reach = furthest * Math.sqrt(fraction);
    const limit = bound * Math.sqrt(fraction);
    const low = Math.max(-limit, centre - reach);
    const high = Math.min(limit, centre + reach);
    const panels = Math.max(2, Math.ceil((high - low) / (4 * spread)));
    const places = new Float64Array(Math.max(panels, 0) * panelSize);
    const masses = new Float64Array(places.length);
    const half = (high - low) / panels / 2;
    for (let panel = 0; panel < panels; panel++) {
      const middle = low + (2 * panel + 1) * half;
      for (let k = 0; k < panelSize; k++) {
        const place = middle + half * rule.places[k]!;
        let density = 0;
        for (let i = 0; i < this.#places.length; i++) {
          const distance = (place - this.#places[i]! - this.#drift * step) / spread;
          if (Math.abs(distance) < 38) density += this.#masses[i]! * normalDensity(distance);
        }
        places[panel * panelSize + k] = place;
        masses[panel * panelSize + k] = (density / spread) * half * rule.weights[k]!;
      }
    }
    this.#places = places;
    this.#masses = masses;
    this.#time = fraction;
  }
}
