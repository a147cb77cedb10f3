import { stratifiedAssociation, stratifiedTrend } from "../../statistics/counts/stratified-association.ts";
import { type CellTable, levelsOf, type PlacedTray } from "./cell-table.ts";
import type { LevelFacts, LossTrend } from "./decision.ts";

/** Fewest lost trays whose trend is judged. */
const fewestLost = 3;
/** Significance at which losses go with the level. */
export const lossesAt = 0.05;

/** Every level's trays, mean and losses. */
export function levelFacts(trays: ReadonlyArray<PlacedTray>): LevelFacts[] {
  const levels = levelsOf(trays);
  const position = new Map(levels.map((level, i) => [level, i]));
  const facts = levels.map((level): LevelFacts => ({ level, started: 0, lost: 0, values: [] }));
  for (const { tray } of trays) {
    const own = facts[position.get(tray.level)!]!;
    const pooled = tray.pooled ?? 1;
    own.started += pooled;
    if (tray.value === "lost") own.lost += pooled;
    else own.values.push({ row: tray.row, value: tray.value, pooled });
  }
  for (const own of facts) {
    const good = own.started - own.lost;
    if (good > 0) own.mean = own.values.reduce((sum, { value, pooled }) => sum + value * pooled, 0) / good;
  }
  return facts;
}

/**
 * Whether losses go with the level, compared inside groups.
 * @param table of the trays that count, lost ones included
 * @returns undefined with fewer than three lost trays, or where no group shows it
 * @source Mantel 1963, Journal of the American Statistical Association 58:690-700
 */
export function lossTrend({ levels, groupCount, cells }: CellTable, ordered: boolean): LossTrend | undefined {
  const lost = cells.reduce((sum, cell) => sum + cell.lost, 0);
  if (lost < fewestLost) return undefined;
  const byGroup = Array.from({ length: groupCount }, () => [] as typeof cells);
  for (const cell of cells) byGroup[cell.group]!.push(cell);
  if (ordered) {
    const trend = stratifiedTrend(
      byGroup.map((own) => ({
        events: own.map((cell) => cell.lost),
        trials: own.map((cell) => cell.lost + cell.count),
        scores: own.map(({ level }) => (typeof levels[level] === "number" ? (levels[level] as number) : level)),
      })),
    );
    return trend === undefined ? undefined : { lost, z: trend.z, p: trend.p };
  }
  const association = stratifiedAssociation(
    byGroup.map((own) => {
      const events = levels.map(() => 0);
      const trials = levels.map(() => 0);
      for (const cell of own) {
        events[cell.level] = cell.lost;
        trials[cell.level] = cell.lost + cell.count;
      }
      return { events, trials };
    }),
  );
  return association === undefined ? undefined : { lost, p: association.p };
}
