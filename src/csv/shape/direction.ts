import type { SheetLayout } from "../../records/reading-plan.ts";
import { type CellKind, cellKind, isNothing } from "./cell-kind.ts";
import type { SheetRow } from "./grid.ts";
import type { SheetWords } from "./sheet-words.ts";
import { isLabelLike } from "./value-like.ts";

/** How well each way of lying fits a table, and which one is taken; `doubt` where two fit alike. */
export interface Direction {
  layout: Extract<SheetLayout, "rows" | "columns">;
  doubt: boolean;
}

const rowsScored = 40;
const nearTie = 0.15;

const filledOf = (cells: ReadonlyArray<string>): string[] =>
  cells.map((cell) => cell.trim()).filter((cell) => !isNothing(cell));

/** How alike the cells of a line are: the share of its commonest kind. Code and text count as one. */
function alike(cells: ReadonlyArray<string>): number | undefined {
  const counts = new Map<CellKind, number>();
  let filled = 0;
  for (const cell of cells) {
    const kind = cellKind(cell);
    if (kind === "blank") continue;
    const counted = kind === "code" ? "text" : kind;
    counts.set(counted, (counts.get(counted) ?? 0) + 1);
    filled++;
  }
  return filled < 2 ? undefined : Math.max(...counts.values()) / filled;
}

const mean = (values: ReadonlyArray<number | undefined>): number => {
  const known = values.filter((value) => value !== undefined);
  return known.length === 0 ? 0.5 : known.reduce((sum, value) => sum + value, 0) / known.length;
};

/** How much a row reads like names of columns, which are all different. */
function headerShare(cells: string[], words: SheetWords): number {
  const filled = filledOf(cells);
  return filled.length === 0 ? 0 : (words.looksLikeHeader(cells) * new Set(filled).size) / filled.length;
}

const isKnownName = (name: string, words: SheetWords): boolean =>
  isLabelLike(name) && words.columnSort(name, true) !== undefined;

/** The different names of columns among cells, as they are written. */
const knownNames = (cells: ReadonlyArray<string>, words: SheetWords): Set<string> =>
  new Set(cells.filter((cell) => isKnownName(cell, words)).map((cell) => cell.toLowerCase()));

/** A card for each tray, one below the other: names and values in two columns, where the names begin again. */
const isOfCards = (rows: ReadonlyArray<SheetRow>): boolean =>
  rows.every(({ cells }) => filledOf(cells).length === 2) && blocksOf(rows).length > 1;

/**
 * Whether the trays of a table are its rows or its columns: by how many names along its first row and its first column the
 * trade knows, and by how alike the kinds of cells are down the columns and along the rows.
 * @param sample the first rows that are not blank
 */
export function directionOf(sample: ReadonlyArray<SheetRow>, words: SheetWords): Direction {
  let rows = sample.filter(({ cells }) => filledOf(cells).length >= 2).slice(0, rowsScored);
  const widest = Math.max(0, ...rows.map(({ cells }) => filledOf(cells).length));
  const header = rows.slice(0, 12).findIndex(({ cells }) => {
    const filled = filledOf(cells);
    return filled.length >= 3 && filled.length >= 0.6 * widest && headerShare(cells, words) >= 0.6;
  });
  // what stands above a header says nothing of the direction
  if (header > 0) rows = rows.slice(header);
  if (rows.length < 2) return { layout: "rows", doubt: false };
  const top = filledOf(rows[0]!.cells);
  if (top.length >= 2 && words.isTidy(top)) return { layout: "rows", doubt: false };
  const first = Math.min(...rows.map(({ cells }) => cells.findIndex((cell) => !isNothing(cell.trim()))));
  const names = rows.map(({ cells }) => (cells[first] ?? "").trim()).filter((cell) => cell !== "");
  // a list of prices names things that trays are made of
  if (top.some(words.isMoney) && !names.some(words.isMoney)) return { layout: "rows", doubt: false };
  const known = names.filter((name) => isKnownName(name, words));
  const distinct = knownNames(names, words).size;
  const downNames = names.length === 0 ? 0 : known.length / names.length;
  if (distinct < 2 || downNames < 0.4) return { layout: "rows", doubt: false };
  if (isOfCards(rows)) return { layout: "columns", doubt: false };
  // of one or two trays the few names down the first column are no match for a whole row of them
  const topKnown = knownNames(top, words);
  if (topKnown.size >= 3 && topKnown.size > distinct && topKnown.size >= 0.6 * top.length) {
    return { layout: "rows", doubt: false };
  }
  const across = rows.slice(0, 8).map(({ cells }) => headerShare(cells, words));
  const best = Math.max(...across);
  if (best >= 0.75 && downNames < 0.75) return { layout: "rows", doubt: false };
  const body = rows.filter((_, index) => across[index]! < best || index > 8);
  const width = Math.max(...rows.map(({ cells }) => cells.length));
  const down = Array.from({ length: width - first - 1 }, (_, column) =>
    alike(body.map(({ cells }) => cells[first + 1 + column] ?? "")),
  );
  const along = rows.map(({ cells }) => alike(cells.slice(first + 1)));
  // names that come again and again are values of a column, not names of rows
  const repeated = distinct / Math.max(1, known.length);
  const asColumns = downNames * repeated + mean(along);
  const asRows = best + mean(down);
  if (Math.abs(asColumns - asRows) <= nearTie && best >= 0.5 && repeated > 0.8) return { layout: "rows", doubt: true };
  return { layout: asColumns > asRows ? "columns" : "rows", doubt: false };
}

/**
 * Turns rows into columns. The row number of a turned row is the number of its column in the sheet, from 1.
 */
export function turned(rows: ReadonlyArray<SheetRow>): SheetRow[] {
  const width = Math.max(0, ...rows.map(({ cells }) => cells.length));
  const result: SheetRow[] = [];
  for (let column = 0; column < width; column++) {
    const cells = rows.map((row) => row.cells[column] ?? "");
    if (cells.some((cell) => cell.trim() !== "")) result.push({ cells, row: column + 1 });
  }
  return result;
}

/** Cuts rows whose names stand in the first column where the names begin again: one block for each table. */
export function blocksOf(rows: ReadonlyArray<SheetRow>): SheetRow[][] {
  const blocks: SheetRow[][] = [[]];
  let seen = new Set<string>();
  let waiting: SheetRow[] = [];
  for (const row of rows) {
    const filled = filledOf(row.cells);
    if (filled.length < 2) {
      waiting.push(row);
      continue;
    }
    const name = row.cells
      .find((cell) => !isNothing(cell.trim()))!
      .trim()
      .toLowerCase();
    if (seen.has(name) && seen.size >= 2 && [...seen][0] === name) {
      blocks.push([]);
      seen = new Set();
    }
    blocks.at(-1)!.push(...waiting, row);
    waiting = [];
    seen.add(name);
  }
  blocks.at(-1)!.push(...waiting);
  return blocks.filter((block) => block.length > 0);
}
