import { requireFinite } from "../require-numbers.ts";

/** Profit at one dose beside the best. */
export interface ProfitAtDose {
  dose: number;
  profit: number;
  /** profit given up against the reference dose; below 0 when this dose earns more */
  lost: number;
}

/**
 * Profit at the chosen dose and at its neighbours, to show how flat the top is.
 * @param reference the dose the others are compared with
 * @throws RangeError if a dose is not finite or profit at one is not
 * @example profitAtDoses((dose) => 10 - (dose - 3) ** 2, 3, [2, 4])[1] // { dose: 2, profit: 9, lost: 1 }
 */
export function profitAtDoses(
  profit: (dose: number) => number,
  reference: number,
  neighbours: ReadonlyArray<number>,
): ProfitAtDose[] {
  requireFinite("profitAtDoses", "doses", [reference, ...neighbours]);
  const values = [reference, ...neighbours].map(profit);
  requireFinite("profitAtDoses", "profits", values);
  return [reference, ...neighbours].map((dose, k) => ({ dose, profit: values[k]!, lost: values[0]! - values[k]! }));
}
