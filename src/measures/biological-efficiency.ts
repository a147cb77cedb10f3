import { requireNotNegative, requirePositive } from "./require-amounts.ts";

/**
 * Biological efficiency: fresh mushrooms picked as a share of the DRY weight of the substrate at filling.
 * It can pass 1. On wet or as-is substrate the figure is not biological efficiency; see `yieldOnWetSubstrate`.
 * @param freshGrams everything picked from the substrate, fresh
 * @param drySubstrateGrams dry weight of the substrate; from air-dry grain use `drySubstrate`
 * @returns a fraction: 1.05 is written 105 %
 * @throws RangeError if freshGrams is negative or drySubstrateGrams is not above 0
 * @source Chang and Miles 2004, Mushrooms: Cultivation, Nutritional Value, Medicinal Effect, and Environmental Impact,
 *   2nd edition, CRC Press
 * @example biologicalEfficiency(910.1, 866.8) // 1.04995...
 */
export function biologicalEfficiency(freshGrams: number, drySubstrateGrams: number): number {
  requireNotNegative("biologicalEfficiency", "freshGrams", freshGrams);
  requirePositive("biologicalEfficiency", "drySubstrateGrams", drySubstrateGrams);
  return freshGrams / drySubstrateGrams;
}

/**
 * Fresh mushrooms as a share of WET substrate at filling. Smaller than biological efficiency and not comparable with it.
 * @throws RangeError if freshGrams is negative or wetSubstrateGrams is not above 0
 * @example yieldOnWetSubstrate(212.8, 1000) // 0.2128
 */
export function yieldOnWetSubstrate(freshGrams: number, wetSubstrateGrams: number): number {
  requireNotNegative("yieldOnWetSubstrate", "freshGrams", freshGrams);
  requirePositive("yieldOnWetSubstrate", "wetSubstrateGrams", wetSubstrateGrams);
  return freshGrams / wetSubstrateGrams;
}

/**
 * Productivity: biological efficiency gained per day of the crop.
 * @param efficiency a fraction; @param cropDays days from inoculation to the last picking, above 0
 * @returns fraction per day
 * @throws RangeError if the efficiency is negative or cropDays is not above 0
 * @example productivity(0.9, 60) // 0.015
 */
export function productivity(efficiency: number, cropDays: number): number {
  requireNotNegative("productivity", "efficiency", efficiency);
  requirePositive("productivity", "cropDays", cropDays);
  return efficiency / cropDays;
}
