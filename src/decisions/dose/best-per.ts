import type { ChosenDose } from "./choose-dose.ts";
import type { BestPer } from "./dose-facts.ts";
import type { DoseGrid } from "./dose-grid.ts";
import { bandOf } from "./expected-doses.ts";
import { chanceBelow, columnMean, type MoneyDraws } from "./money-draws.ts";

const surelyAnother = 0.95;

/** The best tested dose per shelf day and per hour of work, in the same draws. */
export function bestPer({ use }: ChosenDose, grid: DoseGrid, money: MoneyDraws): BestPer[] {
  const { left, days, perHour, points } = money;
  const yardsticks: [BestPer["per"], Float64Array | undefined][] = [
    ["shelf day", days === undefined ? undefined : left.map((own, at) => own / days[at]!)],
    ["hour of work", perHour],
  ];
  return yardsticks.flatMap(([per, values]) => {
    if (values === undefined) return [];
    const means = grid.doses.map((_, at) => columnMean(values, points, at));
    // the dose to use stays unless another is expected to do better
    const best = grid.tested.reduce((top, at) => (means[at]! > means[top]! ? at : top), use);
    const chanceBetter = best === use ? 0 : chanceBelow(values, points, use, best);
    return [
      {
        per,
        dose: grid.doses[best]!,
        left: bandOf(values, points, best),
        more: means[best]! - means[use]!,
        chanceBetter,
        different: chanceBetter >= surelyAnother,
      },
    ];
  });
}
