import { openSheet } from "../csv/open-sheet.ts";
import type { ShapeSettings } from "../csv/shape/sheet-words.ts";
import { appendAll } from "../records/append-all.ts";
import { costColumns } from "../records/cost-line.ts";
import { fileName } from "../records/file-stem.ts";
import { harvestFields } from "../records/harvest-field.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import { nameKey } from "../records/name-key.ts";
import { productColumns } from "../records/product.ts";
import type { Settings } from "../records/setting.ts";
import { defaultSettings } from "../records/setting-definitions.ts";
import type { RawTable, SheetSource } from "../records/sheet.ts";
import type { UnreadMoney } from "../records/unread-money.ts";
import { withAmountsApart } from "./amounts-among-words.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import { harvestWords } from "./columns/harvest-words.ts";
import { type MeaningsOf, rememberedMeanings } from "./columns/remembered-meanings.ts";
import { isTreatment } from "./columns/treatment-name.ts";
import { withDatesInParts } from "./dates-in-parts.ts";
import { withKeyTables } from "./key-tables.ts";
import { leaveOtherLists } from "./leave-other-lists.ts";
import { leaveList, leaveRows } from "./leave-rows.ts";
import { keyTabs, withLegends } from "./legends.ts";
import { speaksOfSpending } from "./money-beside-trays.ts";
import { withNetOfTare } from "./net-of-tare.ts";
import { passOverCopies } from "./pass-over-copies.ts";
import { withPickedOfStarted } from "./picked-of-started.ts";
import { withPlaceNames } from "./place-names.ts";
import { withRemarksRead } from "./read-remarks.ts";
import { refusalOf } from "./refuse-sheet.ts";
import { withBookCurrency } from "./side-sheets/book-currency.ts";
import { logColumns } from "./side-sheets/log-columns.ts";
import { readCellAnswers, withCellAnswers } from "./side-sheets/read-cell-answers.ts";
import { readColumnPins } from "./side-sheets/read-column-pins.ts";
import { readSettings, type SettingsRead } from "./side-sheets/read-settings.ts";
import { hasDays, listNamed, namesTrays, roleByHeader, roleByName, type SheetRole } from "./sort-sources.ts";
import { withTwoWeights } from "./two-weights.ts";

/** The tables of a book by what they are for, its settings, and what opening its sheets had to say. */
export interface BookTables {
  tables: Record<SheetRole, RawTable[]>;
  settings: Settings;
  /** the settings that the book states */
  stated: SettingsRead["stated"];
  /** the settings with those stated for one sheet */
  settingsOf(file: string): Settings;
  /** settings about money that cannot be read */
  unread: UnreadMoney[];
  issues: Issue[];
  leftOut: LeftOutRow[];
  /** what columns.csv says */
  pinned: ReturnType<typeof readColumnPins>;
}

/** Settings that hold for one sheet: those of the book, then those stated for its file, its last part or its tab. */
function settingsFor(read: Pick<SettingsRead, "settings" | "sheets">, file: string): Settings {
  const [path = "", tab] = file.split(" > ");
  const names = new Set([file, path, fileName(path), tab ?? file].map(nameKey));
  const own = read.sheets.filter(({ sheet }) => names.has(sheet.toLowerCase()));
  return Object.assign({ ...read.settings }, ...own.map(({ settings }) => settings)) as Settings;
}

const shapeOf = ({ layout, tables, sectionTitles, fillDown, summaryRows, joinedCells }: Settings): ShapeSettings => ({
  layout,
  tables,
  sectionTitles,
  fillDown,
  summaryRows,
  joinedCells,
});

class BookOpening {
  readonly issues: Issue[] = [];
  readonly leftOut: LeftOutRow[] = [];
  /** tables whose role the settings state */
  readonly stated = new Set<RawTable>();
  readonly tables: BookTables["tables"] = {
    settings: [],
    costs: [],
    products: [],
    columns: [],
    cells: [],
    "temperature log": [],
    harvest: [],
  };

  private readonly words;

  constructor(
    private readonly read: SettingsRead,
    private readonly isOnly: boolean,
    private readonly meaningsOf: MeaningsOf,
  ) {
    this.words = harvestWords(meaningsOf);
  }

  async open(source: SheetSource): Promise<void> {
    const named = roleByName(source);
    const titled = named === undefined ? listNamed(source) : undefined;
    const mayBeHarvest =
      (named === undefined && titled === undefined) || named === "harvest" || named === "temperature log";
    const shaped = { shapeOf: (file: string) => shapeOf(settingsFor(this.read, file)) };
    const opened = await openSheet(source, mayBeHarvest ? { ...shaped, words: this.words } : shaped);
    const kept = opened.tables.filter((table) => this.take(table, named, titled));
    // what is said of a sheet that takes no part is that it takes none
    const gone = new Set(opened.tables.filter((table) => !kept.includes(table)).map(({ file }) => file));
    for (const { file } of kept) gone.delete(file);
    // rows of a table that is none of trays are not counted one by one
    const ofTrays = kept.filter((table) => this.tables.harvest.includes(table));
    if (ofTrays.length < opened.tables.length) for (const table of ofTrays) delete table.filledRows;
    for (const issue of opened.issues) if (!gone.has(issue.file)) this.issues.push(issue);
    for (const row of opened.leftOut) if (!gone.has(row.file)) this.leftOut.push(row);
  }

  private say(table: RawTable, rule: string, severity: Issue["severity"], reason: string, action: string): void {
    const raw = table.header
      .filter((name) => name !== "")
      .join(", ")
      .slice(0, 300);
    const setting = rule === "unknown-sheet" ? { setting: "sheet_role" } : {};
    this.issues.push(
      logEntry({ file: table.file, row: table.headerRow, raw, rule, severity, reason, action, ...setting }),
    );
  }

  private hasTrays({ header }: RawTable): boolean {
    return header.some((name) => name !== "" && this.words.columnSort(name) === "tray");
  }

  /** Puts a table where it belongs; false where it belongs nowhere. @param titled what its file's name says, unless its header tells */
  private take(table: RawTable, named: SheetRole | undefined, titled: SheetRole | undefined): boolean {
    const stated = settingsFor(this.read, table.file).sheetRole;
    const isBookWide = this.read.settings.sheetRole === stated;
    if (stated === "ignore" && !isBookWide) {
      this.say(table, "ignored-sheet", "note", "the settings say that it is not to be read", "");
      return false;
    }
    if (stated !== "" && stated !== "ignore" && !isBookWide) {
      this.tables[stated].push(table);
      this.stated.add(table);
      return true;
    }
    const isOfTrays = namesTrays(table.header, this.meaningsOf);
    const told = roleByHeader(table, this.meaningsOf);
    // a list of sales has columns like one of costs, and with their days it is none of products
    const isOpen = told === undefined || (told === "harvest" && !isOfTrays) || titled === "products";
    const isOfDays = titled === "products" && hasDays(table.header);
    const byHeader = isOfDays ? undefined : isOpen ? (titled ?? told) : told;
    const tab = table.file.split(" > ")[1];
    const byTab = tab === undefined ? undefined : roleByName({ path: tab.normalize("NFC") });
    const refusal = refusalOf(table, isOfTrays || (byTab ?? named) === "costs", this.hasTrays(table));
    if (refusal !== undefined) {
      this.say(table, "no-harvest-sheet", refusal.severity, refusal.reason, refusal.action);
      if (refusal.severity === "warning") leaveRows(table, refusal.reason, this.leftOut);
      return false;
    }
    if (table.listRole !== undefined) {
      this.tables[table.listRole].push(table);
      return true;
    }
    const bookWide = stated === "" || stated === "ignore" ? undefined : stated;
    const beside = byTab === "costs" || byTab === "products" || byTab === "settings" ? byTab : undefined;
    const isLog = named === "temperature log" && !isOfTrays && logColumns(table.header) !== undefined;
    const role =
      beside ??
      (isLog ? named : roleOf(named, byHeader)) ??
      bookWide ??
      // "Treatment, Description" explains marks
      (this.isOnly || isTreatment(table.header[0]!) ? "harvest" : undefined);
    if (role === undefined) {
      const reason = "neither its name nor its columns tell what the sheet is for, so it is left out";
      const name = fileName(table.file.split(" > ").at(-1)!);
      const isSpent = table.header.some(speaksOfSpending);
      const first = isSpent
        ? "Name its columns item, cost and per"
        : "Name its columns, put a harvest sheet into the folder harvests";
      const action = `${first}, or state sheet_role = ${isSpent ? "ignore" : "harvest"} with ${name} in a column sheet of settings.csv`;
      this.say(table, "unknown-sheet", "warning", reason, action);
      leaveList(table, reason, this.leftOut);
      const left = { file: table.file, rule: "no-harvest-sheet", reason };
      for (const { row, cells } of table.remarks ?? []) this.leftOut.push({ ...left, row, cells });
      return false;
    }
    this.tables[role].push(table);
    if (role === bookWide) this.stated.add(table);
    return true;
  }
}

/** A sheet's name counts, but the folder of harvests, or a name that speaks of temperatures, tells less than a header. */
const roleOf = (named: SheetRole | undefined, byHeader: SheetRole | undefined): SheetRole | undefined =>
  named === "harvest" || named === "temperature log" ? (byHeader ?? named) : (named ?? byHeader);

function readBookSettings(tables: ReadonlyArray<RawTable>, issues: Issue[]): SettingsRead {
  const [first, ...others] = tables;
  const read = readSettings(first, first?.file ?? "settings.csv");
  for (const { file } of others) {
    const reason = "the book has another settings sheet, which is the one that counts";
    const action = "Keep one settings sheet";
    issues.push(logEntry({ file, rule: "second-settings", severity: "warning", reason, action }));
  }
  return read;
}

const none: SettingsRead = { settings: defaultSettings, stated: new Set(), sheets: [], unread: [], issues: [] };

const statesShape = ({ settings, sheets }: SettingsRead): boolean =>
  sheets.length > 0 || Object.values(shapeOf(settings)).some((value) => value !== "");

/** Harvest tables with cells of two weights parted, marks read by their legends, and what the names of tabs and files say. */
function withWhatSheetsSay(
  harvest: ReadonlyArray<RawTable>,
  pins: ReadonlyArray<ColumnPin>,
  { joinedCells, sectionTitles }: Partial<Settings>,
  meaningsOf: MeaningsOf,
  keys: ReturnType<typeof keyTabs>["keys"],
): { tables: RawTable[]; issues: Issue[] } {
  const issues: Issue[] = [];
  let tables = [...harvest];
  const take = (made: { tables: RawTable[]; issues: Issue[] }): void => {
    ({ tables } = made);
    appendAll(issues, made.issues);
  };
  if (sectionTitles !== "ignore") take(withLegends(tables, meaningsOf, keys));
  if (joinedCells !== "ignore") {
    take(withTwoWeights(tables, pins, meaningsOf));
    take(withNetOfTare(tables, pins, meaningsOf));
    take(withDatesInParts(tables, pins));
    take(withAmountsApart(tables, pins, meaningsOf));
    take(withPickedOfStarted(tables, pins, meaningsOf));
  }
  if (sectionTitles !== "ignore") take(withPlaceNames(tables, meaningsOf));
  return { tables, issues };
}

/**
 * Opens every sheet of a book and sorts its tables by what they are for. Settings are read first, because they may say
 * how other sheets lie; where they turn up inside another sheet, all are opened again if they do.
 * @throws what reading a source's bytes throws
 */
export async function openBookSheets(sources: ReadonlyArray<SheetSource>): Promise<BookTables> {
  const speaking = sources.filter((source) => !["settings", "columns", "cells"].includes(roleByName(source) ?? ""));
  const isOnly = speaking.length === 1;
  const meaningsOf = rememberedMeanings();
  const stated = new BookOpening(none, false, meaningsOf);
  for (const source of sources) if (roleByName(source) === "settings") await stated.open(source);
  let read = stated.tables.settings.length === 0 ? none : readBookSettings(stated.tables.settings, []);
  let opening = new BookOpening(read, isOnly, meaningsOf);
  for (const source of sources) await opening.open(source);
  const issues: Issue[] = [];
  read = readBookSettings(opening.tables.settings, issues);
  if (stated.tables.settings.length === 0 && statesShape(read)) {
    opening = new BookOpening(read, isOnly, meaningsOf);
    for (const source of sources) await opening.open(source);
  }
  const answers = readCellAnswers(opening.tables.cells);
  const { harvest, costs: costSheets, products: productSheets } = opening.tables;
  const answered = withCellAnswers(
    [
      { tables: harvest, keys: harvestFields.map(({ key }) => key) },
      { tables: costSheets, keys: costColumns },
      { tables: productSheets, keys: productColumns },
    ],
    answers.answers,
  );
  const [harvestTables = [], costs = [], products = []] = answered.groups;
  appendAll(issues, answers.issues);
  appendAll(issues, answered.issues);
  const copies = passOverCopies(harvestTables);
  const pinned = readColumnPins(opening.tables.columns);
  const mayJoin = read.settings.joinedCells !== "ignore";
  const keys = withKeyTables(mayJoin, copies.kept, pinned.pins, meaningsOf);
  const marks = keyTabs(keys.kept, read.settings.sectionTitles !== "ignore", meaningsOf);
  const lists = leaveOtherLists(marks.kept, pinned.pins, opening.stated, meaningsOf);
  const explained = withWhatSheetsSay(lists.kept, pinned.pins, read.settings, meaningsOf, marks.keys);
  opening.tables.harvest = withRemarksRead(explained.tables);
  Object.assign(opening.tables, { costs, products });
  const inCurrency = withBookCurrency(read.settings, read.stated, costs, products);
  const settings = { ...defaultSettings, ...inCurrency.settings };
  return {
    tables: opening.tables,
    settings,
    settingsOf: (file) => settingsFor({ sheets: read.sheets, settings }, file),
    stated: read.stated,
    unread: read.unread,
    issues: [
      ...opening.issues.filter(({ file }) => !marks.files.has(file)),
      ...read.issues,
      ...issues,
      ...inCurrency.issues,
      ...copies.issues,
      ...keys.issues,
      ...lists.issues,
      ...explained.issues,
    ],
    leftOut: [...opening.leftOut, ...keys.leftOut, ...marks.leftOut, ...lists.leftOut],
    pinned,
  };
}
