import { sheetIssue } from "../../csv/sheet-issue.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import { plainConventions } from "../values/quantity-reading.ts";
import { checkCurrency } from "./check-currency.ts";
import { decimalMarkOf } from "./decimal-mark-of.ts";
import type { MatchedColumn } from "./match-side-columns.ts";
import { RowCells } from "./row-cells.ts";

/** How the rows of a side sheet are read. */
export interface SideReading<K extends string, T> {
  /** columns without which no row can be read */
  needed: ReadonlyArray<K>;
  /** columns of money, which must be in one currency */
  money: ReadonlyArray<K>;
  /** columns of text, which say nothing about the decimal mark */
  text: ReadonlyArray<K>;
  /** undefined where the row cannot be used; the reader has then said why */
  readRow(row: RowCells<K>): T | undefined;
}

/** Reads every row of a side sheet; rows that cannot be used are left out with the reason said of them. */
export function readSideTable<K extends string, T>(
  table: RawTable,
  found: ReadonlyMap<K, MatchedColumn>,
  settings: Settings,
  { needed, money, text, readRow }: SideReading<K, T>,
): { records: T[]; issues: Issue[]; leftOut: LeftOutRow[] } {
  const records: T[] = [];
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  const missing = needed.filter((key) => !found.has(key));
  if (missing.length > 0) {
    issues.push(
      sheetIssue({
        file: table.file,
        row: table.headerRow,
        rule: "missing-column",
        severity: "error",
        raw: table.header.filter((name) => name !== "").join(", "),
        reason: `the sheet has no column ${missing.join(", ")}; none of its rows can be used`,
        expected: `columns named ${needed.join(", ")}`,
        action: "Add the column, or rename the one that was meant",
      }),
    );
    table.forEachRow((cells, row) =>
      leftOut.push({
        file: table.file,
        row,
        cells,
        rule: "missing-column",
        reason: "a column the sheet needs is missing",
      }),
    );
    return { records, issues, leftOut };
  }
  const numeric = [...found].filter(([key]) => !text.includes(key)).map(([, { index }]) => index);
  const conventions = {
    ...plainConventions,
    decimalMark: decimalMarkOf(table, numeric, settings),
    percentStyle: settings.percentStyle,
    cupMillilitres: settings.cupMillilitres,
    syringeMillilitres: settings.syringeMillilitres,
  };
  const moneyColumns = money.flatMap((key) => found.get(key) ?? []);
  const { issues: currencyIssues, foreignRows } = checkCurrency(table, moneyColumns, settings.currency);
  table.forEachRow((cells, number) => {
    const rowIssues: Issue[] = currencyIssues.filter(({ row }) => row === number);
    const row = new RowCells(table.file, number, cells, found, conventions, rowIssues);
    row.failed = foreignRows.has(number);
    const record = readRow(row);
    if (record !== undefined && !row.failed) records.push(record);
    else leftOut.push(row.leftOut());
    for (const issue of rowIssues) issues.push(issue);
  });
  return { records, issues, leftOut };
}
