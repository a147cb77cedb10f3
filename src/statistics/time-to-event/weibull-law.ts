import { requireSameLength, requireSample } from "../require-numbers.ts";

/**
 * Times known only to lie in an interval. Each event happened after `lower` and not after `upper`: equal ends for a time seen
 * exactly, lower 0 for "already done at the first look", upper Infinity for "not yet at the last look".
 */
export interface IntervalSample {
  lower: ReadonlyArray<number>;
  upper: ReadonlyArray<number>;
}

/** The share still waiting at a time is exp(-(time / scale)^shape). */
export interface WeibullLaw {
  /** above 1 the chance of the event rises with time */
  shape: number;
  /** the time by which 63.2 % are done, in the times' unit */
  scale: number;
}

/** One row, ready to be evaluated at many parameters. */
interface Row {
  /** log of the lower end, or of the upper one where the lower is 0 and adds nothing; from the centre of all */
  base: number;
  /** log of upper over lower: 0 for an exact time, Infinity while waiting, and where the lower end is 0 */
  width: number;
  hasLower: boolean;
}

/** Log likelihood but for a constant, its first derivatives, and the second with their sign turned: by the shift, by both, by the slope. */
interface LikelihoodPoint {
  value: number;
  gradient: [number, number];
  information: [number, number, number];
}

const mostSteps = 100;

/**
 * The Weibull law of times to an event, exact, right-, left- or interval-censored, by maximum likelihood: Newton steps, each
 * halved until the likelihood rises. In shift and slope, the log of a time times the slope plus the shift follows the
 * smallest-extreme-value law, and the likelihood is concave.
 * @throws RangeError if the lists differ in length, an interval is not 0 <= lower <= upper with upper above 0, nothing has
 *   happened yet, there are fewer than two times, or the likelihood has no maximum (times all alike)
 * @source Kalbfleisch and Prentice 2002, The Statistical Analysis of Failure Time Data, chapter 3 (from memory); concavity:
 *   Burridge 1981, Journal of the Royal Statistical Society B 43(1):41-45
 * @example weibullLaw({ lower: [2, 5, 7, 9], upper: [2, 5, 7, Infinity] }).shape // 1.8023...
 */
export function weibullLaw(sample: IntervalSample): WeibullLaw {
  requireIntervals(sample);
  const { lower, upper } = sample;
  const rough = lower.map((from, i) => {
    const middle = upper[i] === Number.POSITIVE_INFINITY ? from : (from + upper[i]!) / 2;
    return middle > 0 ? Math.log(middle) : 0;
  });
  const centre = rough.reduce((sum, log) => sum + log, 0) / rough.length;
  const rows = lower.map((from, i) => ({
    base: Math.log(from > 0 ? from : upper[i]!) - centre,
    width: from > 0 ? Math.log1p((upper[i]! - from) / from) : Number.POSITIVE_INFINITY,
    hasLower: from > 0,
  }));
  let [shift, slope] = [0, 1];
  let point = likelihoodAt(rows, shift, slope);
  if (point === undefined) throw new RangeError("weibullLaw: the times must be of a size the computer can hold");
  for (let step = 0; step < mostSteps; step++) {
    const newton = newtonStep(point);
    if (newton === undefined) break;
    const { move, turn, gain } = newton;
    const isSmall = Math.max(Math.abs(move) / (1 + Math.abs(shift)), Math.abs(turn) / (1 + slope)) < 1e-8;
    let next: LikelihoodPoint | undefined;
    let share = 2;
    while (share > 1e-10 && next === undefined) {
      share /= 2;
      const reached = likelihoodAt(rows, shift + share * move, slope + share * turn);
      if (reached !== undefined && reached.value >= point.value - 1e-14 * Math.abs(point.value)) next = reached;
    }
    if (next === undefined && !isSmall) break;
    if (next !== undefined) [shift, slope, point] = [shift + share * move, slope + share * turn, next];
    if (isSmall && (next === undefined || gain < 1e-18 * (1 + Math.abs(point.value)))) {
      return { shape: slope, scale: Math.exp(centre - shift / slope) };
    }
  }
  throw new RangeError("weibullLaw: the likelihood must have a maximum, but it keeps rising: times that are all alike");
}

/** Changes of shift and slope, and the rise of the likelihood they promise; undefined where the information is singular. */
function newtonStep({
  gradient,
  information,
}: LikelihoodPoint): { move: number; turn: number; gain: number } | undefined {
  const [pull, slopePull] = gradient;
  const [byShift, byBoth, bySlope] = information;
  const determinant = byShift * bySlope - byBoth * byBoth;
  if (!(byShift > 0 && determinant > 0)) return undefined;
  const move = (bySlope * pull - byBoth * slopePull) / determinant;
  const turn = (byShift * slopePull - byBoth * pull) / determinant;
  return { move, turn, gain: move * pull + turn * slopePull };
}

function requireIntervals({ lower, upper }: IntervalSample): void {
  requireSample("weibullLaw", "lower", lower, 2);
  requireSameLength("weibullLaw", "lower", lower, "upper", upper);
  lower.forEach((from, i) => {
    if (!(from >= 0 && upper[i]! >= from && upper[i]! > 0)) {
      throw new RangeError(
        `weibullLaw: each interval must have 0 <= lower <= upper and upper above 0; row ${i + 1} is ${from} to ${upper[i]}`,
      );
    }
  });
  if (upper.every((to) => to === Number.POSITIVE_INFINITY)) {
    throw new RangeError(`weibullLaw: at least one event must have happened; all ${upper.length} are still waiting`);
  }
}

/** Undefined where the slope is not above 0 or the likelihood is 0 to working accuracy. */
function likelihoodAt(rows: ReadonlyArray<Row>, shift: number, slope: number): LikelihoodPoint | undefined {
  if (!(slope > 0)) return undefined;
  let [pull, slopePull, byShift, byBoth, bySlope] = [0, 0, 0, 0, 0];
  // compensated: over many rows plain rounding would hide the last Newton steps' gain
  let [value, lost] = [0, 0];
  const add = (term: number): void => {
    const next = value + term;
    lost += Math.abs(value) >= Math.abs(term) ? value - next + term : term - next + value;
    value = next;
  };
  for (const { base, width, hasLower } of rows) {
    const z = slope * base + shift;
    const hazard = Math.exp(z);
    if (width === 0) {
      add(z - hazard + Math.log(slope));
      pull += 1 - hazard;
      slopePull += (1 - hazard) * base + 1 / slope;
      byShift += hazard;
      byBoth += hazard * base;
      bySlope += hazard * base * base + 1 / (slope * slope);
      continue;
    }
    const low = hasLower ? hazard : 0;
    // cumulative hazard between the ends, formed without subtracting nearly equal numbers
    const gap = hasLower ? hazard * Math.expm1(slope * width) : hazard;
    add(-low);
    if (!(gap < Number.POSITIVE_INFINITY)) {
      pull -= low;
      slopePull -= low * base;
      byShift += low;
      byBoth += low * base;
      bySlope += low * base * base;
      continue;
    }
    add(Math.log(-Math.expm1(-gap)));
    // odds that an event still waiting at the lower end passes the upper one too
    const odds = 1 / Math.expm1(gap);
    if (!(odds < Number.POSITIVE_INFINITY)) return undefined;
    const kept = gap * odds;
    const high = low + gap;
    const between = hasLower ? width : 0;
    const along = (odds === 0 ? 0 : gap * kept * (1 + odds) - kept) + low;
    const mixed = odds === 0 ? 0 : high * odds * (gap * (1 + odds) - 1) * between;
    const across = odds === 0 ? 0 : high * odds * (high * (1 + odds) - 1) * between * between;
    pull += kept - low;
    slopePull += (kept - low) * base + high * odds * between;
    byShift += along;
    byBoth += along * base + mixed;
    bySlope += along * base * base + 2 * mixed * base + across;
  }
  if (!Number.isFinite(value)) return undefined;
  return { value: value + lost, gradient: [pull, slopePull], information: [byShift, byBoth, bySlope] };
}
