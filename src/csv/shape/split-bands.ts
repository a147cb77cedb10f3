import { summaryKind } from "../../records/words/summary-label.ts";
import { isNothing } from "./cell-kind.ts";
import { findHeader } from "./find-header.ts";
import type { SheetRow } from "./grid.ts";
import { namesUnits } from "./join-columns.ts";
import type { ColumnSort, SheetWords } from "./sheet-words.ts";
import { namesSpread } from "./summary-words.ts";

/** Columns from the first up to the one before the last. */
export type ColumnRange = readonly [from: number, to: number];

/** A band of columns next to the table, and why it is not part of it. */
export interface SideBand {
  range: ColumnRange;
  why: "table" | "list" | "stray";
}

const slice = (rows: ReadonlyArray<SheetRow>, [from, to]: ColumnRange): SheetRow[] =>
  rows
    .map(({ cells, row }) => ({ cells: cells.slice(from, to), row }))
    .filter(({ cells }) => cells.some((cell) => !isNothing(cell.trim())));

/** The stretches of columns between columns that are blank from top to bottom. */
function stretches(rows: ReadonlyArray<SheetRow>): ColumnRange[] {
  const used: boolean[] = [];
  for (const { cells } of rows) {
    for (let column = 0; column < cells.length; column++) if (cells[column]!.trim() !== "") used[column] = true;
  }
  const ranges: [number, number][] = [];
  for (let column = 0; column < used.length; column++) {
    if (used[column] !== true) continue;
    const last = ranges.at(-1);
    if (last !== undefined && last[1] === column) last[1] = column + 1;
    else ranges.push([column, column + 1]);
  }
  return ranges;
}

const sortsOf = (names: ReadonlyArray<string>, words: SheetWords): Map<string, ColumnSort> =>
  new Map(
    names.flatMap((name) => {
      // "Unit" may be a tray, and beside numbers holds their units
      const sort = name === "" || namesUnits(name) ? undefined : words.columnSort(name);
      return sort === undefined ? [] : [[name.toLowerCase(), sort] as const];
    }),
  );

const namesMean = (name: string): boolean => namesSpread(name) || ["mean", "median"].includes(summaryKind(name) ?? "");

/** Whether names head a table of means: two of them name a mean, a count or a spread. */
const headsMeans = (names: ReadonlyArray<string>): boolean => names.filter(namesMean).length >= 2;

/** Whether the part right of a gap is something of its own, beside what stands left of it. */
function sideOf(
  left: ReadonlyArray<SheetRow>,
  right: ReadonlyArray<SheetRow>,
  words: SheetWords,
): SideBand["why"] | undefined {
  if (right.length === 0) return undefined;
  if (words.isOtherList(findHeader(right)?.names ?? [])) return "table";
  const leftHeader = findHeader(left, words);
  if (leftHeader === undefined) return undefined;
  const cells = right.reduce((sum, { cells: own }) => sum + own.filter((cell) => !isNothing(cell.trim())).length, 0);
  const rightHeader = findHeader(right, words);
  if (cells <= 2 && left.length > 3 && right[0]!.row > leftHeader.lastRow) return "stray";
  if (rightHeader === undefined) {
    // cells without names beside a table: remarks of a few rows, not a column
    return right[0]!.row > leftHeader.lastRow && right.length < 0.3 * left.length ? "stray" : undefined;
  }
  if (headsMeans(rightHeader.names)) return "list";
  const known = words.looksLikeHeader(rightHeader.names);
  const [mine, its] = [sortsOf(leftHeader.names, words), sortsOf(rightHeader.names, words)];
  const hasTrays = (sorts: ReadonlyMap<string, ColumnSort>) => [...sorts.values()].includes("tray");
  const again = [...its.keys()].filter((name) => mine.has(name)).length;
  if (known >= 0.5 && hasTrays(mine) && hasTrays(its)) return "table";
  const width = rightHeader.names.filter((name) => name !== "").length;
  if (width >= 2 && again >= 1 && again >= its.size / 2 && !hasTrays(its)) return known >= 0.5 ? "list" : undefined;
  const leftRows = new Set(left.filter(({ row }) => row > leftHeader.lastRow).map(({ row }) => row));
  const rightRows = right.filter(({ row }) => row > rightHeader.lastRow).map(({ row }) => row);
  const shared = rightRows.filter((row) => leftRows.has(row)).length / Math.max(1, leftRows.size);
  const elsewhere = rightHeader.lastRow !== leftHeader.lastRow;
  if (elsewhere && width >= 2) return hasTrays(its) ? "table" : "list";
  const block = rightRows.length > 0 && rightRows.at(-1)! - rightRows[0]! + 1 === rightRows.length;
  // "Dose, Avg" in fewer rows than there are trays
  if (width >= 2 && shared <= 0.6 && block && !hasTrays(its) && rightHeader.names.some(namesMean)) return "list";
  if (width >= 2 && shared < 0.6 && known < 0.5 && block && leftRows.size >= 4) return "list";
  return undefined;
}

/**
 * Finds what stands side by side in a sheet, apart by columns that are blank from top to bottom.
 * @param rows the first rows that are not blank
 * @returns the bands from left to right, the first one the table everything else is compared with; one where there is
 * only one table, gaps inside it included
 */
export function splitBands(rows: ReadonlyArray<SheetRow>, words: SheetWords): SideBand[] {
  const ranges = stretches(rows);
  const first = ranges[0];
  if (first === undefined || ranges.length === 1) return [];
  const bands: SideBand[] = [{ range: first, why: "table" }];
  for (const range of ranges.slice(1)) {
    const last = bands.at(-1)!;
    const why = sideOf(slice(rows, last.range), slice(rows, range), words);
    if (why === undefined) bands[bands.length - 1] = { ...last, range: [last.range[0], range[1]] };
    else bands.push({ range, why });
  }
  return bands;
}

/** Where the names of a header begin again ("Tray, Dose, Fresh, Tray, Dose, Fresh"): the parts, one where they do not. */
export function repeatedNames(names: ReadonlyArray<string>, words: SheetWords): ColumnRange[] {
  const first = names.findIndex((name) => name !== "");
  if (first < 0 || words.columnSort(names[first]!) !== "tray") return [];
  const key = names[first]!.toLowerCase();
  const starts = names.flatMap((name, index) => (name.toLowerCase() === key ? [index] : []));
  if (starts.length < 2) return [];
  const parts = starts.map((start, index): ColumnRange => [start, starts[index + 1] ?? names.length]);
  const namesOf = ([from, to]: ColumnRange) =>
    new Set(
      names
        .slice(from, to)
        .filter((name) => name !== "")
        .map((name) => name.toLowerCase()),
    );
  const model = namesOf(parts[0]!);
  const alike = parts.every((part) => {
    const own = namesOf(part);
    return own.size >= 2 && [...own].filter((name) => model.has(name)).length >= 0.6 * Math.max(own.size, 2);
  });
  return alike ? parts : [];
}
