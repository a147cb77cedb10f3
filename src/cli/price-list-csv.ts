import { withoutText } from "../../analyses/costs/money-doubts.ts";
import type { PricedOutlook, Unpriced } from "../../analyses/prices/price-outlook.ts";
import type { CannotTell } from "../costing/cannot-tell.ts";
import type { MoneyDoubt } from "../costing/lines/money-doubt.ts";
import { markupFromMargin } from "../costing/products/price.ts";
import type { ListedPrice } from "../costing/products/price-list.ts";
import { writeCsv } from "../csv/write-csv.ts";
import { priceListColumns } from "../engine/own-output.ts";
import type { Product } from "../records/product.ts";
import type { Settings } from "../records/setting.ts";

const text = (value: number | undefined, decimals: number): string =>
  value === undefined || !Number.isFinite(value) ? "" : value.toFixed(decimals);
const percent = (share: number | undefined): string => text(share === undefined ? undefined : share * 100, 2);

type PriceRow = Record<(typeof priceListColumns)[number], string>;

const productCells = ({ product, channel, form, grams }: Product, { currency }: Settings) => ({
  product,
  channel,
  form,
  grams: String(grams),
  currency,
});

const joined = (...parts: ReadonlyArray<string>): string => parts.filter((part) => part !== "").join("; ");

/** @param without what is missing from the money, "" for nothing */
function pricedRow(
  { product, priced, standing }: PricedOutlook,
  settings: Settings,
  hasMonths: boolean,
  without: string,
): PriceRow {
  const coin = settings.currencyDecimals;
  const shown = (price: ListedPrice | CannotTell): string => (price.kind === "listed" ? text(price.shown, coin) : "");
  const { unit, floor, breakEven, target, current, quantities } = priced;
  const now = "price" in current ? current : undefined;
  const { targetMargin, grams } = product;
  const listPrice = target.kind === "listed" ? target.shown : now?.price;
  const byWeight = (by: number): string =>
    grams > 0 && listPrice !== undefined ? text((listPrice * by) / grams, coin) : "";
  return {
    ...productCells(product, settings),
    full_cost: text(unit.full, coin),
    cost_without_own_time: text(unit.withoutOwnerLabour, coin),
    cost_of_one_more: text(unit.variable, coin),
    price_floor: shown(floor),
    break_even_price: shown(breakEven),
    target_margin_pct: percent(targetMargin),
    target_markup_pct: targetMargin === undefined ? "" : percent(markupFromMargin(targetMargin)),
    price_to_ask: shown(target),
    margin_at_it_pct: target.kind === "listed" ? percent(target.earns.margin) : "",
    fee_pct: percent(product.feeFraction),
    fee_base: product.feeBase,
    fee_fixed: text(product.feeFixed, coin),
    tax_pct: percent(product.taxRate),
    tax_included: product.taxIncluded ? "yes" : "no",
    current_price: text(product.currentPrice, coin),
    earned_per_unit: text(now?.profit, coin),
    margin_pct: percent(now?.margin),
    markup_pct: percent(now?.markup),
    earned_per_gram: text(now?.profitPerGram, coin + 3),
    earned_per_started_tray: text(now?.profitPerTray, coin),
    earned_per_shelf_day: text(now?.profitPerShelfDay, coin + 2),
    break_even_units_month: hasMonths && now?.breakEvenUnits.kind === "units" ? String(now.breakEvenUnits.units) : "",
    price_per_100_g: byWeight(100),
    price_per_oz: byWeight(28.349523125),
    quantity_from: quantities.map(({ quantity }) => String(quantity)).join("; "),
    quantity_discount_pct: quantities.map(({ discount }) => percent(discount)).join("; "),
    quantity_price: quantities.map(({ price }) => text(price, coin)).join("; "),
    standing,
    remark: joined(target.kind === "cannot-tell" && targetMargin !== undefined ? target.reason : "", without),
  };
}

/**
 * The price list as CSV: one row per product and channel, decimals with a point, money in the book's currency to its
 * smallest coin (finer per gram, tray and day), a remark where a price cannot be had.
 * @param hasMonths whether there are months, without which there are no units a month to break even
 * @param doubts what is missing from the money: named in every remark
 */
export function priceListCsv(
  priced: ReadonlyArray<PricedOutlook>,
  unpriced: ReadonlyArray<Unpriced>,
  settings: Settings,
  { hasMonths, doubts }: { hasMonths: boolean; doubts: ReadonlyArray<MoneyDoubt> },
): string {
  const without = withoutText(doubts);
  const rows: Partial<PriceRow>[] = [
    ...priced.map((one) => pricedRow(one, settings, hasMonths, without)),
    ...unpriced.map(({ product, reason }) => ({
      ...productCells(product, settings),
      standing: "not priced",
      remark: joined(reason, without),
    })),
  ];
  return writeCsv([priceListColumns, ...rows.map((row) => priceListColumns.map((key) => row[key] ?? ""))], {
    guard: true,
  });
}
