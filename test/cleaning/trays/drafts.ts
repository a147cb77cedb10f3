import type { TrayDraft } from "../../../src/cleaning/trays/tray-draft.ts";
import type { TrayLog } from "../../../src/cleaning/trays/tray-log.ts";
import { weightPlaces } from "../../../src/cleaning/trays/weight-places.ts";
import type { Issue } from "../../../src/records/issue.ts";

/** What one row of a.csv tells of tray T1: nothing but what is given. */
export const draftOf = (given: Partial<TrayDraft> = {}): TrayDraft => ({
  trayId: "T1",
  outcome: undefined,
  traysInPool: 1,
  flushes: [],
  factors: {},
  bounds: {},
  file: "a.csv",
  row: 2,
  sources: [],
  flags: [],
  ...given,
});

/** A log whose sheets have a column of each field under its own name, and what was written into it. */
export function logOf(own: Partial<TrayLog> = {}): { log: TrayLog; said: Issue[] } {
  const said: Issue[] = [];
  const headerOf = (_file: string, field: string): string => field;
  const log: TrayLog = {
    headerOf,
    placeOf: weightPlaces([], headerOf),
    hasOutcomes: () => true,
    marksGood: () => false,
    unreadEnding: () => "",
    unreadOutcome: () => "",
    lossBesideRows: () => "",
    lossBeside: () => undefined,
    add: (issue) => void said.push(issue),
    ...own,
  };
  return { log, said };
}

/** Entries of a log, each as "row column rule severity raw -> result". */
export const entriesOf = (said: ReadonlyArray<Issue>): string[] =>
  said.map(
    ({ row, column, rule, severity, raw, result }) =>
      `${row} ${column || "*"} ${rule} ${severity}${raw === "" && result === "" ? "" : ` ${raw} -> ${result}`}`,
  );
