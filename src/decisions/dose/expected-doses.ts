import { selectedQuantiles } from "../../statistics/descriptive/selected-quantiles.ts";
import type { ChosenDose } from "./choose-dose.ts";
import type { CurveDraws } from "./curve-draws.ts";
import type { Band, ExpectedDose } from "./dose-facts.ts";
import type { DoseGrid } from "./dose-grid.ts";
import type { LossDraws } from "./loss-draws.ts";
import { columnMean, type MoneyDraws } from "./money-draws.ts";

/** Mean and 95 % of a column of draws. */
export function bandOf(values: Float64Array, points: number, at: number): Band {
  const column = new Float64Array(values.length / points);
  let sum = 0;
  for (let i = 0; i < column.length; i++) {
    column[i] = values[i * points + at]!;
    sum += column[i]!;
  }
  const mean = sum / column.length;
  const [low, high] = selectedQuantiles(column, [0.025, 0.975]);
  return { mean, low: low!, high: high! };
}

/** What is expected at each dose of the grid. */
export function expectedDoses(
  grid: DoseGrid,
  curves: CurveDraws,
  losses: LossDraws,
  money: MoneyDraws,
  { use, meanLeft, below }: ChosenDose,
): ExpectedDose[] {
  const { points } = curves;
  const tested = new Set(grid.tested);
  const none = { mean: 0, low: 0, high: 0 };
  return grid.doses.map((dose, at) => ({
    dose,
    tested: tested.has(at),
    beyond: at < grid.first || at > grid.last,
    grams: bandOf(curves.grams, points, at),
    loss: losses.noneLost ? none : bandOf(losses.share, points, at),
    days: money.days === undefined ? undefined : columnMean(money.days, points, at),
    left: bandOf(money.left, points, at),
    chanceBelowUse: below[at]!,
    givesUp: meanLeft[use]! - meanLeft[at]!,
  }));
}
