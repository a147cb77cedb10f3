import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import { costMoneyColumns } from "../costs/cost-columns.ts";
import { costColumnsOf } from "../costs/cost-headers.ts";
import { productMoneyColumns, productSheetColumns } from "../products/product-columns.ts";
import { markedCurrency } from "./check-currency.ts";
import { matchColumns, type SideColumn } from "./match-side-columns.ts";
import { decimalsOf } from "./read-settings.ts";

function moneyIn<K extends string>(table: RawTable, columns: ReadonlyArray<SideColumn<K>>, money: ReadonlyArray<K>) {
  const { found } = matchColumns(table, columns);
  return { table, columns: money.flatMap((key) => found.get(key) ?? []) };
}

/**
 * The settings of a book whose money is all marked in one currency, where the settings state none: that one.
 * @param stated the settings that the book states
 * @returns the same settings where the book states its currency, or its marks do not agree on one
 */
export function withBookCurrency(
  settings: Settings,
  stated: ReadonlySet<keyof Settings>,
  costs: ReadonlyArray<RawTable>,
  products: ReadonlyArray<RawTable>,
): { settings: Settings; issues: Issue[] } {
  if (stated.has("currency")) return { settings, issues: [] };
  const marked = markedCurrency([
    ...costs.map((typed) => {
      const { table, found } = costColumnsOf(typed);
      return { table, columns: costMoneyColumns.flatMap((key) => found.get(key) ?? []) };
    }),
    ...products.map((table) => moneyIn(table, productSheetColumns, productMoneyColumns)),
  ]);
  if (marked === undefined || marked === settings.currency) return { settings, issues: [] };
  const issue = logEntry({
    file: (costs[0] ?? products[0])!.file,
    row: 0,
    column: "",
    raw: "",
    result: marked,
    rule: "currency-from-sheets",
    severity: "warning",
    reason: `the settings state no currency, and all money that is marked is in ${marked}`,
    expected: "",
    action: `Set currency in settings.csv to ${marked}, or to the one that is meant`,
    setting: "currency",
  });
  const currencyDecimals = stated.has("currencyDecimals") ? settings.currencyDecimals : decimalsOf(marked);
  return { settings: { ...settings, currency: marked, currencyDecimals }, issues: [issue] };
}
