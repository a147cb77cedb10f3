import { nameKey } from "../../records/name-key.ts";
import type { Product } from "../../records/product.ts";
import { earningsAt, termsOf } from "./price.ts";
import type { UnitCost } from "./unit-cost.ts";

/** A product with what a unit of it costs at the mean cost of a gram. */
export interface GradedUnit {
  product: Product;
  unit: UnitCost;
}

/** What a gram of a product brings before the mushrooms in it are paid for, never below 0. */
function netRealisableValue({ product, unit }: GradedUnit): number | undefined {
  if (product.currentPrice === undefined || !(product.currentPrice > 0) || !(unit.gramsNeeded > 0)) return undefined;
  const { profit } = earningsAt(product.currentPrice, Math.max(0, unit.full - unit.mushrooms), termsOf(product));
  return Math.max(0, profit) / unit.gramsNeeded;
}

/**
 * Cost of a gram of each product's grade over the mean gram of the harvest, where grades share the cost by what they
 * bring: the value of a grade's gram over the mean value of all grams. What is left of the weight is sold under no
 * grade; where nothing is sold of it, it brings nothing and carries nothing. Shared by weight every gram costs the same.
 * @param units products of one weight, fresh or dried
 * @returns one factor a product, in order; all 1 by weight, or where a grade has no current price to value it by
 * @source joint cost by net realisable value at the split-off point: Horngren, Datar and Rajan, Cost Accounting, chapter
 *   on joint products and by-products
 * @example jointCostFactors([], "value") // []
 */
export function jointCostFactors(units: ReadonlyArray<GradedUnit>, by: "weight" | "value"): number[] {
  const same = units.map(() => 1);
  if (by === "weight" || !units.some(({ product }) => product.grade !== undefined)) return same;
  const grades = new Map<string, { share: number | undefined; values: number[] }>();
  for (const one of units) {
    const key = nameKey(one.product.grade);
    const grade = grades.get(key) ?? { share: one.product.gradeShare, values: [] };
    grades.set(key, grade);
    const value = netRealisableValue(one);
    if (value !== undefined) grade.values.push(value);
  }
  const graded = [...grades.values()].reduce((sum, { share = 0 }) => sum + share, 0);
  const shareOf = (key: string): number => (key === "" ? Math.max(0, 1 - graded) : (grades.get(key)?.share ?? 0));
  const meanValue = (key: string): number | undefined => {
    const { values } = grades.get(key)!;
    return values.length === 0 ? undefined : values.reduce((sum, value) => sum + value, 0) / values.length;
  };
  let mean = 0;
  for (const key of grades.keys()) {
    const value = meanValue(key);
    if (value === undefined) return same;
    mean += shareOf(key) * value;
  }
  if (!(mean > 0)) return same;
  return units.map(({ product }) => meanValue(nameKey(product.grade))! / mean);
}
