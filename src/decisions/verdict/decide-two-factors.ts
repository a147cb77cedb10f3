import { type Cell, type CellTable, cellTable, levelsOf, type PlacedTray } from "./cell-table.ts";
import { compareNamesInside } from "./compare-names.ts";
import type { ComparedTray, VerdictSettings } from "./compared-tray.ts";
import { orderedDecision } from "./decide-comparison.ts";
import { namedDecision } from "./decide-unordered.ts";
import type { Decision, Interval, Level } from "./decision.ts";
import { intervalOf } from "./estimate.ts";
import { fillSettings, inRowOrder } from "./fill-settings.ts";
import { groupTrays } from "./group-trays.ts";

/** A tray of a trial that varied two things. */
export interface TwoFactorTray extends ComparedTray {
  /** the level of the second thing; `level` is that of the first */
  other: Level;
}

/** Whether the first thing's difference depends on the second. A by-question: it has a p, no verdict of its own. */
export interface Interaction {
  p: number;
  /** cooks with every combination that is compared */
  cooks: number;
  /** highest less lowest level of the first thing at each level of the second */
  differences: { other: Level; estimate: number }[];
  /** with two levels of the second thing: last less first of these, with its 95 % interval */
  differenceOfDifferences?: { estimate: number; interval: Interval };
}

/** Decisions on two things varied in one trial, each with the other taken out. */
export interface TwoFactorDecision {
  first: Decision;
  second: Decision;
  interaction?: Interaction;
}

/** Fewest complete cooks from which a dependence is judged. */
const completeCooks = 3;

/**
 * Decides on two things that one trial varied: each by its own layout, the other taken out inside cooks where it differs there
 * and between cooks where it does not. What two things do not let tell apart is left out, or not told at all.
 * @param trays as for `decideComparison`, with both levels; numbers are ordered, names are not
 * @param settings of the first thing; `ofSecond` overrides them for the second
 * @throws RangeError as `decideComparison`
 * @source additive least squares; Yates 1935, Supplement to the Journal of the Royal Statistical Society 2:181-247 (difference of
 *   differences); the choice of trays is the project's own (test/simulation)
 * @example decideTwoFactors(comparedTrays.map((tray) => ({ ...tray, other: "bran" }))).second.caps[0]?.reason // "one-level"
 */
export function decideTwoFactors(
  trays: ReadonlyArray<TwoFactorTray>,
  settings: VerdictSettings = {},
  ofSecond: VerdictSettings = {},
): TwoFactorDecision {
  const swapped = trays.map((tray): TwoFactorTray => ({ ...tray, level: tray.other, other: tray.level }));
  const interaction = interactionOf(trays, swapped, settings);
  return {
    first: decideBeside(trays, settings),
    second: decideBeside(swapped, { ...settings, ...ofSecond }),
    ...(interaction === undefined ? {} : { interaction }),
  };
}

const otherOf = ({ tray }: PlacedTray): string => String((tray as TwoFactorTray).other);
const isOrdered = (trays: ReadonlyArray<ComparedTray>): boolean =>
  trays.every(({ level }) => typeof level === "number");

function decideBeside(trays: ReadonlyArray<TwoFactorTray>, settings: VerdictSettings): Decision {
  return isOrdered(trays) ? orderedDecision(trays, settings, otherOf) : namedDecision(trays, settings, otherOf);
}

/** Judges the thing whose two ends can be compared; of two names with more than two levels each there is none. */
function interactionOf(
  trays: ReadonlyArray<TwoFactorTray>,
  swapped: ReadonlyArray<TwoFactorTray>,
  settings: VerdictSettings,
): Interaction | undefined {
  for (const way of [trays, swapped]) {
    if (!isOrdered(way) && new Set(way.map(({ level }) => level)).size > 2) continue;
    const found = differencesByOther(inRowOrder(way) as TwoFactorTray[], settings);
    if (found !== undefined) return found;
  }
  return undefined;
}

function differencesByOther(trays: ReadonlyArray<TwoFactorTray>, settings: VerdictSettings): Interaction | undefined {
  const good = groupTrays(trays).trays.filter(({ tray }) => tray.value !== "lost");
  const levels = levelsOf(good);
  const others = levelsOf(good.map((placed) => ({ tray: { ...placed.tray, level: otherLevel(placed) }, group: 0 })));
  if (levels.length < 2 || others.length < 2) return undefined;
  const table = endsTable(good, levels, others);
  if (table === undefined) return undefined;
  const found = compareNamesInside(table, fillSettings(settings));
  if (found?.p === undefined) return undefined;
  const differences = others.map((other, i) => ({ other, estimate: found.adjusted[i]! }));
  if (others.length > 2) return { p: found.p, cooks: found.cooks, differences };
  const { settled } = found.contrast([-1, 1]);
  return {
    p: found.p,
    cooks: found.cooks,
    differences,
    differenceOfDifferences: { estimate: settled.estimate, interval: intervalOf(settled) },
  };
}

const otherLevel = ({ tray }: PlacedTray): Level => (tray as TwoFactorTray).other;

/** Highest less lowest level by cook and other level, of the cooks that have them all. */
function endsTable(
  good: ReadonlyArray<PlacedTray>,
  levels: ReadonlyArray<Level>,
  others: ReadonlyArray<Level>,
): CellTable | undefined {
  const ends = [levels[0]!, levels.at(-1)!];
  const byCook = new Map<number, PlacedTray[]>();
  for (const placed of good) {
    if (!ends.includes(placed.tray.level)) continue;
    const own = byCook.get(placed.group);
    if (own === undefined) byCook.set(placed.group, [placed]);
    else own.push(placed);
  }
  const cells: Cell[] = [];
  let group = 0;
  for (const own of byCook.values()) {
    const rows = others.map((other, level) => {
      const { cells: both } = cellTable(
        own.filter((placed) => otherLevel(placed) === other).map(({ tray }) => ({ tray, group: 0 })),
      );
      return both.length < 2 ? undefined : cellOf(both[0]!, both[1]!, group, level);
    });
    if (rows.some((row) => row === undefined)) continue;
    cells.push(...(rows as Cell[]));
    group++;
  }
  if (group < completeCooks) return undefined;
  const mean = cells.reduce((sum, cell) => sum + cell.mean, 0) / cells.length;
  return { levels: [...others], groupCount: group, cells, mean };
}

function cellOf(low: Cell, high: Cell, group: number, level: number): Cell {
  return {
    group,
    level,
    count: 1 / (1 / low.count + 1 / high.count),
    mean: high.mean - low.mean,
    weighings: low.weighings + high.weighings - 1,
    squares: low.squares + high.squares,
    lost: 0,
  };
}
