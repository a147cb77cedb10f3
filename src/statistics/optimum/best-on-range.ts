import { requireFinite } from "../require-numbers.ts";

/** Where a function is largest on a range. */
export interface BestOnRange {
  /** the place of the largest value; of several equally good, the lowest */
  at: number;
  value: number;
  where: "inside" | "lowest" | "highest";
}

const gridPoints = 400;

/**
 * The highest point of any function of the dose over a range, for profit that the dose moves in several ways at once
 * (yield, losses, days). A grid finds the hills, golden-section search climbs the five best; steps and corners are allowed.
 * A hill narrower than 1/400 of the range can be missed unless one of `extra` stands on it.
 * @param profit value at a dose; must be finite over the whole range
 * @param extra places to try besides the grid: tested doses, joins
 * @throws RangeError if the range is empty or not finite, or the function gives a value that is not finite
 * @source Kiefer 1953, Proceedings of the American Mathematical Society 4(3):502-506 (golden section)
 * @example bestOnRange((dose) => 40 * dose - dose ** 2, 0, 30).at.toFixed(6) // "20.000000"
 */
export function bestOnRange(
  profit: (dose: number) => number,
  low: number,
  high: number,
  extra: ReadonlyArray<number> = [],
): BestOnRange {
  requireFinite("bestOnRange", "low and high", [low, high]);
  if (!(low <= high)) throw new RangeError(`bestOnRange: low must not be above high; received ${low} and ${high}`);
  const valueAt = (dose: number): number => {
    const value = profit(dose);
    if (!Number.isFinite(value)) throw new RangeError(`bestOnRange: profit at ${dose} is ${value}; it must be finite`);
    return value;
  };
  if (low === high) return { at: low, value: valueAt(low), where: "lowest" };
  const places = [
    ...Array.from({ length: gridPoints + 1 }, (_, k) =>
      k === gridPoints ? high : low + ((high - low) * k) / gridPoints,
    ),
    ...extra.filter((dose) => dose > low && dose < high),
  ].sort((a, b) => a - b);
  const tried = places.map((at) => ({ at, value: valueAt(at) }));
  let best = tried.reduce((leader, point) => (point.value > leader.value ? point : leader));
  const hills = tried
    .map((point, k) => ({ point, left: tried[k - 1] ?? point, right: tried[k + 1] ?? point }))
    .filter(({ point, left, right }) => point.value >= left.value && point.value >= right.value)
    .sort((a, b) => b.point.value - a.point.value)
    .slice(0, 5);
  for (const { left, right } of hills) {
    const top = climb(valueAt, left.at, right.at);
    if (top.value > best.value) best = top;
  }
  return { ...best, where: best.at <= low ? "lowest" : best.at >= high ? "highest" : "inside" };
}

interface Place {
  at: number;
  value: number;
}

/** Golden-section search; a smooth top is finished by a parabola, which finds it to more digits, a corner by more halving. */
function climb(valueAt: (dose: number) => number, from: number, to: number): Place {
  // values near a smooth top differ by the square of the distance: closer in, only rounding would be compared
  const [low, high, best] = goldenSection(valueAt, from, to, 1e-5 * (to - from));
  const top = parabolaTop(valueAt, best, Math.min(1e-2 * (to - from), best.at - from, to - best.at));
  if (top && top.value >= best.value - 1e-13 * Math.abs(best.value)) {
    return { at: top.at, value: Math.max(top.value, best.value) };
  }
  return goldenSection(valueAt, low, high, 1e-13 * Math.max(Math.abs(low), Math.abs(high)))[2];
}

function goldenSection(
  valueAt: (dose: number) => number,
  from: number,
  to: number,
  width: number,
): [low: number, high: number, best: Place] {
  const share = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let a = high - share * (high - low);
  let b = low + share * (high - low);
  let [valueA, valueB] = [valueAt(a), valueAt(b)];
  for (let round = 0; round < 90 && high - low > width; round++) {
    if (valueA >= valueB) {
      high = b;
      [b, valueB] = [a, valueA];
      a = high - share * (high - low);
      valueA = valueAt(a);
    } else {
      low = a;
      [a, valueA] = [b, valueB];
      b = low + share * (high - low);
      valueB = valueAt(b);
    }
  }
  return [low, high, valueA >= valueB ? { at: a, value: valueA } : { at: b, value: valueB }];
}

/** The top of the parabola through a place and its two neighbours at a distance; nothing where they do not bend down. */
function parabolaTop(valueAt: (dose: number) => number, middle: Place, reach: number): Place | undefined {
  if (!(reach > 0)) return undefined;
  const [left, right] = [valueAt(middle.at - reach), valueAt(middle.at + reach)];
  const bend = left - 2 * middle.value + right;
  const at = middle.at - (reach * (right - left)) / (2 * bend);
  return bend < 0 && Math.abs(at - middle.at) <= reach ? { at, value: valueAt(at) } : undefined;
}
