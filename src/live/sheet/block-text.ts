import Papa from "papaparse";
import { withGuard, withoutGuard } from "../../csv/formula-guard.ts";

/**
 * Cells as tab-separated text that a spreadsheet takes as a block. A cell it would run as a formula is guarded.
 * @example blockText([["a", "=1+1"]]) // "a\t'=1+1"
 */
export function blockText(cells: ReadonlyArray<ReadonlyArray<string>>): string {
  const quoted = (cell: string) => (/["\t\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
  return cells.map((row) => row.map((cell) => quoted(withGuard(cell))).join("\t")).join("\n");
}

/** The cells of a block of text as spreadsheets copy it: tabs between cells, line breaks between rows, quotes round both. */
export function cellsOfBlock(text: string): string[][] {
  const { data } = Papa.parse<string[]>(text.replace(/\r?\n$/, ""), { delimiter: "\t" });
  return data.map((row) => row.map((cell) => withoutGuard(cell)));
}
