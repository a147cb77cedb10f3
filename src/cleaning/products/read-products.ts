import { appendAll } from "../../records/append-all.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import { nameKey } from "../../records/name-key.ts";
import type { Product } from "../../records/product.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { unitNamed } from "../../records/words/units.ts";
import { matchColumns } from "../side-sheets/match-side-columns.ts";
import { readSideTable } from "../side-sheets/read-side-table.ts";
import { saidTwice } from "../side-sheets/said-twice.ts";
import { unreadColumns } from "../side-sheets/unread-columns.ts";
import { productMoneyColumns, productSheetColumns } from "./product-columns.ts";
import { productTableOf } from "./product-table.ts";
import { readProductRow } from "./read-product-row.ts";

const productsTwice = (products: ReadonlyArray<Product>) =>
  saidTwice(products, {
    sheet: "products",
    nameOf: ({ product }) => product,
    keyOf: ({ product, channel, grams, form, grade }) => [nameKey(product), nameKey(channel), grams, form, grade],
    rule: "product-twice",
    reason: "sold in the same place",
    expected: "one row for each product and place it is sold",
    action: "Take the row out whose price no longer holds, or type where each is sold under channel",
  });

/** Minutes of work that count as nothing, because the owner's time has no rate. */
function workWithoutPay(products: ReadonlyArray<Product>): { issues: Issue[]; unread: UnreadMoney[] } {
  const worked = products.filter(({ minutes }) => minutes > 0);
  if (worked.length === 0) return { issues: [], unread: [] };
  const { source, minutes } = worked[0]!;
  const reason = "minutes of work count as nothing, because the owner's time has no rate";
  const issue = logEntry({
    ...source,
    column: "minutes",
    raw: String(minutes),
    rule: "work-without-pay",
    severity: "warning",
    reason,
    expected: "owner_labour_rate in settings.csv",
    action: "Set owner_labour_rate in settings.csv; to 0 if your time is to count as nothing",
    setting: "owner_labour_rate",
  });
  return { issues: [issue], unread: [{ sheet: "products", name: "packing time", reason, source, inUse: true }] };
}

/**
 * Reads product sheets. A product with anything wrong is left out, with an error that names the row, the column and what
 * to do. Absent costs, fees and taxes are 0, an absent share sold is all, an absent fee base is the price.
 * @param isRateStated whether the settings state the rate of the owner's time
 * @returns products in the order of the sheets, grams and shares 0 to 1; and the rows left out or doubtful
 */
export function readProducts(
  tables: ReadonlyArray<RawTable>,
  settings: Settings,
  isRateStated = true,
): { products: Product[]; unread: UnreadMoney[]; issues: Issue[]; leftOut: LeftOutRow[] } {
  const products: Product[] = [];
  const unread: UnreadMoney[] = [];
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  for (const typed of tables) {
    const table = productTableOf(typed);
    const { found, issues: headerIssues } = matchColumns(table, productSheetColumns);
    appendAll(issues, headerIssues);
    appendAll(unread, unreadColumns("products", headerIssues));
    const read = readSideTable(table, found, settings, {
      taxAside: true,
      needed: ["product"],
      money: productMoneyColumns,
      text: ["product", "form", "channel", "made_of", "grade", "fee_base", "tax_included", "note"],
      name: "product",
      readRow: (row) => readProductRow(row, settings),
    });
    appendAll(products, read.records);
    for (const { name, reason, source, inUse } of read.doubtful) {
      unread.push({ sheet: "products", name, reason, source, inUse });
    }
    appendAll(issues, read.issues);
    appendAll(leftOut, read.leftOut);
  }
  const isUnpaid = settings.ownerLabourRate === 0 && !isRateStated;
  for (const said of [productsTwice(products), workWithoutPay(isUnpaid ? products : [])]) {
    appendAll(issues, said.issues);
    appendAll(unread, said.unread);
  }
  return { products: toldApart(products, settings, issues), unread, issues, leftOut };
}

/** Products of one name sold in one place, with what is in one behind the name where that tells them apart. */
function toldApart(products: ReadonlyArray<Product>, { displayUnits }: Settings, issues: Issue[]): Product[] {
  const nameOf = ({ product, channel }: Product): string => JSON.stringify([nameKey(product), nameKey(channel)]);
  const unit = displayUnits === "us" ? "oz" : "g";
  return products.map((one) => {
    const alike = products.filter((other) => nameOf(other) === nameOf(one));
    if (alike.length < 2 || new Set(alike.map(({ grams }) => grams)).size < alike.length) return one;
    const product = `${one.product} ${Number((one.grams / unitNamed(unit, "mass")!.factor).toPrecision(3))} ${unit}`;
    const reason = "another product has its name, so what is in one is added";
    issues.push(
      logEntry({
        ...one.source,
        column: "product",
        raw: one.product,
        result: product,
        rule: "name-with-size",
        severity: "change",
        reason,
      }),
    );
    return { ...one, product };
  });
}
