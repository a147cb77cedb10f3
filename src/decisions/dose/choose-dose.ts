import { selectedQuantiles } from "../../statistics/descriptive/selected-quantiles.ts";
import type { DoseGrid } from "./dose-grid.ts";
import { chanceBelow, type MoneyDraws, placeMean } from "./money-draws.ts";

/** Money of each place of the grid against the place to use. */
export interface ChosenDose {
  /** place to use, and the tested place with the most expected left */
  use: number;
  bestTested: number;
  meanLeft: Float64Array;
  /** money that does not matter */
  noDifference: number;
  risk: { mean: number; high: number };
  /** per place: chance that it leaves less than `use` */
  below: Float64Array;
  /** first and last place not ruled out, and those that do as well as `use` */
  notRuledOut: [first: number, last: number];
  asGood: [first: number, last: number];
}

/** An untested dose is used only where it is expected to bring this share of income more. */
const clearlyBetter = 0.0025;
/** A dose is ruled out where it leaves less than the one to use in more than this share of draws. */
const ruledOutAbove = 0.9;
/** A dose does as well where it gives up no more than what does not matter in this share of draws. */
const doesAsWell = 0.9;

/**
 * The dose to use and the doses around it, from money left in each draw.
 * @param tolerance share of expected income that does not matter
 * @param mayBeUntested false where only a tested dose may be named, as it is where none is ruled out
 * @source expected loss: Raiffa and Schlaifer 1961, Applied Statistical Decision Theory, Harvard Business School; limits
 *   that compare with the best: the aim of Hsu 1984, Annals of Statistics 12(3):1136-1144
 */
export function chooseDose(money: MoneyDraws, grid: DoseGrid, tolerance: number, mayBeUntested: boolean): ChosenDose {
  const { left, points, count, income } = money;
  const meanLeft = Float64Array.from({ length: points }, (_, at) => placeMean(left, count, at));
  const better = (a: number, b: number): number => (meanLeft[b]! > meanLeft[a]! ? b : a);
  const bestTested = grid.tested.reduce(better);
  const range = Array.from({ length: grid.last - grid.first + 1 }, (_, i) => grid.first + i);
  const best = range.reduce(better, bestTested);
  const clear = meanLeft[best]! - meanLeft[bestTested]! > clearlyBetter * income[bestTested]!;
  const isOpen = [grid.first, grid.last].every((at) => chanceBelow(left, count, at, best) <= ruledOutAbove);
  const use = mayBeUntested && clear && !isOpen ? best : bestTested;
  const noDifference = Math.max(0, tolerance * income[use]!);
  const losses = new Float64Array(count);
  const near = new Float64Array(points);
  for (let at = grid.first; at <= grid.last; at++) {
    for (let i = 0; i < count; i++) {
      const less = left[use * count + i]! - left[at * count + i]!;
      if (less <= noDifference) near[at]!++;
      if (-less > losses[i]!) losses[i] = -less;
    }
  }
  const mean = losses.reduce((sum, loss) => sum + loss, 0) / count;
  const [high] = selectedQuantiles(losses, [0.95]);
  const below = Float64Array.from({ length: points }, (_, at) => chanceBelow(left, count, at, use));
  const open = range.filter((at) => at === use || below[at]! <= ruledOutAbove);
  let [from, to] = [use, use];
  while (from > grid.first && near[from - 1]! >= doesAsWell * count) from--;
  while (to < grid.last && near[to + 1]! >= doesAsWell * count) to++;
  return {
    use,
    bestTested,
    meanLeft,
    noDifference,
    risk: { mean, high: high! },
    below,
    notRuledOut: [open[0]!, open.at(-1)!],
    asGood: [from, to],
  };
}
