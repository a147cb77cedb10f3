import { requireProportion } from "../counts/require-proportion.ts";
import { requireSameLength } from "../require-numbers.ts";

/** A chart of proportions, such as trays lost per cook. */
export interface ProportionChart {
  /** proportion over all lots together */
  centre: number;
  /** one per lot; limits depend on its size and are kept within 0 to 1 */
  points: { proportion: number; lower: number; upper: number; outside: boolean }[];
}

/**
 * Control chart for proportions of lots that may differ in size.
 * @param successes count with the outcome in each lot, in time order
 * @param sizes units in each lot, 1 or more
 * @returns limits three standard errors from the overall proportion; rough when a lot expects fewer than about five of either outcome
 * @throws RangeError if the columns are empty or differ in length, a count is not whole, or successes exceed sizes
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.3.2
 * @example proportionChart([1, 3], [10, 10]).centre // 0.2
 */
export function proportionChart(successes: ReadonlyArray<number>, sizes: ReadonlyArray<number>): ProportionChart {
  requireSameLength("proportionChart", "successes", successes, "sizes", sizes);
  if (successes.length === 0) throw new RangeError("proportionChart: needs at least 1 lot; received 0");
  successes.forEach((count, index) => {
    requireProportion("proportionChart", count, sizes[index]!);
  });
  const sum = (values: ReadonlyArray<number>): number => values.reduce((total, value) => total + value, 0);
  const centre = sum(successes) / sum(sizes);
  const points = successes.map((count, index) => {
    const reach = 3 * Math.sqrt((centre * (1 - centre)) / sizes[index]!);
    const proportion = count / sizes[index]!;
    const lower = Math.max(0, centre - reach);
    const upper = Math.min(1, centre + reach);
    return { proportion, lower, upper, outside: proportion < lower || proportion > upper };
  });
  return { centre, points };
}
