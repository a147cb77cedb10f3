import { writeCsv } from "../csv/write-csv.ts";
import type { Issue } from "../records/issue.ts";

/** The columns of a written log, in order. */
export const logColumns = [
  "file",
  "row",
  "column",
  "tray",
  "raw",
  "result",
  "rule",
  "severity",
  "reason",
  "expected",
  "action",
  "setting",
] as const satisfies ReadonlyArray<keyof Issue>;

/** The log as a sheet: one row per entry, guarded against cells that a spreadsheet would run as formulas. */
export function issuesCsv(issues: ReadonlyArray<Issue>): string {
  function* rows(): Generator<string[]> {
    yield [...logColumns];
    for (const issue of issues) yield logColumns.map((column) => String(issue[column] ?? ""));
  }
  return writeCsv(rows(), { guard: true });
}
