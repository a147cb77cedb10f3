import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { ShapeAssumption } from "../../records/reading-plan.ts";
import type { RawTable } from "../../records/sheet.ts";
import { countsTrays } from "../../records/words/repeat-names.ts";
import { isNothing, numberIn } from "./cell-kind.ts";
import type { SheetRow } from "./grid.ts";
import { planIssues } from "./plan-issues.ts";
import type { SheetWords } from "./sheet-words.ts";
import { namesSpread, namesSummary } from "./summary-words.ts";
import { numberedName, sharedUnit } from "./wide-names.ts";

/** A table with a tray in each cell: what varies, or which tray it is, stands over the columns. */
export interface WideColumns {
  /** the columns with a tray in each cell */
  trays: number[];
  /** the column that their names make, and its cell for each of them; none where a name is only a number of a tray */
  over: { name: string; values: string[] } | undefined;
  /** of the weights, where the names of their columns state one */
  unit?: string;
}

const aDay = /^(?:date|datum|fecha|data)$/i;

/** Names that are amounts of one unit ("5 mL", "10 mL"): what varies stands over the columns, and not what was measured. */
export function valuesAsNames(names: ReadonlyArray<string>, words: SheetWords): string[] {
  const shared = sharedUnit(names);
  const isMeasured = (name: string): boolean => words.columnSort(name) === "result" && !aDay.test(name);
  if (shared === undefined || names.some(isMeasured)) return [];
  return shared.columns.map((column) => names[column]!);
}

/** A column that sums up the ones beside it. */
const isAside = (name: string): boolean => namesSummary(name) || namesSpread(name);

/** Whether a column beside weights of trays tells which trays a row holds: their number, or what was set for all of them. */
function namesRowOfTrays(name: string, words: SheetWords): boolean {
  const sort = name === "" ? "tray" : words.columnSort(name);
  return sort === "tray" || sort === "set" || sort === "note" || countsTrays(name);
}

/** Columns of one name with a number or letter each ("rep 1", "Batch A"), beside a column of what was set. */
function numberedColumns(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  words: SheetWords,
): WideColumns | undefined {
  // "Tray 1 (g)"
  const bare = names.map((name) => words.massUnit(name) ?? { name, unit: "" });
  const parts = names.map((name, at) => (isAside(name) ? undefined : numberedName(bare[at]!.name)));
  const stem = parts.findLast((_, column) => !isAside(names[column]!))?.stem ?? "";
  const sort = words.columnSort(stem, true);
  // "T1", "T2": a letter and a number are a name of a tray
  const isLetter = /^\p{L}$/u.test(stem);
  if (stem === "" || !(countsTrays(stem) || isLetter || sort === "tray" || sort === "set")) return undefined;
  const trays = parts.flatMap((part, column) => (part?.stem.toLowerCase() === stem.toLowerCase() ? [column] : []));
  const others = names.filter((name, column) => !trays.includes(column) && !isAside(name));
  const { unit } = bare[trays[0] ?? 0]!;
  if (trays.length < 2 || trays.some((column) => bare[column]!.unit !== unit)) return undefined;
  if (
    others.length > 2 ||
    !others.some((name) => words.columnSort(name) === "set") ||
    others.some((name) => words.columnSort(name) === "result")
  )
    return undefined;
  const cells = rows
    .flatMap(({ cells: own }) => trays.map((column) => own[column] ?? ""))
    .filter((cell) => !isNothing(cell));
  const weights = cells.filter((cell) => (numberIn(cell) ?? 0) >= 20).length;
  if (weights < 0.6 * cells.length || weights < 3) return undefined;
  const isPlace = countsTrays(stem) || isLetter || sort === "tray";
  return {
    trays,
    unit,
    over: isPlace ? undefined : { name: stem, values: trays.map((column) => parts[column]!.code) },
  };
}

/**
 * The columns of a table with a tray in each cell; undefined where it is none, or where it is not known what stands over them.
 * @param isStated whether the settings say that it is one, so that amounts of any unit may stand over the columns
 */
export function wideColumns(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  words: SheetWords,
  isStated: boolean,
): WideColumns | undefined {
  if (valuesAsNames(names, words).length === 0) return numberedColumns(names, rows, words);
  const { unit, columns } = sharedUnit(names)!;
  // rows of flushes, weeks or days are of one tray each column
  const isRowOfTrays = names.every(
    (name, column) => columns.includes(column) || isAside(name) || namesRowOfTrays(name, words),
  );
  if (!isRowOfTrays && !isStated) return undefined;
  const name = words.doseName(unit) ?? (isStated ? `Amount (${unit})` : undefined);
  if (name === undefined) return undefined;
  return { trays: columns, over: { name, values: columns.map((column) => names[column]!) } };
}

/**
 * A table with a tray in each cell, made one with a tray in each row.
 * @param weight the name of what was weighed, "" where no title says it
 */
export function wideTable(
  table: RawTable,
  { trays, over, unit = "" }: WideColumns,
  weight: string,
  words: SheetWords,
): { table: RawTable; issues: Issue[]; leftOut: LeftOutRow[] } {
  const { header } = table;
  const leftOut: LeftOutRow[] = [];
  const others = header.flatMap((_, column) => (trays.includes(column) ? [] : [column]));
  const trayColumn = others.find((column) => words.columnSort(header[column]!) === "tray") ?? -1;
  const labels = new Map<string, number>();
  const label = (cells: ReadonlyArray<string>): string =>
    cells[trayColumn >= 0 ? trayColumn : (others[0] ?? -1)]?.trim() ?? "";
  let blank = 0;
  let firstBlank = 0;
  let made = 0;
  // "n", "SD" below the rows of trays
  const sumsUp = (cells: ReadonlyArray<string>): boolean => isAside(label(cells));
  table.forEachRow((cells, row) => {
    if (sumsUp(cells)) {
      leftOut.push({ file: table.file, row, cells, rule: "totals-row", reason: "it sums up other rows" });
      return;
    }
    labels.set(label(cells), (labels.get(label(cells)) ?? 0) + 1);
    if (trays.every((column) => isNothing(cells[column]!)))
      leftOut.push({ file: table.file, row, cells, rule: "blank-tray-cells", reason: "no tray stands in it" });
    for (const column of trays) {
      if (!isNothing(cells[column]!)) made++;
      else if (blank++ === 0) firstBlank = row;
    }
  });
  const kept = others.filter(
    (column) => column !== trayColumn && !countsTrays(header[column]!) && !isAside(header[column]!),
  );
  const stated = unit === "" || words.massUnit(weight) !== undefined ? "" : ` (${unit})`;
  const value = `${weight === "" ? "Weight" : weight}${stated}`;
  const says = `each cell is a tray: its ${value.toLowerCase()} stands in it, and ${
    over === undefined ? "its number" : `its ${over.name.toLowerCase()}`
  } over its column`;
  const assumption: ShapeAssumption = {
    rule: "trays-as-cells",
    says,
    columns: [],
    count: made,
    row: 0,
    example: trays.map((column) => header[column]!).join(", "),
    undo: { key: "layout", value: "rows" },
  };
  const plan =
    table.plan === undefined
      ? undefined
      : { ...table.plan, layout: "cells" as const, assumptions: [...table.plan.assumptions, assumption], rows: made };
  const turned: RawTable = {
    ...table,
    header: ["tray", ...kept.map((column) => header[column]!), ...(over === undefined ? [] : [over.name]), value],
    ...(plan === undefined ? {} : { plan }),
    forEachRow: (visit) =>
      table.forEachRow((cells, row) => {
        const own = label(cells);
        if (sumsUp(cells)) return;
        const name = own === "" || labels.get(own)! > 1 ? `row ${row}` : own;
        trays.forEach((column, index) => {
          if (isNothing(cells[column]!)) return;
          const said = over === undefined ? [] : [over.values[index]!];
          visit([`${name} (${header[column]})`, ...kept.map((at) => cells[at]!), ...said, cells[column]!], row);
        });
      }),
  };
  const blanks = logEntry({
    file: table.file,
    row: firstBlank,
    rule: "blank-tray-cells",
    severity: "warning",
    reason: `${blank === 1 ? "a cell is" : `${blank} cells are`} blank: a tray that was lost, or none at all? ${blank === 1 ? "It is" : "They are"} not counted`,
    expected: "a weight, or what became of the tray",
    action: "Type contaminated or growing where there was a tray, or none where there was none",
  });
  return {
    table: turned,
    leftOut,
    issues: [...planIssues({ ...table.plan!, assumptions: [assumption] }), ...(blank > 0 ? [blanks] : [])],
  };
}
