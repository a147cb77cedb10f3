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

/** One cell of money with a sign or code of a currency. */
interface MarkedMoney {
  row: number;
  column: MatchedColumn;
  raw: string;
  currencies: ReadonlyArray<string>;
}

function markedMoney(table: RawTable, columns: ReadonlyArray<MatchedColumn>): MarkedMoney[] {
  const marked: MarkedMoney[] = [];
  const inHeader = columns.map(({ unit }) => currencyMark(unit));
  table.forEachRow((cells, row) => {
    columns.forEach((column, index) => {
      const raw = cells[column.index]!.trim();
      if (!/\d/.test(raw)) return;
      const inCell = currencyMark(raw);
      const { mark, currencies } = inCell.mark === "" ? inHeader[index]! : inCell;
      if (mark !== "") marked.push({ row, column, raw, currencies });
    });
  });
  return marked;
}

/**
 * The currency that the money of some sheets is marked in, where it is one and the same throughout; for a book that does
 * not state its currency.
 * @param sheets tables with their columns of money
 * @returns undefined where nothing is marked, or in more than one currency
 * @example markedCurrency([]) // undefined
 */
export function markedCurrency(
  sheets: ReadonlyArray<{ table: RawTable; columns: ReadonlyArray<MatchedColumn> }>,
): string | undefined {
  let possible: ReadonlyArray<string> | undefined;
  for (const { table, columns } of sheets) {
    for (const { currencies } of markedMoney(table, columns)) {
      possible = possible === undefined ? currencies : possible.filter((one) => currencies.includes(one));
    }
  }
  return possible?.[0];
}

/**
 * Looks at every currency sign and code of a sheet. Money in two currencies cannot be added up: rows in another one than
 * the book's are errors.
 * @param columns the columns that hold money; a mark in a header counts for its cells without one
 */
export function checkCurrency(
  table: RawTable,
  columns: ReadonlyArray<MatchedColumn>,
  currency: string,
): CurrencyFinding {
  const foreign = markedMoney(table, columns).filter(({ currencies }) => !currencies.includes(currency));
  const expected = `money in ${currency}, the currency of the book`;
  const issues = foreign.map(({ row, column, raw }) =>
    sheetIssue({
      file: table.file,
      row,
      column: column.header,
      raw,
      rule: "two-currencies",
      severity: "error",
      reason: `this money is not in ${currency}, the book's currency, and two currencies do not add up`,
      expected,
      action: `Type the price in ${currency}, converted at the rate you paid, or set currency in settings.csv`,
      setting: "currency",
    }),
  );
  return { issues, foreignRows: new Set(foreign.map(({ row }) => row)) };
}
