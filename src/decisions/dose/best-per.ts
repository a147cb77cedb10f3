import { bandOf } from "./band-of.ts";
import type { ChosenDose } from "./choose-dose.ts";
import type { BestPer } from "./dose-facts.ts";
import type { DoseGrid } from "./dose-grid.ts";
import { chanceBelow, type MoneyDraws, placeMean } from "./money-draws.ts";

const surelyAnother = 0.95;
/** A tray that holds its place for less than this many days was not timed, and nothing is divided by that. */
const shortest = 0.01;

/** The best tested dose per shelf day and per hour of work, in the same draws. */
export function bestPer({ use }: ChosenDose, grid: DoseGrid, money: MoneyDraws): BestPer[] {
  const { left, days, perHour, count } = money;
  // the dose to use comes first and stays unless another is expected to do better
  const places = [use, ...grid.tested.filter((at) => at !== use)];
  const at = (valueAt: (draw: number) => number): Float64Array => {
    const values = new Float64Array(places.length * count);
    places.forEach((place, to) => {
      for (let i = 0; i < count; i++) values[to * count + i] = valueAt(place * count + i);
    });
    return values;
  };
  const yardsticks: [BestPer["per"], Float64Array | undefined][] = [
    ["shelf day", days?.every((held) => held >= shortest) ? at((draw) => left[draw]! / days[draw]!) : undefined],
    ["hour of work", perHour && at((draw) => perHour[draw]!)],
  ];
  return yardsticks.flatMap(([per, values]) => {
    if (values === undefined) return [];
    const means = places.map((_, place) => placeMean(values, count, place));
    const best = means.reduce((top, mean, place) => (mean > means[top]! ? place : top), 0);
    const chanceBetter = best === 0 ? 0 : chanceBelow(values, count, 0, best);
    return [
      {
        per,
        dose: grid.doses[places[best]!]!,
        left: bandOf(values, best, new Float64Array(count)),
        more: means[best]! - means[0]!,
        chanceBetter,
        different: chanceBetter >= surelyAnother,
      },
    ];
  });
}
