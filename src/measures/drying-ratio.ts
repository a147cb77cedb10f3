import { requireNotNegative, requirePositive, requireShareBelowOne } from "./require-amounts.ts";

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

/**
 * The drying ratio two moistures imply.
 * @param freshMoisture of the fresh mushrooms; @param driedMoisture of the dried product; wet basis, 0 or more, below 1
 * @throws RangeError if a moisture lies outside its range or the dried product is the wetter one
 * @source mass balance of dry matter; arithmetic
 * @example dryingRatioFromMoisture(0.85, 0.1) // 6
 */
export function dryingRatioFromMoisture(freshMoisture: number, driedMoisture: number): number {
  requireShareBelowOne("dryingRatioFromMoisture", "freshMoisture", freshMoisture);
  requireShareBelowOne("dryingRatioFromMoisture", "driedMoisture", driedMoisture);
  if (driedMoisture > freshMoisture) {
    throw new RangeError(
      `dryingRatioFromMoisture: driedMoisture must not be above freshMoisture; received ${driedMoisture} and ${freshMoisture}`,
    );
  }
  return (1 - driedMoisture) / (1 - freshMoisture);
}
