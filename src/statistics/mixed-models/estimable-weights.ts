import type { OrthonormalColumns } from "../linear-algebra/orthonormal-columns.ts";
import type { FixedColumn, FixedDesign } from "./fixed-design.ts";

/**
 * Carries weights over all design columns to weights over the kept coefficients.
 * @param weightOf weight of each design column
 * @returns undefined when the columns left out would matter: the combination has no estimate in these data
 * @source Searle 1971, Linear Models, section 5.4, estimable functions (from memory)
 * @internal
 */
export function estimableWeights(
  design: FixedDesign,
  columns: OrthonormalColumns,
  weightOf: (column: FixedColumn) => number,
): number[] | undefined {
  const all = design.columns.map(weightOf);
  const kept = columns.kept.map((position) => all[position]!);
  const largest = Math.max(...all.map(Math.abs));
  for (const { column, multiples } of columns.collinear) {
    const implied = multiples.reduce((sum, multiple, k) => sum + multiple * kept[k]!, 0);
    if (Math.abs(implied - all[column]!) > 1e-8 * Math.max(largest, Math.abs(implied))) return undefined;
  }
  return kept;
}
