import { freeName, isMarkedFree } from "../../cleaning/columns/free-mark.ts";
import { bookTrayRules, checkBookTrays, readTrays } from "../../cleaning/trays/read-trays.ts";
import type { TrayLog } from "../../cleaning/trays/tray-log.ts";
import { type HeaderOf, weightPlaces } from "../../cleaning/trays/weight-places.ts";
import type { Book } from "../../records/book.ts";
import { keepSame } from "../../records/is-same.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { Settings } from "../../records/setting.ts";
import { type RowSource, sourcesOf, spokenOfBy, type Tray } from "../../records/tray.ts";
import { flushInHeader } from "../../records/words/flush-words.ts";
import { addedFile, deletedRows, type EditedSheet, newlySaid, sourceOf, tableOf } from "./edited-sheet.ts";
import type { LiveColumn } from "./live-sheet.ts";
import type { SavedBook } from "./saved-book.ts";

/** Trays of the sheet as it stands with the changes. */
export interface CleanedTrays {
  trays: Tray[];
  /** the book's log without what no longer holds, and with what the changes brought */
  log: Issue[];
  leftOut: LeftOutRow[];
  /** what the cleaning says of the sheet; rows are places in it, from 1, and columns its own */
  issues: Issue[];
}

/** What the cleaning says of the tray sheet, with the trays it gives. */
function clean(edited: EditedSheet, settings: Settings): { trays: Tray[]; issues: Issue[] } {
  const issues: Issue[] = [];
  const { trays } = readTrays([tableOf("trays", edited, settings)], () => settings, [], issues);
  return { trays, issues };
}

/** What the cleaning says of a tray sheet as it stands. */
export const trayIssues = (edited: EditedSheet, settings: Settings): Issue[] => clean(edited, settings).issues;

/** Which columns of a sheet as typed stand for a column of the tidy one. */
function headersOf(book: Book, { key }: LiveColumn): Set<string> {
  const name = isMarkedFree(key) ? freeName(key) : key;
  const own = book.columns.filter(({ field, header }) =>
    field === "factor" ? freeName(header) === name : field === key,
  );
  return new Set(own.map(({ header }) => header));
}

/** Where a row of the tray sheet came from. */
const traySource =
  ({ book, sheets, rowsOfTray }: SavedBook) =>
  (place: number): RowSource | undefined => {
    const id = sheets.trays?.rows[place]?.[0] ?? "";
    const tray = book.trays.find(({ trayId }) => trayId === id);
    const sources = tray === undefined ? [] : sourcesOf(tray);
    return sources[rowsOfTray.get(id)?.indexOf(place) ?? 0] ?? sources[0];
  };

/** Trays that the changes speak of, with the columns that were changed. */
function touchedTrays({ sheet, changed, gone }: EditedSheet, trays: ReadonlyArray<Tray>): Map<string, Set<number>> {
  const touched = new Map<string, Set<number>>();
  const touch = (id: string, columns: Iterable<number>) =>
    touched.set(id, new Set([...(touched.get(id) ?? []), ...columns]));
  const typed = new Map(changed.map((row) => [row.row, row.typed]));
  for (const tray of trays) {
    const { trayId } = tray;
    for (const { row } of sourcesOf(tray)) if (typed.has(row)) touch(trayId, typed.get(row)!.keys());
  }
  // rows that hold no tray any more
  for (const row of [...typed.keys(), ...gone]) {
    const id = sheet.rows[row - 1]?.[0];
    if (id !== undefined) touch(id, typed.get(row)?.keys() ?? []);
  }
  return touched;
}

/** Where the checks of all trays write their part of the log: under the headers of the sheets as typed. */
function checkLog({ columns }: Book, issues: Issue[]): TrayLog {
  const headers = new Map<string, string>();
  for (const { file, field, header } of columns) {
    const flush = flushInHeader(header)?.flush;
    if (!headers.has(`${file}\n${field}`)) headers.set(`${file}\n${field}`, header);
    if (flush !== undefined) headers.set(`${file}\n${field}\n${flush}`, header);
  }
  const headerOf: HeaderOf = (file, field, flush) =>
    file === addedFile ? field : (headers.get(`${file}\n${field}\n${flush}`) ?? headers.get(`${file}\n${field}`) ?? "");
  return {
    headerOf,
    placeOf: weightPlaces([], headerOf),
    hasOutcomes: () => true,
    marksGood: () => false,
    unreadEnding: () => "",
    unreadOutcome: () => "",
    lossBesideRows: () => "",
    lossBeside: () => undefined,
    add: (issue) => void issues.push(issue),
  };
}

/** The saved book's log without what no longer holds: checks of all trays, and what was said of changed cells. */
function stillTrue(
  { book, sheets }: SavedBook,
  touched: ReadonlyMap<string, ReadonlySet<number>>,
  isGone: (tray: string) => boolean,
): Issue[] {
  return book.issues.filter(({ rule, tray, column }) => {
    if (bookTrayRules.has(rule)) return false;
    const columns = tray === undefined ? undefined : touched.get(tray);
    if (columns === undefined) return true;
    return !isGone(tray!) && ![...columns].some((at) => headersOf(book, sheets.trays!.columns[at]!).has(column));
  });
}

/**
 * The tray sheet cleaned again. Trays that no change speaks of stay the records they were; every tray is checked against
 * the others, as in a new cleaning.
 * @param before what the cleaning says of the sheet without the changes
 */
export function cleanedTrays(
  saved: SavedBook,
  edited: EditedSheet,
  before: ReadonlyArray<Issue>,
  settings: Settings,
): CleanedTrays {
  const { book } = saved;
  const own = traySource(saved);
  const read = clean(edited, settings);
  const again = new Map(read.trays.map((tray) => [tray.trayId, tray]));
  const touched = touchedTrays(edited, read.trays);
  const isGone = (id: string): boolean => touched.has(id) && !again.has(id);
  const kept = stillTrue(saved, touched, isGone);
  const fresh = touched.size === 0 ? [] : newlySaid(before, read.issues);
  const supported = new Set(
    kept.flatMap(({ tray, rule, severity }) =>
      severity === "warning" || severity === "error" ? [`${tray}\n${rule}`] : [],
    ),
  );

  const savedIds = new Set(book.trays.map(({ trayId }) => trayId));
  const placesOf = (tray: Tray): RowSource[] => sourcesOf(tray).map(({ row }) => sourceOf(edited, row, own));
  const withChanges = (tray: Tray): Tray => {
    const now = touched.has(tray.trayId) ? again.get(tray.trayId) : undefined;
    const flags = tray.flags.filter((flag) => !bookTrayRules.has(flag));
    if (now === undefined) return { ...tray, flags };
    const still = flags.filter((flag) => supported.has(`${tray.trayId}\n${flag}`));
    const added = placesOf(now).filter(({ file }) => file === addedFile);
    return { ...now, ...spokenOfBy([...sourcesOf(tray), ...added]), flags: [...new Set([...still, ...now.flags])] };
  };
  const trays = [
    ...book.trays.filter(({ trayId }) => !isGone(trayId)).map(withChanges),
    ...read.trays
      .filter(({ trayId }) => !savedIds.has(trayId))
      .map((tray) => ({ ...tray, ...spokenOfBy(placesOf(tray)) })),
  ];
  const checks: Issue[] = [];
  checkBookTrays(trays, settings, book.leftOut, checkLog(book, checks));

  const placed = fresh.map((issue) => (issue.row === 0 ? issue : { ...issue, ...sourceOf(edited, issue.row, own) }));
  return {
    trays: keepSame(book.trays, trays.map(inFlagOrder(book))),
    log: [...kept, ...placed, ...checks],
    leftOut: deletedRows(edited, own),
    issues: [...fresh, ...newChecks(book, edited, read.trays, checks)],
  };
}

/** A tray's flags in the order they had, so that a tray that is flagged as before is the record it was. */
function inFlagOrder({ trays }: Book): (tray: Tray) => Tray {
  const flagsOf = new Map(trays.map(({ trayId, flags }) => [trayId, flags]));
  return (tray) => {
    const before = flagsOf.get(tray.trayId) ?? [];
    const kept = before.filter((flag) => tray.flags.includes(flag));
    return { ...tray, flags: [...kept, ...tray.flags.filter((flag) => !kept.includes(flag))] };
  };
}

/** What a check says of a changed tray only now, at the first row of it that was changed. */
function newChecks(
  book: Book,
  { changed }: EditedSheet,
  trays: ReadonlyArray<Tray>,
  checks: ReadonlyArray<Issue>,
): Issue[] {
  const known = new Set(book.issues.map(({ tray, rule }) => `${tray}\n${rule}`));
  const fieldOf = new Map(book.columns.map(({ file, header, field }) => [`${file}\n${header}`, field]));
  const rowOf = new Map<string, number>();
  for (const tray of trays) {
    const first = changed.find(({ row }) => sourcesOf(tray).some((source) => source.row === row));
    if (first !== undefined) rowOf.set(tray.trayId, first.row);
  }
  return checks.flatMap((issue): Issue[] => {
    const row = issue.tray === undefined ? undefined : rowOf.get(issue.tray);
    if (row === undefined || known.has(`${issue.tray}\n${issue.rule}`)) return [];
    const column = issue.file === addedFile ? issue.column : (fieldOf.get(`${issue.file}\n${issue.column}`) ?? "");
    return [{ ...issue, row, column }];
  });
}
