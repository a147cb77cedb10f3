import type { SheetWords } from "../csv/shape/sheet-words.ts";
import { fileName } from "../records/file-stem.ts";
import { addTo } from "../records/grouped.ts";
import type { Issue } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { RawTable } from "../records/sheet.ts";
import { harvestWords } from "./columns/harvest-words.ts";

/** The trays a table names, each with the numbers of its row as typed. */
type TrayNumbers = Map<string, Set<string>>;

/** A tray's name without case, spaces and leading noughts. */
const foldedName = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[\s_./-]+/g, "")
    .replace(/(^|\D)0+(?=\d)/g, "$1");

function numbersOf({ header, forEachRow }: RawTable, words: SheetWords): TrayNumbers | undefined {
  const tray = header.findIndex((name) => name !== "" && words.columnSort(name) === "tray");
  if (tray < 0) return undefined;
  const trays: TrayNumbers = new Map();
  forEachRow((cells) => {
    const name = foldedName(cells[tray]!);
    const own = trays.get(name) ?? new Set<string>();
    trays.set(name, own);
    for (const [column, cell] of cells.entries()) {
      if (column === tray) continue;
      for (const [digits] of cell.matchAll(/\d+(?:[.,]\d+)?/g)) own.add(digits.replace(",", "."));
    }
  });
  return trays;
}

const namedCopy = /clean|fixed|tidy|copy|kopie|copie|copia|bereinigt|(?:^|[^a-z])fix(?:$|[^a-z])/i;

/** Whether a table says of its trays the same as another one of the same trays, with most of its numbers found there. */
function isCopyOf(copy: TrayNumbers, original: TrayNumbers, saysSo: boolean): boolean {
  let numbers = 0;
  let found = 0;
  for (const [name, own] of copy) {
    const there = original.get(name)!;
    for (const number of own) {
      numbers++;
      if (there.has(number)) found++;
    }
  }
  return numbers > 0 && found >= (saysSo ? 0.2 : 0.6) * numbers;
}

interface NamedTable {
  table: RawTable;
  trays: TrayNumbers;
}

/** Tables of three trays or more by the names of their trays: a copy has those of its original. */
function byTheirTrays(tables: ReadonlyArray<RawTable>, words: SheetWords): NamedTable[][] {
  const alike = new Map<string, NamedTable[]>();
  for (const table of tables) {
    const trays = numbersOf(table, words);
    if (trays === undefined || trays.size < 3) continue;
    addTo(alike, [...trays.keys()].sort().join("\n"), { table, trays });
  }
  return [...alike.values()];
}

/**
 * Passes over a cleaned copy that lies beside the sheet it was made from, so that no tray is read twice. A copy is a
 * sheet of this program's own columns with the same trays and numbers; the sheet as typed is the one that is read.
 * @returns the tables left, in their order, and one entry of the log for each passed over
 */
export function passOverCopies(tables: ReadonlyArray<RawTable>): { kept: RawTable[]; issues: Issue[] } {
  const words = harvestWords();
  const tidy = new Set(tables.filter(({ header }) => words.isTidy(header.filter((name) => name !== ""))));
  const saysSo = ({ file }: RawTable): boolean => namedCopy.test(fileName(file));
  // of two sheets of our own columns none is a copy unless its name says so
  const mayHoldCopies = tidy.size > 0 && (tidy.size < tables.length || (tidy.size > 1 && [...tidy].some(saysSo)));
  const originals = new Map<RawTable, RawTable>();
  for (const alike of mayHoldCopies ? byTheirTrays(tables, words) : []) {
    const typed = alike.filter(({ table }) => !tidy.has(table));
    for (const { table: copy, trays } of alike) {
      if (!tidy.has(copy)) continue;
      const named = saysSo(copy);
      const original = (named ? alike : typed).find(
        ({ table, trays: its }) => table !== copy && !originals.has(table) && isCopyOf(trays, its, named),
      );
      if (original !== undefined) originals.set(copy, original.table);
    }
  }
  const issues = tables.flatMap((copy) => {
    const original = originals.get(copy)?.file;
    if (original === undefined) return [];
    const reason = `it holds the same trays as ${original}, cleaned; it was passed over so that no tray is read twice`;
    const action = `To read this one instead, move ${original} out of the book`;
    const { file } = copy;
    return [logEntry({ file, rule: "copy-passed-over", severity: "note", raw: original, reason, action })];
  });
  return { kept: tables.filter((table) => !originals.has(table)), issues };
}
