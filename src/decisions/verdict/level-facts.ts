import { stratifiedAssociation, stratifiedTrend } from "../../statistics/counts/stratified-association.ts";
import { fUpperTail } from "../../statistics/distributions/f.ts";
import { type Cell, type CellTable, levelsOf, type PlacedTray } from "./cell-table.ts";
import type { Level, LevelFacts, LossTrend } from "./decision.ts";

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

/** Cooks without any excess that the spread of losses over cooks is drawn to; the decision about the dose does the same. */
const steadyCooks = 4;

/** Whether losses go with the level, in some groups together or in one of them. */
interface LevelTest {
  /** where levels are in order: above 0 when more are lost at higher ones */
  z?: number;
  chiSquare: number;
  degreesOfFreedom: number;
  p: number;
}

function testLosses(levels: ReadonlyArray<Level>, groups: ReadonlyArray<ReadonlyArray<Cell>>): LevelTest | undefined {
  return stratifiedAssociation(
    groups.map((own) => {
      const events = levels.map(() => 0);
      const trials = levels.map(() => 0);
      for (const cell of own) {
        events[cell.level] = cell.lost;
        trials[cell.level] = cell.lost + cell.count;
      }
      return { events, trials };
    }),
  );
}

function testLossTrend(
  levels: ReadonlyArray<Level>,
  groups: ReadonlyArray<ReadonlyArray<Cell>>,
): LevelTest | undefined {
  const trend = stratifiedTrend(
    groups.map((own) => ({
      events: own.map((cell) => cell.lost),
      trials: own.map((cell) => cell.lost + cell.count),
      scores: own.map(({ level }) => (typeof levels[level] === "number" ? (levels[level] as number) : level)),
    })),
  );
  return trend && { z: trend.z, chiSquare: trend.z ** 2, degreesOfFreedom: 1, p: trend.p };
}

/**
 * Whether losses go with the level, compared inside groups. Trays of one level in one cook may share what lost them (a jar of
 * their own), and then the groups differ more among themselves than trays lost one by one: what the groups say is taken
 * less sure by that much, drawn to none where groups are few.
 * @param table of the trays that count, lost ones included
 * @returns undefined with fewer than three lost trays, or where no group shows it
 * @source Mantel 1963, Journal of the American Statistical Association 58:690-700; division by X² over its degrees of freedom:
 *   Wedderburn 1974, Biometrika 61:439-447; the F distribution of a ratio so divided: textbook; drawing it to four cooks
 *   without excess is the project's own. With trays of one dose and cook alike by .2 (.4), 4 to 12 cooks of 6 to 12 trays:
 *   false in 2 to 8 (4 to 15) %, 8 to 19 (15 to 31) undivided; a dose that multiplies the odds by 4.5 found in 29 to 59 %,
 *   51 to 69 undivided
 */
export function lossTrend({ levels, groupCount, cells }: CellTable, ordered: boolean): LossTrend | undefined {
  const lost = cells.reduce((sum, cell) => sum + cell.lost, 0);
  if (lost < fewestLost) return undefined;
  const byGroup = Array.from({ length: groupCount }, () => [] as Cell[]);
  for (const cell of cells) byGroup[cell.group]!.push(cell);
  const test = ordered ? testLossTrend : testLosses;
  const all = test(levels, byGroup);
  if (all === undefined) return undefined;
  let [excess, freedom] = [steadyCooks - all.chiSquare, steadyCooks - all.degreesOfFreedom];
  for (const group of byGroup) {
    const own = test(levels, [group]);
    if (own === undefined) continue;
    excess += own.chiSquare;
    freedom += own.degreesOfFreedom;
  }
  freedom = Math.max(1, freedom);
  const ratio = all.chiSquare / all.degreesOfFreedom / Math.max(1, excess / freedom);
  return {
    lost,
    ...(all.z === undefined ? {} : { z: all.z }),
    p: fUpperTail(ratio, all.degreesOfFreedom, freedom),
    pOneByOne: all.p,
  };
}
