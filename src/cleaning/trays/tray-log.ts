import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Issue } from "../../records/issue.ts";
import type { RowSource } from "../../records/tray.ts";

/** What putting trays together needs to know of the sheets, and where it writes its part of the log. */
export interface TrayLog {
  /** the header over a field in a file, as typed; "" when it has none */
  headerOf(file: string, field: HarvestFieldKey): string;
  /** whether a file has a column of outcomes */
  hasOutcomes(file: string): boolean;
  /** a column of a file that may tell what became of its trays and is not read until the grower says what it is; "" for none */
  unreadEnding(file: string): string;
  add(issue: Issue): void;
}

/** Writes one entry about a field of a tray, at one of its rows. */
export function logAtRow(
  log: TrayLog,
  tray: string,
  { file, row }: RowSource,
  field: HarvestFieldKey | "",
  entry: Pick<Issue, "rule" | "severity" | "reason"> & Partial<Issue>,
): void {
  const column = field === "" ? "" : log.headerOf(file, field);
  log.add({ file, row, column, tray, raw: "", result: "", expected: "", action: "", ...entry });
}
