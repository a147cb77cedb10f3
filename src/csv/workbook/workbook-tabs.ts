import { logEntry } from "../../records/log-entry.ts";
import { nameKey } from "../../records/name-key.ts";
import { notASheet } from "../not-a-sheet.ts";
import { gridOf, type Merge, type SheetRow } from "../shape/grid.ts";
import { shapeSheet } from "../shape/shape-sheet.ts";
import { openShape, type ShapeSettings, type SheetWords } from "../shape/sheet-words.ts";
import type { OpenedSheet } from "../shape/table-of.ts";
import { type CellNote, withNotesOnCells } from "./notes-on-cells.ts";
import { mostTabs, WorkbookLimit } from "./workbook-limit.ts";

/** One sheet of a workbook, read only when it is asked for. */
export interface WorkbookTab {
  name: string;
  hidden: boolean;
  read(): { rows: SheetRow[]; merges: Merge[]; notes: CellNote[] };
}

/** How a workbook is opened. */
export interface WorkbookOptions {
  sheetName?: string;
  words?: SheetWords;
  shapeOf?: (file: string) => ShapeSettings;
}

function noSuchTab(file: string, wanted: string, tabs: ReadonlyArray<WorkbookTab>): OpenedSheet {
  const issue = logEntry({
    file,
    rule: "no-such-sheet",
    severity: "error",
    raw: wanted,
    reason: "the workbook has no sheet of that name",
    expected: `one of: ${tabs.map(({ name }) => name).join(", ")}`,
    action: "Name one of its sheets, or leave the name out to read all of them",
  });
  return { tables: [], issues: [issue], leftOut: [] };
}

function openTab(path: string, tab: WorkbookTab, { words, shapeOf }: WorkbookOptions): OpenedSheet {
  const file = `${path} > ${tab.name}`;
  const { rows, merges, notes } = tab.read();
  const opened = shapeSheet(gridOf(file, rows, merges), { words, settings: shapeOf?.(file) ?? openShape });
  return withNotesOnCells(file, opened, notes);
}

/** A tab that gives no table, in a workbook where another one does: one line that says why. */
function whyNot(path: string, tab: WorkbookTab, opened: OpenedSheet): OpenedSheet {
  const first = opened.issues.find(({ severity }) => severity === "error");
  const why =
    first === undefined || first.rule === "empty-file"
      ? "it is empty"
      : first.rule === "no-header"
        ? "it has no row of column names above data"
        : first.reason;
  const issue = logEntry({
    file: `${path} > ${tab.name}`,
    rule: "tab-not-read",
    severity: first?.rule === "layout-in-doubt" ? "error" : "note",
    raw: first?.raw ?? "",
    reason: `the tab was looked at and not read: ${why}`,
    action: first === undefined || first.rule === "empty-file" ? "" : first.action,
    ...(first?.setting === undefined ? {} : { setting: first.setting }),
  });
  return { ...opened, issues: [issue, ...opened.issues.filter((one) => one !== first)] };
}

function hiddenTab(path: string, tab: WorkbookTab): OpenedSheet {
  const { rows } = tab.read();
  const issue = logEntry({
    file: `${path} > ${tab.name}`,
    rule: "tab-not-read",
    severity: rows.length > 1 ? "warning" : "note",
    reason: "the tab is hidden in the workbook and was not read",
    action: rows.length > 1 ? "Show the tab in the spreadsheet program and save, if it belongs to the book" : "",
  });
  return { tables: [], issues: [issue], leftOut: [] };
}

/**
 * Opens the tabs of a workbook: the one named, or all that are in sight. Each gives tables or one line that says why not.
 * @throws WorkbookLimit where it has more than are read; Error where it has none, or a sheet is damaged
 */
export function openTabs(path: string, tabs: ReadonlyArray<WorkbookTab>, options: WorkbookOptions): OpenedSheet {
  const { sheetName } = options;
  if (sheetName !== undefined) {
    const key = nameKey(sheetName);
    const found = tabs.find(({ name }) => name === sheetName) ?? tabs.find(({ name }) => nameKey(name) === key);
    return found === undefined ? noSuchTab(path, sheetName, tabs) : openTab(path, found, options);
  }
  if (tabs.length === 0) throw new Error("it holds no sheet");
  if (tabs.length > mostTabs) throw new WorkbookLimit("many tabs", `${tabs.length}, of which ${mostTabs} would be`);
  const inSight = tabs.filter(({ hidden }) => !hidden);
  // a workbook whose sheets are all hidden is still a workbook
  const looked = inSight.length > 0 ? inSight : tabs;
  const opened = looked.map((tab) => ({ tab, result: openTab(path, tab, options) }));
  const some = opened.some(({ result }) => result.tables.length > 0);
  const parts: OpenedSheet[] = opened.map(({ tab, result }) =>
    result.tables.length > 0 || looked.length === 1 ? result : whyNot(path, tab, result),
  );
  if (!some && looked.length > 1) {
    const error = opened.find(({ result }) => result.issues.some(({ rule }) => rule === "layout-in-doubt"));
    if (error === undefined) parts.unshift({ tables: [], issues: [notASheet(path, "no table")], leftOut: [] });
  }
  if (inSight.length > 0) parts.push(...tabs.filter(({ hidden }) => hidden).map((tab) => hiddenTab(path, tab)));
  return {
    tables: parts.flatMap(({ tables }) => tables),
    issues: parts.flatMap(({ issues }) => issues),
    leftOut: parts.flatMap(({ leftOut }) => leftOut),
  };
}
