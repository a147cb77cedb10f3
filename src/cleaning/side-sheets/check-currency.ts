import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { RawTable } from "../../records/sheet.ts";
import { currencyMark } from "./currency-mark.ts";
import type { MatchedColumn } from "./match-side-columns.ts";
import { moneyRemark } from "./money-remark.ts";

/** Rows of a sheet whose money is in another currency or unit than the book's, or without tax. */
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

/** What a line beside the rows says of each row with money in it. @param taxAside prices are meant without tax */
function checkRemark(table: RawTable, columns: ReadonlyArray<MatchedColumn>, taxAside: boolean): CurrencyFinding {
  const found: CurrencyFinding = { issues: [], foreignRows: new Set() };
  const remark = moneyRemark(table);
  if (remark === undefined || (remark.says === "without tax" && taxAside)) return found;
  const isOther = remark.says === "other unit";
  table.forEachRow((cells, row) => {
    const column = columns.find(({ index }) => /[1-9]/.test(cells[index]!));
    if (column === undefined) return;
    if (isOther) found.foreignRows.add(row);
    const issue = {
      ...{ file: table.file, row, column: column.header, raw: cells[column.index]!, rule: "money-by-remark" },
      expected: isOther ? "money in the whole unit of the currency, such as 12.90" : "what is paid, with all tax in it",
      action: isOther
        ? `Type amounts in the whole unit and take out the line “${remark.text}”`
        : `Take out the line “${remark.text}” if you claim the tax back; else type prices with the tax first`,
    };
    found.issues.push(
      isOther
        ? logEntry({
            ...issue,
            severity: "error",
            reason: "a line beside the rows says that money is in thousands or in cents: not read",
          })
        : logEntry({
            ...issue,
            severity: "warning",
            result: issue.raw,
            reason:
              "a line beside the rows says that prices are without tax: used as typed, and more was paid where tax is not claimed back",
          }),
    );
  });
  return found;
}

/**
 * Looks at every currency sign and code of a sheet. Money in two currencies cannot be added up: rows in another one than
 * the book's are errors.
 * @param columns the columns that hold money; a mark in a header counts for its cells without one
 * @param taxAside whether a line that says that prices are without tax says nothing new
 */
export function checkCurrency(
  table: RawTable,
  columns: ReadonlyArray<MatchedColumn>,
  currency: string,
  taxAside = false,
): CurrencyFinding {
  const remarked = checkRemark(table, columns, taxAside);
  const foreign = markedMoney(table, columns).filter(({ currencies }) => !currencies.includes(currency));
  const expected = `money in ${currency}, the currency of the book`;
  const issues = foreign.map(({ row, column, raw }) =>
    logEntry({
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
  return {
    issues: [...issues, ...remarked.issues],
    foreignRows: new Set([...remarked.foreignRows, ...foreign.map(({ row }) => row)]),
  };
}
