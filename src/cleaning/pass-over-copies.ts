import type { SheetWords } from "../csv/shape/sheet-words.ts";
import type { Issue } from "../records/issue.ts";
import type { RawTable } from "../records/sheet.ts";
import { cleaningIssue } from "./cleaning-issue.ts";
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

/** Whether one table says of the same trays the same as the other, with most of its numbers found there. */
function isCopyOf(copy: TrayNumbers, original: TrayNumbers, saysSo: boolean): boolean {
  if (copy.size < 3 || copy.size !== original.size) return false;
  let numbers = 0;
  let found = 0;
  for (const [name, own] of copy) {
    const there = original.get(name);
    if (there === undefined) return false;
    for (const number of own) {
      numbers++;
      if (there.has(number)) found++;
    }
  }
  return numbers > 0 && found >= (saysSo ? 0.2 : 0.6) * numbers;
}

/**
 * Passes over a cleaned copy that lies beside the sheet it was made from, so that no tray is read twice. A copy is a
 * sheet of this program's own columns with the same trays and numbers; the sheet as typed is the one that is read.
 * @returns the tables left, in their order, and one entry of the log for each passed over
 */
export function passOverCopies(tables: ReadonlyArray<RawTable>): { kept: RawTable[]; issues: Issue[] } {
  const issues: Issue[] = [];
  if (tables.length < 2) return { kept: [...tables], issues };
  const words = harvestWords();
  const isTidy = (table: RawTable): boolean => words.isTidy(table.header.filter((name) => name !== ""));
  const tidy = tables.filter(isTidy);
  if (tidy.length === 0) return { kept: [...tables], issues };
  const numbers = new Map<RawTable, TrayNumbers | undefined>();
  const of = (table: RawTable): TrayNumbers | undefined => {
    if (!numbers.has(table)) numbers.set(table, numbersOf(table, words));
    return numbers.get(table);
  };
  const passed = new Set<RawTable>();
  for (const copy of tidy) {
    const saysSo = namedCopy.test(copy.file.split("/").at(-1)!);
    const original = tables.find((table) => {
      if (table === copy || passed.has(table) || (isTidy(table) && !saysSo)) return false;
      const [a, b] = [of(copy), of(table)];
      return a !== undefined && b !== undefined && isCopyOf(a, b, saysSo);
    });
    if (original === undefined) continue;
    passed.add(copy);
    issues.push(
      cleaningIssue({
        file: copy.file,
        rule: "copy-passed-over",
        severity: "note",
        raw: original.file,
        reason: `it holds the same trays as ${original.file}, cleaned; it was passed over so that no tray is read twice`,
        action: `To read this one instead, move ${original.file} out of the book`,
      }),
    );
  }
  return { kept: tables.filter((table) => !passed.has(table)), issues };
}
