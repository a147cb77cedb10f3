import type { ComparedTray } from "./compared-tray.ts";
import type { Level } from "./decision.ts";

/** The good trays of one level in one group. */
export interface Cell {
  group: number;
  level: number;
  /** good trays, pools counted by their size */
  count: number;
  mean: number;
  /** weighings, pools counted once */
  weighings: number;
  /** squares about the mean, each pool weighing its size */
  squares: number;
  /** lost trays */
  lost: number;
}

/** Trays sorted into groups and levels. */
export interface CellTable {
  /** numbers upwards, or names in code-point order */
  levels: Level[];
  groupCount: number;
  /** by group, then by level; cells without a good tray have count 0 */
  cells: Cell[];
  /** mean of all good trays */
  mean: number;
}

/** A tray that counts, with the group it stands in. */
export interface PlacedTray {
  tray: ComparedTray;
  group: number;
}

/** Distinct levels of some trays: numbers upwards, names by code point after them. */
export function levelsOf(trays: ReadonlyArray<PlacedTray>): Level[] {
  // a short list is gone through faster than a set is asked
  const few: Level[] = [];
  const more = new Set<Level>();
  for (const { tray } of trays) {
    if (few.includes(tray.level)) continue;
    if (few.length < mostLevels) few.push(tray.level);
    else more.add(tray.level);
  }
  return [...few, ...more].sort((a, b) =>
    typeof a === "number" && typeof b === "number" ? a - b : String(a) < String(b) ? -1 : 1,
  );
}

/** The place of each level among some; a short list is gone through faster than a map is asked. */
function numbersOf(levels: ReadonlyArray<Level>): (level: Level) => number {
  if (levels.length <= mostLevels) return (level) => levels.indexOf(level);
  const numbers = new Map(levels.map((level, i) => [level, i]));
  return (level) => numbers.get(level)!;
}

/** Mean of good trays, pools counted by their size; 0 without one. */
export function meanOfGood(trays: ReadonlyArray<PlacedTray>): number {
  let total = 0;
  let good = 0;
  for (const { tray } of trays) {
    if (tray.value === "lost") continue;
    const { pooled = 1 } = tray;
    total += pooled * tray.value;
    good += pooled;
  }
  return good === 0 ? 0 : total / good;
}

/**
 * Sorts trays into cells. Groups are numbered again in the order in which they come.
 * @param trays in row order
 */
export function cellTable(trays: ReadonlyArray<PlacedTray>): CellTable {
  const levels = levelsOf(trays);
  const numberOf = numbersOf(levels);
  const groupNumber = new Map<number, number>();
  const byGroup: Cell[][] = [];
  let total = 0;
  let good = 0;
  let [last, group]: [number | undefined, number] = [undefined, 0];
  for (const { tray, group: named } of trays) {
    if (named !== last) {
      group = groupNumber.get(named) ?? byGroup.length;
      if (group === byGroup.length) {
        groupNumber.set(named, group);
        byGroup.push([]);
      }
      last = named;
    }
    const { level, value, pooled = 1 } = tray;
    const cell = cellOf(byGroup[group]!, group, numberOf(level));
    if (value === "lost") cell.lost += pooled;
    else {
      addWeighing(cell, value, pooled);
      total += pooled * value;
      good += pooled;
    }
  }
  const cells: Cell[] = [];
  for (const own of byGroup) {
    own.sort((a, b) => a.level - b.level);
    for (const cell of own) cells.push(cell);
  }
  return { levels, groupCount: byGroup.length, cells, mean: good === 0 ? 0 : total / good };
}

/** The cell of a level among those of its group, made where there is none; groups have few levels. */
function cellOf(own: Cell[], group: number, level: number): Cell {
  for (const cell of own) if (cell.level === level) return cell;
  const cell = { group, level, count: 0, mean: 0, weighings: 0, squares: 0, lost: 0 };
  own.push(cell);
  return cell;
}

/** Running mean and squares. @source Welford 1962, Technometrics 4(3):419-420 */
function addWeighing(cell: Cell, value: number, size: number): void {
  cell.weighings++;
  cell.count += size;
  const before = value - cell.mean;
  cell.mean += (before * size) / cell.count;
  cell.squares += size * before * (value - cell.mean);
}

/**
 * Levels as amounts: the numbers themselves, or their ranks where the largest gap is over three times the smallest; names are
 * numbered.
 */
export function scoresOf(levels: ReadonlyArray<Level>): number[] {
  const numbers = levels.map((level, i) => (typeof level === "number" ? level : i));
  if (numbers.length < 3 || numbers.length > mostLevels) return numbers;
  const gaps = numbers.slice(1).map((value, i) => value - numbers[i]!);
  return Math.max(...gaps) > 3 * Math.min(...gaps) * (1 + 1e-9) ? numbers.map((_, i) => i) : numbers;
}

/** Beyond this many levels a number is judged by its trend alone. */
export const mostLevels = 12;

/** Spread of trays inside cells. */
export interface WithinCells {
  squares: number;
  degreesOfFreedom: number;
}

/** Pools the spread inside some cells. */
export function withinCells(cells: ReadonlyArray<Cell>): WithinCells {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const cell of cells) {
    if (cell.weighings === 0) continue;
    squares += cell.squares;
    degreesOfFreedom += cell.weighings - 1;
  }
  return { squares, degreesOfFreedom };
}
