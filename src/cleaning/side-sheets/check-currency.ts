import { sheetIssue } from "../../csv/sheet-issue.ts";
import type { Issue } from "../../records/issue.ts";
import type { RawTable } from "../../records/sheet.ts";
import { currencyMark } from "./currency-mark.ts";
import type { MatchedColumn } from "./match-side-columns.ts";

/** Rows of a sheet whose money is in another currency than the book's. */
export interface CurrencyFinding {
  issues: Issue[];
  /** row numbers that cannot be used */
  foreignRows: Set<number>;
}

/**
 * Looks at every currency sign and code of a sheet. Money in two currencies cannot be added up: rows in another one
 * than the book's are errors. A sheet all in one other currency keeps its numbers, with a warning that the book says
 * another.
 * @param columns the columns that hold money; a mark in a header counts for its cells without one
 */
export function checkCurrency(
  table: RawTable,
  columns: ReadonlyArray<MatchedColumn>,
  currency: string,
): CurrencyFinding {
  const foreign: {
    row: number;
    column: MatchedColumn;
    raw: string;
    mark: string;
    currencies: ReadonlyArray<string>;
  }[] = [];
  let own = 0;
  const inHeader = columns.map(({ unit }) => currencyMark(unit));
  table.forEachRow((cells, row) => {
    columns.forEach((column, index) => {
      const raw = cells[column.index]!.trim();
      if (!/\d/.test(raw)) return;
      const inCell = currencyMark(raw);
      const { mark, currencies } = inCell.mark === "" ? inHeader[index]! : inCell;
      if (mark === "") return;
      if (currencies.includes(currency)) own++;
      else foreign.push({ row, column, raw, mark, currencies });
    });
  });
  const first = foreign[0];
  if (first === undefined) return { issues: [], foreignRows: new Set() };
  const expected = `money in ${currency}, the currency of the book`;
  const [only] = first.currencies;
  if (own === 0 && foreign.every(({ currencies }) => currencies[0] === only)) {
    const issue = sheetIssue({
      file: table.file,
      row: first.row,
      column: first.column.header,
      raw: first.raw,
      rule: "other-currency",
      severity: "warning",
      reason: `the money of this sheet is marked ${first.mark}, and the book's currency is ${currency}; the numbers were taken as they are`,
      expected,
      action: `Set currency to ${only} in settings.csv if that is what the prices are in`,
      setting: "currency",
    });
    return { issues: [issue], foreignRows: new Set() };
  }
  const issues = foreign.map(({ row, column, raw }) =>
    sheetIssue({
      file: table.file,
      row,
      column: column.header,
      raw,
      rule: "two-currencies",
      severity: "error",
      reason: "the sheet has money in more than one currency, and this is not the book's",
      expected,
      action: `Type the price in ${currency}, converted at the rate you paid`,
      setting: "currency",
    }),
  );
  return { issues, foreignRows: new Set(foreign.map(({ row }) => row)) };
}
