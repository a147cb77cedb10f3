import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Issue } from "../../records/issue.ts";
import type { RowSource } from "../../records/tray.ts";
import type { LossBeside } from "./loss-words-beside.ts";
import type { TrayDraft } from "./tray-draft.ts";
import type { HeaderOf, PlacedTray, PlaceOf } from "./weight-places.ts";

/** What putting trays together needs to know of the sheets, and where it writes its part of the log. */
export interface TrayLog {
  /** the header over a field in a file, as typed; "" when it has none */
  headerOf: HeaderOf;
  placeOf: PlaceOf;
  /** whether a file has a column of outcomes */
  hasOutcomes(file: string): boolean;
  /** whether the column of outcomes of a file holds marks of the good trays */
  marksGood(file: string): boolean;
  /** a column of a file that may tell what became of its trays and is not read until the grower says what it is; "" for none */
  unreadEnding(file: string): string;
  /** one of two columns of outcomes in a file, of which none is read until the grower says which; "" for none */
  unreadOutcome(file: string): string;
  /** words beside the rows of a file, or its name, that tell of losses; "" for none */
  lossBesideRows(file: string): string;
  /** a loss typed in a column of names of the tray's rows */
  lossBeside(draft: TrayDraft): LossBeside | undefined;
  add(issue: Issue): void;
}

type Entry = Pick<Issue, "rule" | "severity" | "reason"> & Partial<Issue>;

/** Writes one entry about a weight or another fact of a tray, at the cell where it was typed. @param flush of which picking */
export function logAtCell(log: TrayLog, tray: PlacedTray, field: HarvestFieldKey, entry: Entry, flush?: number): void {
  const place = log.placeOf(tray, field, flush);
  log.add({ ...place, tray: tray.trayId, raw: "", result: "", expected: "", action: "", ...entry });
}

/** Writes one entry about a field of a tray, at one of its rows. */
export function logAtRow(
  log: TrayLog,
  tray: string,
  { file, row }: RowSource,
  field: HarvestFieldKey | "",
  entry: Entry,
): void {
  const column = field === "" ? "" : log.headerOf(file, field);
  log.add({ file, row, column, tray, raw: "", result: "", expected: "", action: "", ...entry });
}
