import type { LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import { blocksOf, directionOf, turned } from "./direction.ts";
import { findHeader } from "./find-header.ts";
import { columnLetters, columnsOfGrid, firstRows, type Grid, gridForParts, gridOf, type SheetRow } from "./grid.ts";
import { remarksOf } from "./left-rows.ts";
import { isBlank } from "./row-role.ts";
import { knownTitles } from "./section-title.ts";
import { openShape, type SheetWords } from "./sheet-words.ts";
import { repeatedNames, type SideBand, splitBands } from "./split-bands.ts";
import { listAndRest, type OpenedSheet, sideBySide, type TableOptions, tableOf } from "./table-of.ts";

const rowsLookedAt = 400;
/** A sheet with its trays as columns has a row for each thing known of them, so that more rows than this are none. */
const mostTurnedRows = 2000;
const mostTurnedColumns = 16_384;

const nothing: OpenedSheet = { tables: [], issues: [], leftOut: [] };

const joined = (parts: ReadonlyArray<OpenedSheet>): OpenedSheet => ({
  tables: parts.flatMap(({ tables }) => tables),
  issues: parts.flatMap(({ issues }) => issues),
  leftOut: parts.flatMap(({ leftOut }) => leftOut),
});

function allRows(grid: Grid): SheetRow[] | undefined {
  const rows: SheetRow[] = [];
  let fits = true;
  grid.forEachRecord((cells, row) => {
    rows.push({ cells, row });
    fits = rows.length <= mostTurnedRows && cells.length <= mostTurnedColumns;
    return fits;
  });
  return fits ? rows : undefined;
}

/** The name of the one tray of a card, from the title over it: "Tray A1"; undefined where a row of the card has it, or none. */
function namedCard(
  titles: ReadonlyArray<SheetRow>,
  body: ReadonlyArray<SheetRow>,
  { columnSort }: SheetWords,
): SheetRow | undefined {
  const isName = ({ cells }: SheetRow): boolean => cells.some((cell) => columnSort(cell, true) === "tray");
  if (body.some(isName) || body.some(({ cells }) => cells.filter((cell) => cell.trim() !== "").length > 2))
    return undefined;
  const title = titles.flatMap(({ cells }) => cells.find((cell) => cell.trim() !== "")?.trim() ?? []).at(-1) ?? "";
  const [, name, code] = /^(\p{L}[\p{L} ]*?)\s*[:#]?\s*(\p{L}{0,3}[-_ ]?\d+\p{L}?)$/u.exec(title) ?? [];
  return name !== undefined && columnSort(name, true) === "tray"
    ? { cells: [name, code!], row: body[0]!.row }
    : undefined;
}

/** One block of a sheet with its trays as columns: its titles, then its rows turned. */
function turnedTable(file: string, block: ReadonlyArray<SheetRow>, options: TableOptions): OpenedSheet {
  const count = (row: SheetRow): number => row.cells.filter((cell) => cell.trim() !== "").length;
  const isTitle = (row: SheetRow, index: number): boolean =>
    count(row) === 1 &&
    (block.slice(0, index).every((above) => count(above) <= 1) ||
      block.slice(index).every((below) => count(below) <= 1));
  const titleRows = block.filter((row, index) => count(row) === 0 || isTitle(row, index));
  const body = block.filter((row) => !titleRows.includes(row));
  const named = options.words === undefined ? undefined : namedCard(titleRows, body, options.words);
  if (named !== undefined) body.unshift(named);
  const titles =
    options.words === undefined || options.settings?.sectionTitles === "ignore"
      ? []
      : knownTitles(titleRows, options.words);
  const opened = tableOf(gridOf(file, turned(body)), {
    ...options,
    isTurned: true,
    mostFurther: 0,
    titles: titles.map((title) => ({ ...title, row: 0 })),
  });
  const leftOut = titleRows
    .filter((row) => count(row) > 0)
    .map(
      ({ cells, row }): LeftOutRow => ({
        file,
        row,
        cells,
        rule: "title-line",
        reason: "it stands above or below the table",
      }),
    );
  for (const table of opened.tables) Object.assign(table, remarksOf(leftOut));
  return { ...opened, leftOut: [...leftOut, ...opened.leftOut] };
}

/** A table whose trays are its columns, turned, with the places of its cells reported in the log. */
function turnedTables(grid: Grid, options: TableOptions): OpenedSheet {
  const rows = allRows(grid);
  if (rows === undefined) return tableOf(grid, options);
  const result = joined(blocksOf(rows).map((block) => turnedTable(grid.file, block, options)));
  if (result.tables.length === 0) return result;
  const first = result.tables[0]!;
  const says = `each tray stands in a column of the sheet; a row number in this log is the number of that column (${columnLetters(first.headerRow)} is ${first.headerRow + 1})`;
  for (const { plan } of result.tables) {
    plan?.assumptions.unshift({
      rule: "trays-as-columns",
      says,
      columns: [],
      count: plan.rows,
      row: 0,
      example: first.header.slice(0, 4).join(", "),
      undo: { key: "layout", value: "rows" },
    });
  }
  const note = logEntry({
    file: grid.file,
    rule: "trays-as-columns",
    severity: "note",
    raw: first.header.slice(0, 4).join(", "),
    reason: says,
    action: "State layout = rows in settings.csv if each row is a tray",
    setting: "layout",
  });
  return { ...result, issues: [note, ...result.issues] };
}

function inDoubt(grid: Grid, sample: ReadonlyArray<SheetRow>): OpenedSheet {
  const issue = logEntry({
    file: grid.file,
    row: sample[0]!.row,
    rule: "layout-in-doubt",
    severity: "error",
    raw: sample[0]!.cells.slice(0, 8).join(" | ").slice(0, 300),
    reason:
      "the trays could be the rows or the columns of the sheet: its first row and its first column both name things known of a tray",
    expected: "one row for each tray",
    action: "State layout = rows or layout = columns in settings.csv",
    setting: "layout",
  });
  return { tables: [], issues: [issue], leftOut: [] };
}

/** One band of a sheet: its direction, unless that is known, then its tables. */
function bandTables(grid: Grid, options: TableOptions, words: SheetWords, areRows: boolean): OpenedSheet {
  const { layout } = options.settings ?? openShape;
  if (layout === "columns") return turnedTables(grid, options);
  if (layout !== "" || areRows) return tableOf(grid, options);
  const sample = firstRows(grid.forEachRecord, rowsLookedAt);
  const direction = directionOf(sample, words);
  if (direction.doubt) return inDoubt(grid, sample);
  return direction.layout === "columns" ? turnedTables(grid, options) : tableOf(grid, options);
}

/**
 * Cells beside a table that do not belong to it: shown as left out, and pointed out where they look like a list of values.
 * @param isStated the grower has said that there are several tables
 */
function setAside(grid: Grid, { range, why }: SideBand, isStated: boolean): OpenedSheet {
  const leftOut: LeftOutRow[] = [];
  const beside = columnsOfGrid(grid, range[0], range[1]);
  let first = 0;
  let example = "";
  beside.forEachRecord((cells, row) => {
    if (!cells.some((cell) => cell.trim() !== "")) return true;
    if (first === 0) {
      first = row;
      example = cells
        .filter((cell) => cell.trim() !== "")
        .slice(0, 6)
        .join(" | ");
    }
    leftOut.push({
      file: grid.file,
      row,
      cells,
      rule: "beside-table",
      reason: `it is next to the table, in ${columnName(range)}`,
    });
    return true;
  });
  const issue = logEntry({
    file: grid.file,
    row: first,
    rule: "beside-table",
    severity: why === "stray" || isStated ? "note" : "warning",
    raw: example,
    reason: `${columnName(range)} beside the table hold ${why === "stray" ? "a few cells" : "a list"} without trays’ names, apart by a blank column: not read`,
    expected: "one table a sheet",
    action:
      "Close the gap if they belong to the table (or state tables = one in settings.csv); if not, state tables = several, or move them to a sheet of their own",
    setting: "tables",
  });
  return { tables: [], issues: first === 0 ? [] : [issue], leftOut };
}

const columnName = ([from, to]: readonly [number, number]): string =>
  to - from === 1 ? `column ${columnLetters(from)}` : `columns ${columnLetters(from)} to ${columnLetters(to - 1)}`;

/** A list of no trays as it stands, since the shapes of trays would part it; then what begins below it. */
function otherList(grid: Grid, options: TableOptions, words: SheetWords): OpenedSheet | undefined {
  return listAndRest(grid, options, false, (rest) => otherList(rest, options, words) ?? anyShape(rest, options, words));
}

/**
 * Makes tables of a sheet, however it lies: tables side by side or one below the other, trays as rows or as columns, one
 * thing of one tray a row. Without words only a header and its rows are looked for.
 */
export function shapeSheet(grid: Grid, options: TableOptions): OpenedSheet {
  const { words } = options;
  if (words === undefined) return tableOf(grid, options);
  let most = 0;
  const counting: Grid = {
    ...grid,
    forEachRecord(visit) {
      let filled = 0;
      grid.forEachRecord((cells, row, unclosed) => {
        if (!isBlank(cells)) filled++;
        return visit(cells, row, unclosed);
      });
      most = Math.max(most, filled);
    },
  };
  const opened = otherList(counting, options, words) ?? anyShape(counting, options, words);
  // the rows of a sheet whose trays are its columns are no rows of trays
  if (opened.tables.every(({ plan }) => plan !== undefined && plan.layout !== "columns"))
    for (const table of opened.tables) table.filledRows = most;
  return opened;
}

/** @param areRows whether it is known already that the trays are rows */
function anyShape(grid: Grid, options: TableOptions, words: SheetWords, areRows = false): OpenedSheet {
  const { settings = openShape } = options;
  if (settings.tables === "one") return bandTables(grid, options, words, areRows);
  const sample = firstRows(grid.forEachRecord, rowsLookedAt);
  // names that begin again part tables better than a column that happens to be blank, and head columns
  const again = settings.layout === "columns" ? [] : repeatedNames(findHeader(sample, words)?.names ?? [], words);
  if (again.length > 0)
    return sideBySide(gridForParts(grid, again.length), again, (part) => anyShape(part, options, words, true));
  const bands = splitBands(sample, words);
  if (bands.length < 2) return bandTables(grid, options, words, areRows);
  const whole = gridForParts(grid, bands.length);
  const opened = bands.map((band, index) => {
    if (index > 0 && band.why !== "table") return setAside(whole, band, settings.tables === "several");
    // what lies right of the last column looked at still belongs to the last band
    const last = index === bands.length - 1 ? Number.MAX_SAFE_INTEGER : band.range[1];
    const part = columnsOfGrid(grid, band.range[0], last);
    return otherList(part, options, words) ?? bandTables(part, options, words, areRows);
  });
  const tables = bands.filter(({ why }) => why === "table").length;
  const note = logEntry({
    file: grid.file,
    rule: "side-by-side",
    severity: "note",
    reason: `${tables} tables stand side by side, apart by a blank column; each was read as one of its own`,
    action: "State tables = one in settings.csv if they are one table",
    setting: "tables",
  });
  return joined([tables > 1 ? { ...nothing, issues: [note] } : nothing, ...opened]);
}
