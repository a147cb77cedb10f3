import { requireNotNegative } from "../../measures/require-amounts.ts";
import { minorUnits } from "../apportion.ts";

/**
 * The lowest price of 0 or more that is at least the given one and ends as the grower likes. An ending below 1 is looked
 * for in every whole unit of money, one below 10 in every ten (4.9 gives 4.90, 14.90, ...), and so on.
 * @param endings 0 or more, in whole minor units; empty: any price in whole minor units
 * @param decimals of the currency's minor unit
 * @returns money; never below the price, except for storage error under a millionth of a minor unit
 * @throws RangeError if the price or an ending is negative, or an ending is finer than the minor unit
 * @example roundUpToEnding(26.1146, [0.5, 0.9], 2) // 26.5
 */
export function roundUpToEnding(price: number, endings: ReadonlyArray<number>, decimals: number): number {
  requireNotNegative("roundUpToEnding", "price", price);
  minorUnits(price, decimals);
  const unit = 10 ** decimals;
  const least = Math.max(0, Math.ceil(price * unit - 1e-6));
  if (endings.length === 0) return least / unit;
  const candidates = endings.map((ending) => {
    requireNotNegative("roundUpToEnding", "every ending", ending);
    const minor = minorUnits(ending, decimals);
    if (Math.abs(minor - ending * unit) > 1e-6) {
      throw new RangeError(
        `roundUpToEnding: an ending must be whole minor units of ${decimals} decimals; received ${ending}`,
      );
    }
    let cycle = unit;
    while (cycle <= minor) cycle *= 10;
    return minor + Math.max(0, Math.ceil((least - minor) / cycle)) * cycle;
  });
  return Math.min(...candidates) / unit;
}
