import { bandOf } from "./band-of.ts";
import type { ChosenDose } from "./choose-dose.ts";
import type { ExpectedDose } from "./dose-facts.ts";
import type { DoseYields } from "./dose-yields.ts";
import { type MoneyDraws, placeMean } from "./money-draws.ts";

/** What is expected at each dose of the grid. */
export function expectedDoses(
  { grid, curves, losses, grams }: DoseYields,
  money: MoneyDraws,
  { use, meanLeft, below }: ChosenDose,
): ExpectedDose[] {
  const { count } = curves;
  const room = new Float64Array(count);
  const tested = new Set(grid.tested);
  const none = { mean: 0, low: 0, high: 0 };
  return grid.doses.map((dose, at) => ({
    dose,
    tested: tested.has(at),
    beyond: at < grid.first || at > grid.last,
    grams: grams[at]!,
    loss: losses.noneLost ? none : bandOf(losses.share, at, room),
    days: money.days === undefined ? undefined : placeMean(money.days, count, at),
    left: bandOf(money.left, at, room),
    chanceBelowUse: below[at]!,
    givesUp: meanLeft[use]! - meanLeft[at]!,
  }));
}
