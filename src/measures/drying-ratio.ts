import { requireNotNegative, requirePositive } from "./require-amounts.ts";

/**
 * Drying ratio: grams of fresh mushrooms that made one gram of dried product.
 * @throws RangeError if freshGrams is negative or driedGrams is not above 0
 * @example dryingRatio(999, 111) // 9.0
 */
export function dryingRatio(freshGrams: number, driedGrams: number): number {
  requireNotNegative("dryingRatio", "freshGrams", freshGrams);
  requirePositive("dryingRatio", "driedGrams", driedGrams);
  return freshGrams / driedGrams;
}
