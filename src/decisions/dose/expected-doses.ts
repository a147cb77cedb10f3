import { selectedQuantiles } from "../../statistics/descriptive/selected-quantiles.ts";
import type { ChosenDose } from "./choose-dose.ts";
import type { CurveDraws } from "./curve-draws.ts";
import type { Band, ExpectedDose } from "./dose-facts.ts";
import type { DoseGrid } from "./dose-grid.ts";
import type { LossDraws } from "./loss-draws.ts";
import { type MoneyDraws, placeMean } from "./money-draws.ts";

/** Mean and 95 % of the draws of one grid place; `room` holds as many numbers as there are draws. */
export function bandOf(values: Float64Array, at: number, room: Float64Array): Band {
  const from = at * room.length;
  let sum = 0;
  for (let i = 0; i < room.length; i++) {
    room[i] = values[from + i]!;
    sum += room[i]!;
  }
  const [low, high] = selectedQuantiles(room, [0.025, 0.975]);
  return { mean: sum / room.length, low: low!, high: high! };
}

/** What is expected at each dose of the grid. */
export function expectedDoses(
  grid: DoseGrid,
  curves: CurveDraws,
  losses: LossDraws,
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
    grams: bandOf(curves.grams, at, room),
    loss: losses.noneLost ? none : bandOf(losses.share, at, room),
    days: money.days === undefined ? undefined : placeMean(money.days, count, at),
    left: bandOf(money.left, at, room),
    chanceBelowUse: below[at]!,
    givesUp: meanLeft[use]! - meanLeft[at]!,
  }));
}
