import { type HarvestFieldKey, harvestField } from "../../records/harvest-field.ts";
import { type CellClass, fits } from "./cell-class.ts";
import type { ColumnMeaning } from "./column-plan.ts";

/** What the cells of a column look like. */
export interface ColumnProfile {
  /** its different texts, by what they look like */
  counts: Readonly<Partial<Record<CellClass, number>>>;
  /** cells with something in them, and how many of those texts differ */
  filled: number;
  distinct: number;
  /** different texts that name a loss beyond doubt, or are a tick or a cross; and those that say anything of a tray's end */
  losses: number;
  outcomes: number;
  /** different texts that begin with a yes or a no; and those that begin with a no */
  answers: number;
  refusals: number;
  /** different numbers above 30 */
  high: number;
  /** the largest plain number; 0 where there is none */
  most: number;
  /** whether each cell is so many of so many, such as "5/6" */
  areParts: boolean;
  /** the plain numbers of its first rows, NaN where a cell is none */
  start: ReadonlyArray<number>;
}

/** How well a field's kind is served by a column's cells, 0 to 1; 0.5 for a column with nothing in it. */
export function fitness(field: HarvestFieldKey, { counts }: ColumnProfile): number {
  const { kind } = harvestField(field);
  let served = 0;
  let cells = 0;
  for (const [cell, count] of Object.entries(counts) as [CellClass, number][]) {
    if (cell === "empty") continue;
    served += fits(kind, cell) * count;
    cells += count;
  }
  return cells === 0 ? 0.5 : served / cells;
}

/** The one meaning that a column's cells bear out, of equals the likelier one; several where they cannot tell. */
export function borneOut(meanings: ReadonlyArray<ColumnMeaning>, profile: ColumnProfile): ColumnMeaning[] {
  const scored = meanings
    .map((meaning) => ({ meaning, fit: fitness(meaning.field, profile) }))
    .sort((a, b) => b.fit - a.fit || b.meaning.rank - a.meaning.rank);
  const best = scored[0];
  if (best === undefined || best.fit < 0.25) return [];
  const near = scored.filter(({ fit }) => fit > best.fit - 0.1).map(({ meaning }) => meaning);
  const rank = Math.max(...near.map((meaning) => meaning.rank));
  // units in half of the cells: beside them the rest are words for an amount ("none"), not names
  const cells = Object.entries(profile.counts).reduce((sum, [cell, count]) => sum + (cell === "empty" ? 0 : count), 0);
  const measured = near.filter(({ field }) => {
    const { kind } = harvestField(field);
    return cells > 0 && (kind === "mass" || kind === "volume") && 2 * (profile.counts[kind] ?? 0) >= cells;
  });
  if (measured.length === 1) return measured;
  return near.filter((meaning) => meaning.rank === rank);
}
