import type { Book } from "../../records/book.ts";
import { fileName } from "../../records/file-stem.ts";
import { sourcesOf } from "../../records/tray.ts";
import type { Edits, SheetName } from "./live-sheet.ts";
import type { SavedBook } from "./saved-book.ts";

/** One file that the changes touch, and the rows of the live sheet that belong into it. */
export interface FileToSave {
  sheet: SheetName;
  /** the sheet's path in the book, without the tab of a workbook and the number of a table */
  source: string;
  /** what it is saved as: the source's own name where the saved file can stand in its place */
  name: string;
  /** whether the saved file can stand in the place of its source */
  replaces: boolean;
  /** places in the live sheet, added rows behind its own */
  rows: ReadonlySet<number>;
}

const pathOf = (file: string): string => file.replace(/ > .*$/, "").replace(/ \(table \d+\)$/, "");
const asFileName = (text: string): string =>
  text
    .normalize("NFC")
    .replaceAll(/[^\p{L}\p{N}._ ()-]+/gu, "-")
    .replace(/^[-.]+|[-. ]+$/g, "")
    .slice(0, 80) || "sheet";

/** Which files a row of a live sheet came from, its own first; none for settings and added rows. */
function filesOfRows({ book, sheets }: SavedBook, sheet: SheetName): string[][] {
  if (sheet === "costs") return (book.costLines ?? []).map(({ source }) => [pathOf(source.file)]);
  if (sheet === "products") return (book.products ?? []).map(({ source }) => [pathOf(source.file)]);
  if (sheet === "settings") return [];
  const files = new Map(book.trays.map((tray) => [tray.trayId, sourcesOf(tray).map(({ file }) => pathOf(file))]));
  return (sheets.trays?.rows ?? []).map(([tray = ""]) => files.get(tray) ?? []);
}

/** Files that share a tray are saved together: each file by the first of its family. */
function families(rows: ReadonlyArray<ReadonlyArray<string>>): (file: string) => string {
  const above = new Map<string, string>();
  const headOf = (file: string): string => {
    const next = above.get(file);
    return next === undefined ? file : headOf(next);
  };
  for (const [first, ...others] of rows) {
    for (const other of others) {
      const [a, b] = [headOf(first!), headOf(other)];
      if (a !== b) above.set(b, a);
    }
  }
  return headOf;
}

function touchedRows(sheet: SheetName, edits: Edits, rows: ReadonlyArray<ReadonlyArray<string>>): Set<number> {
  const asideTrays = new Set(edits.aside.map(({ tray }) => tray));
  return new Set([
    ...edits.cells.flatMap((cell) => (cell.sheet === sheet ? [cell.row] : [])),
    ...edits.deleted.flatMap((place) => (place.sheet === sheet ? [place.row] : [])),
    ...(sheet === "trays" ? rows.flatMap(([tray = ""], row) => (asideTrays.has(tray) ? [row] : [])) : []),
  ]);
}

/** The files of a book that hold more than one kind of sheet, and workbooks: a CSV file cannot stand in their place. */
function notReplaceable({ trays, costLines = [], products = [] }: Book): (path: string) => boolean {
  const kinds = new Map<string, Set<string>>();
  const note = (kind: string, file: string): void => {
    kinds.set(pathOf(file), (kinds.get(pathOf(file)) ?? new Set()).add(kind));
  };
  for (const tray of trays) for (const { file } of sourcesOf(tray)) note("trays", file);
  for (const { source } of costLines) note("costs", source.file);
  for (const { source } of products) note("products", source.file);
  return (path) => (kinds.get(path)?.size ?? 0) > 1 || !/\.(?:csv|tsv|tab|txt)$/i.test(path);
}

/**
 * The files that changes touch, one per source file, so that they can take the places of the originals. Rows of a tray
 * that several files speak of go to the first of these, and all of them are saved. Added rows go to the sheet's last file.
 */
export function filesToSave(saved: SavedBook, edits: Edits): FileToSave[] {
  const { book, sheets } = saved;
  const isShared = notReplaceable(book);
  return (["trays", "costs", "products", "settings"] as const).flatMap((sheet): FileToSave[] => {
    const own = sheets[sheet]?.rows ?? [];
    const touched = touchedRows(sheet, edits, own);
    if (touched.size === 0) return [];
    const sources = filesOfRows(saved, sheet);
    const files = [...new Set(sources.flat())];
    const usual = sheet === "trays" ? "trays.csv" : `${sheet}.csv`;
    if (files.length === 0) files.push(usual);
    const last = files.at(-1)!;
    const count = own.length + (edits.added[sheet] ?? 0);
    const fileOf = (row: number): string => sources[row]?.[0] ?? last;
    const headOf = families(sources);
    const wanted = new Set([...touched].map((row) => headOf(fileOf(row))));
    const names = files.map(fileName);
    return files
      .filter((file) => wanted.has(headOf(file)))
      .map((source) => {
        const replaces = !isShared(source);
        const base = fileName(source);
        const isTwice = names.indexOf(base) !== names.lastIndexOf(base);
        const stem = (isTwice ? source : base).replace(/\.[^./]*$/, "");
        return {
          sheet,
          source,
          name: replaces && !isTwice ? base : `${asFileName(stem)}${replaces ? "" : `-${sheet}`}.csv`,
          replaces: replaces && !isTwice,
          rows: new Set(Array.from({ length: count }, (_, row) => row).filter((row) => fileOf(row) === source)),
        };
      });
  });
}
