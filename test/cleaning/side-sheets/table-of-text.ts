import { openSheet } from "../../../src/csv/open-sheet.ts";
import type { RawTable } from "../../../src/records/sheet.ts";
import { sourceOf } from "../../csv/source-of.ts";

/** A sheet typed in a test as the table that a file of it gives. */
export async function tableOfText(text: string, path = "sheet.csv"): Promise<RawTable> {
  const { tables, issues } = await openSheet(sourceOf(text, path));
  const [table] = tables;
  if (table === undefined) throw new Error(`no table: ${issues.map(({ reason }) => reason).join("; ")}`);
  return table;
}

/** A table of the cells given, one row under the other below its header. */
export const tableOf = (
  file: string,
  header: ReadonlyArray<string>,
  rows: ReadonlyArray<ReadonlyArray<string>>,
  headerRow = 1,
): RawTable => ({
  file,
  header: [...header],
  headerRow,
  forEachRow: (visit) => rows.forEach((cells, at) => void visit([...cells], at + headerRow + 1)),
});
