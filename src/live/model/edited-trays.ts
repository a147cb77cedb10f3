import { freeName, isMarkedFree } from "../../cleaning/columns/free-mark.ts";
import { checkTrays } from "../../cleaning/plausibility/check-trays.ts";
import { plausibilityRules } from "../../cleaning/plausibility/index.ts";
import { readHarvestTable } from "../../cleaning/rows/read-harvest-table.ts";
import { assembleTrays } from "../../cleaning/trays/assemble-trays.ts";
import { missingNumberRule, noteMissingNumbers } from "../../cleaning/trays/missing-numbers.ts";
import type { TrayLog } from "../../cleaning/trays/tray-log.ts";
import type { Book } from "../../records/book.ts";
import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Issue } from "../../records/issue.ts";
import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import type { LiveColumn, LiveSheet } from "./live-sheet.ts";
import { addedFile, type ChangedRow, rowsToRead } from "./rows-to-read.ts";
import type { SavedBook } from "./saved-book.ts";

const wholeTrayRules: ReadonlySet<string> = new Set(plausibilityRules.map(({ code }) => code));

/** What rereading needs: every row of a changed tray, its changed cells among them. */
export interface RereadTrays {
  trays: Tray[];
  /** the book's log without what no longer holds, and with what the changes brought */
  issues: Issue[];
  /** only what concerns the changed cells; rows are places in the sheet */
  fresh: Issue[];
}

const logInto = (issues: Issue[], headerOf: TrayLog["headerOf"]): TrayLog => ({
  headerOf,
  hasOutcomes: () => true,
  add: (issue) => void issues.push(issue),
});

/** Which columns of a sheet as typed stand for a changed column of the tidy one. */
function headersOf(book: Book, { key }: LiveColumn): Set<string> {
  const name = isMarkedFree(key) ? freeName(key) : key;
  return new Set(
    book.columns
      .filter(({ field, header }) => (field === "factor" ? freeName(header) === name : field === key))
      .map(({ header }) => header),
  );
}

/** The changed trays read by the rules every sheet is read by. */
function readAgain(
  rows: ReadonlyArray<ChangedRow>,
  columns: ReadonlyArray<LiveColumn>,
  settings: Settings,
): { trays: Map<string, Tray>; issues: Issue[] } {
  const table = rowsToRead("trays", columns, rows, settings);
  const read = readHarvestTable(table, settings, []);
  const issues = [...read.issues];
  const keys = new Set(table.header);
  const log = logInto(issues, (_, field: HarvestFieldKey) => (keys.has(field) ? field : ""));
  return { trays: new Map(assembleTrays(read.drafts, log).map((tray) => [tray.trayId, tray])), issues };
}

/** The trays that changed and added rows speak of, with the columns changed; an added row may speak of a known tray. */
function touchedTrays(
  sheet: LiveSheet,
  changed: ReadonlyArray<ChangedRow>,
  gone: ReadonlySet<number>,
  settings: Settings,
) {
  const addedRows = changed.filter(({ row }) => row >= sheet.rows.length);
  const drafts =
    addedRows.length === 0
      ? []
      : readHarvestTable(rowsToRead("trays", sheet.columns, addedRows, settings), settings, []).drafts;
  const nameOf = new Map(drafts.map(({ trayId, sources }) => [sources[0]!.row, trayId]));
  const touched = new Map<string, Set<number>>();
  const touch = (row: number, columns: Iterable<number>) => {
    const id = sheet.rows[row]?.[0] ?? nameOf.get(row);
    if (id !== undefined) touched.set(id, new Set([...(touched.get(id) ?? []), ...columns]));
  };
  for (const { row, typed } of changed) touch(row, typed.keys());
  for (const row of gone) touch(row, []);
  return { touched, addedRows, nameOf };
}

/** Trays with some read again; afterwards every tray is checked against the others, as in a new cleaning. */
export function editedTrays(
  { book, sheets, rowsOfTray }: SavedBook,
  changed: ReadonlyArray<ChangedRow>,
  gone: ReadonlySet<number>,
  settings: Settings,
): RereadTrays {
  const sheet = sheets.trays!;
  const byRow = new Map(changed.map((row) => [row.row, row]));
  const { touched, addedRows, nameOf } = touchedTrays(sheet, changed, gone, settings);
  const ownRows = [...touched.keys()].flatMap((id) =>
    (rowsOfTray.get(id) ?? [])
      .filter((row) => !gone.has(row))
      .map((row) => byRow.get(row) ?? { row, cells: sheet.rows[row]!, typed: new Map() }),
  );
  const rows = [...ownRows, ...addedRows];
  const again = rows.length === 0 ? undefined : readAgain(rows, sheet.columns, settings);
  const fresh = again?.issues ?? [];

  const isGone = (id: string | undefined): boolean => id !== undefined && touched.has(id) && !again?.trays.has(id);
  const noLonger = (issue: Issue): boolean => {
    if (wholeTrayRules.has(issue.rule) || issue.rule === missingNumberRule || isGone(issue.tray)) return true;
    const columns = issue.tray === undefined ? undefined : touched.get(issue.tray);
    return (
      columns !== undefined && [...columns].some((column) => headersOf(book, sheet.columns[column]!).has(issue.column))
    );
  };
  const kept = book.issues.filter((issue) => !noLonger(issue));
  const flagsOf = (id: string): string[] => [
    ...new Set(
      kept
        .filter(({ tray, severity }) => tray === id && (severity === "warning" || severity === "error"))
        .map(({ rule }) => rule),
    ),
  ];
  const fromAdded = (tray: Tray): Tray => ({
    ...tray,
    sources: tray.sources.map(({ row }) => ({ file: addedFile, row: row - sheet.rows.length + 1 })),
  });
  const added = [...(again?.trays.values() ?? [])].filter(({ trayId }) => !rowsOfTray.has(trayId)).map(fromAdded);
  const own = book.trays
    .filter(({ trayId }) => !isGone(trayId))
    .map((tray): Tray => {
      const now = again?.trays.get(tray.trayId);
      const before = tray.flags.filter((flag) => !wholeTrayRules.has(flag));
      if (now === undefined) return { ...tray, flags: before };
      const still = before.filter((flag) => flagsOf(tray.trayId).includes(flag));
      return { ...now, sources: tray.sources, flags: [...new Set([...still, ...now.flags])] };
    });
  const trays = [...own, ...added];
  const checks: Issue[] = [];
  const firstHeader = new Map<string, string>();
  for (const { file, field, header } of book.columns) {
    if (!firstHeader.has(`${file}\n${field}`)) firstHeader.set(`${file}\n${field}`, header);
  }
  const checkLog = logInto(checks, (file, field) => firstHeader.get(`${file}\n${field}`) ?? "");
  checkTrays(trays, settings, checkLog);
  noteMissingNumbers(trays, book.leftOut, checkLog);
  const placed = fresh.map((issue): Issue => {
    const source =
      issue.tray === undefined ? undefined : book.trays.find(({ trayId }) => trayId === issue.tray)?.sources[0];
    return source === undefined ? issue : { ...issue, file: source.file, row: source.row };
  });
  const known = new Set(book.issues.map(({ tray, rule }) => `${tray}\n${rule}`));
  const fieldOf = new Map(book.columns.map(({ file, header, field }) => [`${file}\n${header}`, field]));
  // what a check says of a changed tray only now stands at the row that was changed
  const doubts = checks.flatMap((issue): Issue[] => {
    const first = changed.find(({ row }) => (sheet.rows[row]?.[0] ?? nameOf.get(row)) === issue.tray);
    if (first === undefined || known.has(`${issue.tray}\n${issue.rule}`)) return [];
    return [{ ...issue, row: first.row, column: fieldOf.get(`${issue.file}\n${issue.column}`) ?? "" }];
  });
  return { trays, issues: [...kept, ...placed, ...checks], fresh: [...fresh, ...doubts] };
}
