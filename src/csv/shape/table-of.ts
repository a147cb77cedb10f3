import { appendAll } from "../../records/append-all.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { ReadingPlan } from "../../records/reading-plan.ts";
import type { RawTable } from "../../records/sheet.ts";
import { perWords } from "../../records/words/per-words.ts";
import { notASheet } from "../not-a-sheet.ts";
import { type FoundHeader, findHeader } from "./find-header.ts";
import {
  columnsOfGrid,
  type ForEachRecord,
  firstRows,
  type Grid,
  refusedTable,
  rowsOfGrid,
  type SheetRow,
} from "./grid.ts";
import { findJoins } from "./join-columns.ts";
import { remarksOf } from "./left-rows.ts";
import { longTable } from "./long-table.ts";
import { namesApart } from "./names-apart.ts";
import { isExampleRow, otherListOf } from "./no-tray-rows.ts";
import { longColumns } from "./pivot-long.ts";
import { namelessIssue, planIssues, readAsFlushes, sayEmpty, valuesInHeader, withoutHeader } from "./plan-issues.ts";
import { splitCells, usualLength } from "./ragged-rows.ts";
import { rowMaker } from "./row-maker.ts";
import { knownTitles, type SectionTitle, withoutLegend } from "./section-title.ts";
import { openShape, type ShapeSettings, type SheetWords } from "./sheet-words.ts";
import { type ColumnRange, repeatedNames } from "./split-bands.ts";
import { type Survey, surveyRows } from "./survey-rows.ts";
import { namelessTrays, tableColumns } from "./table-columns.ts";
import { nameFlushes, withPickingDays } from "./wide-names.ts";
import { valuesAsNames, type WideColumns, wideColumns, wideTable } from "./wide-table.ts";

/** "Fresh weight (g) by dose" */
const byWhat = new RegExp(`\\s(?:by|nach|selon|según|secondo|naar|wg|według|${perWords})\\s.*$`, "iu");

/** A file read as a sheet: its tables, what is to be said about it, and the rows that are no data. */
export interface OpenedSheet {
  tables: RawTable[];
  issues: Issue[];
  leftOut: LeftOutRow[];
}

/** What is known beforehand of the sheets of a book. */
export interface TableOptions {
  /** needed to see anything of a sheet's shape beyond a header and its rows */
  words?: SheetWords | undefined;
  settings?: ShapeSettings;
  /** tables looked for below the first; rows of more than these stay rows of the last one */
  mostFurther?: number;
  /** the grid's rows are columns of the sheet */
  isTurned?: boolean;
  /** titles that stand above all of the grid */
  titles?: ReadonlyArray<SectionTitle>;
}

const sampleRows = 200;

interface MadeTable {
  table: RawTable;
  issues: Issue[];
  leftOut?: LeftOutRow[];
}

const merged = (parts: ReadonlyArray<OpenedSheet>): OpenedSheet => ({
  tables: parts.flatMap(({ tables }) => tables),
  issues: parts.flatMap(({ issues }) => issues),
  leftOut: parts.flatMap(({ leftOut }) => leftOut),
});

/** The records above a row; all of them where there is none such. */
const upTo =
  (forEachRecord: ForEachRecord, end: number | undefined): ForEachRecord =>
  (visit) =>
    forEachRecord((cells, row, unclosed) => (end !== undefined && row >= end ? false : visit(cells, row, unclosed)));

/** The records from a row on. */
const startingAt =
  (forEachRecord: ForEachRecord, start: number): ForEachRecord =>
  (visit) =>
    forEachRecord((cells, row, unclosed) => (row < start ? true : visit(cells, row, unclosed)));

/** The first cell of the last line above the header that has one. */
const titleAbove = (sample: ReadonlyArray<SheetRow>, header: FoundHeader): string =>
  sample
    .flatMap(({ row, cells }) => (row < header.firstRow ? (cells.find((cell) => cell.trim()) ?? []) : []))
    .at(-1)
    ?.trim() ?? "";

/**
 * Makes tables of a grid whose trays are its rows: finds the header, tells data from the rest, applies titles, blocks
 * typed once and merged cells, joins columns that are one, and goes on with further tables below.
 */
export function tableOf(grid: Grid, options: TableOptions): OpenedSheet {
  const { file } = grid;
  const { words, settings = openShape, mostFurther = 20 } = options;
  const sample = firstRows(grid.forEachRecord, sampleRows);
  if (sample.length === 0) return { tables: [], issues: [notASheet(file, "empty")], leftOut: [] };
  const header = findHeader(sample, words);
  if (header === undefined) return { tables: [], ...withoutHeader(file, sample) };
  const parts = words === undefined || settings.tables === "one" ? [] : tablesBeside(header, sample, words);
  if (words !== undefined && parts.length > 0) return sideBySide(grid, parts, (part) => tableOf(part, options));
  const body = sample.filter(({ row, cells }) => row > header.lastRow && !isExampleRow(cells));
  const split = words === undefined || !grid.delimited ? undefined : splitCells(file, header, body, words);
  if (split !== undefined && split.names === undefined) return refusedTable(grid, split.issue);
  if (split?.names !== undefined) header.names = split.names;
  const mayBeWide = words !== undefined && (settings.layout === "" || settings.layout === "cells");
  const wide = mayBeWide ? wideColumns(header.names, body, words, settings.layout === "cells") : undefined;
  const values =
    words === undefined || wide !== undefined || settings.layout === "rows" ? [] : valuesAsNames(header.names, words);
  if (values.length > 0) return refusedTable(grid, valuesInHeader(file, header, values));
  const issues: Issue[] = split === undefined ? [] : [split.issue];
  const mayBePicked = words !== undefined && settings.layout === "" && wide === undefined;
  const flushes = mayBePicked
    ? nameFlushes(header.names, body, words, titleAbove(sample, header), (from, to, why) =>
        issues.push(readAsFlushes(file, header, [from, to], why)),
      )
    : undefined;
  header.names = flushes?.names ?? header.names;
  if (words !== undefined && namelessTrays(header.names, body, words)) {
    header.names = ["tray", ...header.names.slice(1)];
    issues.push(namelessIssue(file, header));
  }
  const isLong =
    words !== undefined &&
    (settings.layout === "long" || settings.layout === "") &&
    longColumns(header.names, body, words) !== undefined;
  const columns = tableColumns(header.names, body, isLong ? undefined : words);
  const survey = surveyRows(grid.forEachRecord, {
    file,
    header,
    columns,
    // in a long table no row is a tray, so that none is judged as one
    words: isLong ? undefined : words,
    settings,
    further: mostFurther > 0 && settings.tables !== "one",
    delimited: grid.delimited,
    usualLength: Math.max(header.names.length, usualLength(body)),
  });
  appendAll(issues, survey.issues);
  const long = isLong ? longTable(file, upTo(grid.forEachRecord, survey.nextTable), header, survey, words) : undefined;
  // only its first rows looked so
  if (isLong && long === undefined) return tableOf(grid, { ...options, settings: { ...settings, layout: "rows" } });
  const plain = long ?? plainTable(grid, header, survey, columns.sorts, sample, options);
  const made = wide === undefined ? plain : withTraysInCells(plain, wide, sample, header, words!);
  appendAll(issues, made.issues);
  if (flushes?.days !== undefined) made.table = withPickingDays(made.table, flushes.days);
  Object.assign(made.table, remarksOf(survey.leftOut));
  const opened: OpenedSheet = { tables: [made.table], issues, leftOut: [...survey.leftOut, ...(made.leftOut ?? [])] };
  if (survey.nextTable === undefined) return opened;
  return merged([opened, furtherTables(grid, survey.nextTable, { ...options, mostFurther: mostFurther - 1 })]);
}

/** The tables of a grid from a row on that begins one with other columns. */
function furtherTables(grid: Grid, firstRow: number, options: TableOptions): OpenedSheet {
  const note = logEntry({
    file: grid.file,
    row: firstRow,
    rule: "further-table",
    severity: "note",
    reason: "another table with other columns begins here; it was read as one of its own",
    action: "State tables = one in settings.csv if it is no table of its own",
    setting: "tables",
  });
  const rest: Grid = {
    ...grid,
    forEachRecord: startingAt(grid.forEachRecord, firstRow),
    merges: grid.merges.filter(({ top }) => top >= firstRow),
  };
  const further = (row: number): OpenedSheet =>
    furtherTables(grid, row, { ...options, mostFurther: (options.mostFurther ?? 0) - 1 });
  const opened = listAndRest(rest, options, true, (_, row) => further(row)) ?? tableOf(rest, options);
  return merged([{ tables: [], issues: [note], leftOut: [] }, opened]);
}

/** A list of no trays at the top of a grid as it stands, then what begins below it. @param openRest opens that */
export function listAndRest(
  grid: Grid,
  options: TableOptions,
  isBelow: boolean,
  openRest: (rest: Grid, row: number) => OpenedSheet,
): OpenedSheet | undefined {
  const found = options.words === undefined ? undefined : otherListOf(grid, options.words, isBelow);
  if (found === undefined) return undefined;
  const { list, role, end } = found;
  const alone = tableOf(list, { ...options, words: undefined });
  if (role !== undefined) for (const table of alone.tables) table.listRole = role;
  return end === undefined ? alone : merged([alone, openRest(rowsOfGrid(grid, end, Number.MAX_SAFE_INTEGER), end)]);
}

/** The columns of tables side by side, with or without a title over each. */
function tablesBeside(header: FoundHeader, sample: ReadonlyArray<SheetRow>, words: SheetWords): ColumnRange[] {
  const parts = repeatedNames(header.names, words);
  if (parts.length > 0 || header.firstRow === header.lastRow) return parts;
  const lastLine = sample.find(({ row }) => row === header.lastRow)?.cells ?? [];
  return repeatedNames(
    lastLine.map((name) => name.trim()),
    words,
  );
}

/** Tables of the same columns side by side, each by itself. @param read opens one of them */
export function sideBySide(grid: Grid, parts: ColumnRange[], read: (part: Grid) => OpenedSheet): OpenedSheet {
  const note = logEntry({
    file: grid.file,
    rule: "side-by-side",
    severity: "note",
    reason: `${parts.length} tables of the same columns stand side by side; each was read as one of its own`,
    action: "State tables = one in settings.csv if they are one table",
    setting: "tables",
  });
  // what lies right of the last name still belongs to the last table
  const opened = parts.map(([from, to], index) =>
    read(columnsOfGrid(grid, from, index === parts.length - 1 ? Number.MAX_SAFE_INTEGER : to)),
  );
  return merged([{ tables: [], issues: [note], leftOut: [] }, ...opened]);
}

/** A table with a tray in each cell, of what a title above it names. */
function withTraysInCells(
  plain: MadeTable,
  wide: WideColumns,
  sample: ReadonlyArray<SheetRow>,
  header: FoundHeader,
  words: SheetWords,
): MadeTable {
  const titles = sample
    .filter(({ row }) => row < header.firstRow)
    .flatMap(({ cells }) => cells.map((cell) => cell.trim()))
    .map((title) => title.replace(byWhat, ""));
  const weight = titles.findLast((title) => title !== "" && words.columnSort(title) === "result") ?? "";
  const turned = wideTable(plain.table, wide, weight, words);
  const leftOut = [...(plain.leftOut ?? []), ...turned.leftOut];
  return { table: turned.table, issues: [...plain.issues, ...turned.issues], leftOut };
}

/** A table with one tray a row, or one flush. */
function plainTable(
  grid: Grid,
  header: FoundHeader,
  survey: Survey,
  sorts: ReadonlyArray<string | undefined>,
  sample: ReadonlyArray<SheetRow>,
  options: TableOptions,
): MadeTable {
  const { file } = grid;
  const { words, isTurned = false } = options;
  let width = survey.width;
  while (width > 0 && !survey.used[width - 1]) width--;
  const names = Array.from({ length: width }, (_, column) => header.names[column] ?? "");
  const isData = (row: number): boolean => !survey.notData.some(([first, last]) => row >= first && row <= last);
  const body = sample.filter(({ row }) => row > header.lastRow && isData(row));
  const above = sample.filter(({ row }) => row < header.firstRow);
  const titles =
    words === undefined || options.settings?.sectionTitles === "ignore"
      ? []
      : withoutLegend([...(options.titles ?? []), ...knownTitles(above, words), ...survey.titles], words, isData);
  const isApart = options.settings?.joinedCells === "ignore";
  const maker = rowMaker(survey, {
    names,
    joins: words === undefined || isApart ? [] : findJoins(names, body, words),
    titles,
    merges: isApart ? [] : grid.merges.filter(({ bottom }) => bottom > header.lastRow),
    results: sorts.flatMap((sort, column) => (sort === "result" || sort === "note" ? [column] : [])),
    settings: sorts.flatMap((sort, column) => (sort === "set" && column < width ? [column] : [])),
  });
  const apart = namesApart(file, maker.header, header.lastRow);
  const plan: ReadingPlan = {
    file,
    layout: isTurned ? "columns" : "rows",
    headerRows: [header.firstRow, header.lastRow],
    rows: survey.dataRows,
    assumptions: maker.assumptions,
  };
  const table: RawTable = {
    file,
    header: apart.names,
    headerRow: header.lastRow,
    plan,
    forEachRow: (visit) => maker.forEachRow(upTo(grid.forEachRecord, survey.nextTable), visit),
  };
  const issues = [
    ...apart.issues,
    ...sayEmpty(file, survey.width - width, survey, above),
    ...planIssues(plan),
    ...maker.issues(file),
  ];
  return { table, issues };
}
