import { requireNotNegative, requireShareBelowOne } from "./require-amounts.ts";

/**
 * Dry matter in something that still holds water: a dried product, fresh mushrooms or air-dry grain.
 * A "dried" product is not dry matter: at 10 % moisture a tenth of it is water.
 * @param moisture wet basis, 0 or more, below 1
 * @returns grams
 * @throws RangeError if grams is negative or the moisture lies outside its range
 * @example dryMatter(110, 0.1) // 99
 */
export function dryMatter(grams: number, moisture: number): number {
  requireNotNegative("dryMatter", "grams", grams);
  requireShareBelowOne("dryMatter", "moisture", moisture);
  return grams * (1 - moisture);
}

/**
 * Dry weight of a tray's substrate from what is weighed at filling: air-dry grain and supplement.
 * @param grainGrams air-dry grain; @param grainMoisture wet basis
 * @param supplementGrams air-dry supplement, 0 for none; @param supplementMoisture wet basis
 * @throws RangeError as `dryMatter`
 * @example drySubstrate(380, 0.12) // 334.4
 */
export function drySubstrate(
  grainGrams: number,
  grainMoisture: number,
  supplementGrams = 0,
  supplementMoisture = 0,
): number {
  return dryMatter(grainGrams, grainMoisture) + dryMatter(supplementGrams, supplementMoisture);
}

/**
 * What a weight becomes at another moisture, its dry matter unchanged: fresh to dried, or dried to a common end point.
 * @param grams weight at `moisture`; both moistures on wet basis, 0 or more, below 1
 * @returns grams at `targetMoisture`
 * @throws RangeError if grams is negative or a moisture lies outside its range
 * @source mass balance of dry matter; arithmetic
 * @example weightAtMoisture(1000, 0.9, 0.1) // 111.11...
 */
export function weightAtMoisture(grams: number, moisture: number, targetMoisture: number): number {
  requireShareBelowOne("weightAtMoisture", "targetMoisture", targetMoisture);
  return dryMatter(grams, moisture) / (1 - targetMoisture);
}
