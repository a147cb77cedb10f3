import type { Book } from "../../records/book.ts";
import { counted } from "../../records/counted.ts";
import { grouped } from "../../records/grouped.ts";
import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import { isOnlyPlanned } from "../../records/planned-trial.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import { sourceOf, sourcesOf, type Tray } from "../../records/tray.ts";
import type { ColumnPin, ColumnPlan } from "../columns/column-plan.ts";
import { guessFields } from "../columns/guess-fields.ts";
import { saysUse } from "../columns/use-columns.ts";
import { leaveRows } from "../leave-rows.ts";
import { checkTrays } from "../plausibility/check-trays.ts";
import { plausibilityRules } from "../plausibility/index.ts";
import { weighedTrays } from "../plausibility/weighed-trays.ts";
import {
  type BookSpans,
  bookSpans,
  type DatesBesides,
  type HarvestTable,
  orderOfTables,
  readHarvestTable,
} from "../rows/read-harvest-table.ts";
import { marksGood } from "./ask-unexplained.ts";
import { assembleTrays } from "./assemble-trays.ts";
import { lossWordsBeside } from "./loss-words-beside.ts";
import { missingNumberRule, noteMissingNumbers } from "./missing-numbers.ts";
import { setSlipsAside } from "./slips-of-weights.ts";
import type { TrayDraft } from "./tray-draft.ts";
import type { TrayLog } from "./tray-log.ts";
import { unifySpellings } from "./unify-spellings.ts";
import { type HeaderOf, weightPlaces } from "./weight-places.ts";
import { setWateryAside } from "./weights-in-reach.ts";

/** Harvest sheets read and put together to trays, not yet checked against each other. */
export interface ReadTrays extends Pick<Book, "trays" | "planned" | "columns" | "harvestFiles"> {
  /** for the checks that follow */
  log: TrayLog;
  /** rows of sheets that nothing says are of trays */
  leftOut: LeftOutRow[];
}

/** Rows of tables that nothing says are of trays: none of them counts as one until that is answered. */
function rowsInDoubt(tables: ReadonlyArray<RawTable>, harvests: HarvestTable[]): LeftOutRow[] {
  const leftOut: LeftOutRow[] = [];
  tables.forEach((table, at) => {
    const { isHarvest, drafts } = harvests[at]!;
    if ((isHarvest && !table.isInDoubt) || drafts.length === 0) return;
    harvests[at] = { ...harvests[at]!, drafts: [] };
    // what is left of such a sheet is not counted row by row
    for (const other of tables) if (other.file === table.file) delete other.filledRows;
    leaveRows(table, "nothing says that the rows of the sheet are trays", leftOut);
  });
  return leftOut;
}

const endings: ReadonlySet<string> = new Set<HarvestFieldKey>(["outcome", "fresh_g", "dry_g", "harvested_on"]);

/** Columns of a book without one of a weight, an outcome or a harvest date that look like one, by file. */
function likelyEndings(
  tables: ReadonlyArray<RawTable>,
  harvests: ReadonlyArray<HarvestTable>,
): ReadonlyMap<string, string> {
  if (harvests.some(({ plans }) => plans.some(({ field }) => endings.has(field)))) return new Map();
  const free = new Map(
    harvests.map(({ file, plans }) => [
      file,
      new Set(plans.flatMap(({ field, header }) => (field === "factor" ? [header] : []))),
    ]),
  );
  return new Map(guessFields(tables, free, "result").map(({ file, header }) => [file, header]));
}

function trayLog(
  harvests: ReadonlyArray<HarvestTable>,
  drafts: ReadonlyArray<TrayDraft>,
  issues: Issue[],
  likely: ReadonlyMap<string, string>,
  lossesBeside: ReadonlyMap<string, string>,
): TrayLog {
  const headers = new Map(
    harvests.map(({ file, plans }) => {
      const byField = new Map<string, string>();
      // a total stands before the flushes beside it
      // of several, the one of the whole tray; and words in a column of marks are no notes
      const isLast = ({ flush, because }: ColumnPlan): number => Number(flush !== undefined || saysUse(because));
      const inOrder = [...plans].sort((a, b) => isLast(a) - isLast(b));
      for (const { field, flush, header } of inOrder) {
        if (!byField.has(field)) byField.set(field, header);
        if (flush !== undefined) byField.set(`${field} ${flush}`, header);
      }
      return [file, byField] as const;
    }),
  );
  const headerOf: HeaderOf = (file, field, flush) => {
    const own = headers.get(file);
    return own?.get(`${field} ${flush}`) ?? own?.get(field) ?? "";
  };
  const unreadBy = (isOpen: (fields: ReadonlyArray<HarvestFieldKey>) => boolean): Map<string, string> =>
    new Map(
      harvests.flatMap(({ file, plans }) => {
        const plan = plans.find(({ mayBe }) => mayBe !== undefined && isOpen(mayBe));
        return plan === undefined ? [] : [[file, plan.header] as const];
      }),
    );
  const unread = unreadBy((fields) => fields.some((field) => endings.has(field)));
  const twice = unreadBy((fields) => fields.every((field) => field === "outcome"));
  const marked = new Set(harvests.filter(marksGood).map(({ file }) => file));
  return {
    unreadEnding: (file: string) => unread.get(file) ?? likely.get(file) ?? "",
    unreadOutcome: (file: string) => twice.get(file) ?? "",
    lossBesideRows: (file: string) => lossesBeside.get(file) ?? "",
    lossBeside: lossWordsBeside(harvests, drafts),
    headerOf,
    placeOf: weightPlaces(drafts, headerOf),
    hasOutcomes: (file: string) => headers.get(file)?.has("outcome") ?? false,
    marksGood: (file: string) => marked.has(file),
    add: (issue) => void issues.push(issue),
  };
}

/**
 * Sheets whose dates have no year, or stand in an open order, are read again by the full dates of the book's other sheets
 * and the order of the same sheet's other tables, where there are any.
 */
function withDatesBesides(
  tables: ReadonlyArray<RawTable>,
  harvests: HarvestTable[],
  read: (table: RawTable, besides: DatesBesides) => HarvestTable,
): HarvestTable[] {
  const isOpen = ({ issues }: HarvestTable, open: string): boolean =>
    issues.some(({ rule, severity }) => rule === open && severity === "warning");
  const hasNoYear = harvests.map((harvest) => isOpen(harvest, "no-year"));
  if (tables.length < 2) return harvests;
  const planned = harvests.map(({ plans }, at) => ({ table: tables[at]!, plans }));
  const spans: BookSpans = hasNoYear.includes(true) ? bookSpans(planned) : new Map();
  return harvests.map((harvest, at) => {
    const ofSheet = planned.filter(({ table }) => table.file === harvest.file);
    const order = ofSheet.length > 1 && isOpen(harvest, "day-or-month") ? orderOfTables(ofSheet) : "";
    return order !== "" || (hasNoYear[at] && spans.size > 0) ? read(tables[at]!, { spans, order }) : harvest;
  });
}

/** What may be passed to and asked of the reading of trays. */
export interface TrayOptions {
  /** called now and then with the rows of a harvest sheet read so far */
  onProgress?: (done: { file: string; rows: number }) => void;
  /** ISO 8601 date of the reading; a tray to be inoculated after it is planned. Without one no day is to come */
  today?: string;
  /** asks about trays by what stands elsewhere in the book */
  besides?: (trays: ReadonlyArray<TrayDraft>, log: TrayLog) => void;
}

/**
 * Reads every harvest sheet and puts its rows together to trays.
 * @param settingsOf the settings that hold for a sheet
 * @param issues the log; what is found is added to it
 */
export function readTrays(
  tables: ReadonlyArray<RawTable>,
  settingsOf: (file: string) => Settings,
  pins: ReadonlyArray<ColumnPin>,
  issues: Issue[],
  { onProgress, today, besides }: TrayOptions = {},
): ReadTrays {
  const read = (table: RawTable, besides?: DatesBesides): HarvestTable =>
    readHarvestTable(table, settingsOf(table.file), pins, (rows) => onProgress?.({ file: table.file, rows }), besides);
  const harvests = withDatesBesides(
    tables,
    tables.map((table) => read(table)),
    read,
  );
  const leftOut = rowsInDoubt(tables, harvests);
  for (const harvest of harvests) for (const issue of harvest.issues) issues.push(issue);
  const drafts = harvests.length === 1 ? harvests[0]!.drafts : harvests.flatMap((harvest) => harvest.drafts);
  const lossesBeside = new Map(tables.map(({ file, remarksSay }) => [file, remarksSay?.losses ?? ""]));
  const log = trayLog(harvests, drafts, issues, likelyEndings(tables, harvests), lossesBeside);
  unifySpellings(
    drafts,
    harvests.map(({ levels }) => levels),
    log,
  );
  const evidence =
    harvests.length === 1 ? harvests[0]!.evidence : new Map(harvests.flatMap((harvest) => [...harvest.evidence]));
  return {
    ...startedOf(assembleTrays(drafts, log, evidence, besides), unfilledSheets(harvests), issues, today),
    columns: harvests.flatMap(({ columns }) => columns),
    harvestFiles: harvests.map(({ file, rows }) => ({ file, rows })),
    log,
    leftOut,
  };
}

/** Fields whose cells say that a tray was started, or what became of it. */
const signs: ReadonlySet<string> = new Set<HarvestFieldKey>([
  "inoculated_on",
  "colonised_on",
  "days_to_colonise",
  "fruiting_on",
  "harvested_on",
  "days_to_harvest",
  "dried_on",
  "outcome",
  "fresh_g",
  "dry_g",
  "final_moisture_pct",
  "note",
]);

/** Sheets that have a column for the day of inoculation, and in it and in all that follows it nothing. */
function unfilledSheets(harvests: ReadonlyArray<HarvestTable>): Set<string> {
  const unfilled = harvests.filter(
    ({ columns }) =>
      columns.some(({ field }) => field === "inoculated_on") &&
      columns.every(({ field, example = "", mayBe }) => example === "" || (!signs.has(field) && mayBe === undefined)),
  );
  const others = new Set(harvests.filter((harvest) => !unfilled.includes(harvest)).map(({ file }) => file));
  return new Set(unfilled.map(({ file }) => file).filter((file) => !others.has(file)));
}

/** The day that a sheet is of at least: today, or the last day of which a result is written down. */
function dayOfBook(trays: ReadonlyArray<Tray>, today: string | undefined): string | undefined {
  if (today === undefined) return undefined;
  let day = today;
  for (const { colonisedOn, fruitingOn, harvestedOn, driedOn } of trays) {
    for (const date of [colonisedOn, fruitingOn, harvestedOn, driedOn])
      if (date !== undefined && date > day) day = date;
  }
  return day;
}

/** Trays apart from those that are only planned, or of a sheet nobody has filled in: these are not started. */
function startedOf(
  all: Tray[],
  unfilled: ReadonlySet<string>,
  issues: Issue[],
  today: string | undefined,
): Pick<Book, "trays" | "planned"> {
  if (unfilled.size === 0 && all.every(({ outcome }) => outcome !== "growing")) return { trays: all };
  const day = dayOfBook(all, today);
  const isUnfilled = (tray: Tray): boolean =>
    unfilled.size > 0 && sourcesOf(tray).every(({ file }) => unfilled.has(file));
  const planned = all.filter((tray) => isOnlyPlanned(tray, day) || isUnfilled(tray));
  if (planned.length === 0) return { trays: all };
  const only = new Set(planned);
  const bySheet = grouped(planned, (tray) => sourceOf(tray).file);
  // what was said of such a tray, that it grows for one, was said of a row nobody has filled in
  const isOfPlan = ({ file, row, column }: Issue): boolean =>
    column !== "" && (bySheet.get(file)?.some((tray) => sourcesOf(tray).some((source) => source.row === row)) ?? false);
  issues.splice(0, issues.length, ...issues.filter((issue) => !isOfPlan(issue)));
  for (const [file, own] of bySheet) {
    const row = sourceOf(own[0]!).row;
    const many = counted(own.length, "tray is", "trays are");
    const reason = `${many} planned and not started: ${own.every(({ inoculatedOn }) => inoculatedOn === undefined) ? "no date is filled in yet" : "the day of inoculation is still to come"}`;
    issues.push(logEntry({ file, row, rule: "planned-not-started", severity: "note", reason }));
  }
  return { trays: all.filter((tray) => !only.has(tray)), planned };
}

/** The rows of trays that are only planned, as rows that no answer counts. */
export const rowsOnlyPlanned = (planned: ReadonlyArray<Tray>): LeftOutRow[] =>
  planned.flatMap((tray) =>
    sourcesOf(tray).map((source) => ({
      ...source,
      cells: [tray.trayId],
      rule: "planned-not-started",
      reason: "planned and not started: it counts from the day it is inoculated",
    })),
  );

/** Checks a book's trays one by one, against each other, and for numbers missing among them. Adds flags and log entries. */
export function checkBookTrays(
  trays: ReadonlyArray<Tray>,
  settings: Settings,
  leftOut: ReadonlyArray<LeftOutRow>,
  log: TrayLog,
): void {
  const weighed = weighedTrays(trays);
  setSlipsAside(trays, weighed, log);
  setWateryAside(trays, weighed, log);
  checkTrays(trays, weighed, settings, log);
  noteMissingNumbers(trays, leftOut, log);
}

/** The rules of `checkBookTrays`, as log and flags call them: what they say holds for the trays as they are together. */
export const bookTrayRules: ReadonlySet<string> = new Set([
  ...plausibilityRules.map(({ code }) => code),
  missingNumberRule,
]);
