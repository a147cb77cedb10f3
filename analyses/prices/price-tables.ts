import type { Table, TableColumn } from "../../src/analysis.ts";
import { roundToAddUp } from "../../src/costing/apportion.ts";
import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import { markupFromMargin } from "../../src/costing/products/price.ts";
import type { ListedPrice } from "../../src/costing/products/price-list.ts";
import type { FeeBase, Product } from "../../src/records/product.ts";
import type { Settings } from "../../src/records/setting.ts";
import type { PricedOutlook } from "./price-outlook.ts";

const shown = (price: ListedPrice | CannotTell): number | null => (price.kind === "listed" ? price.shown : null);

const money = (label: string): TableColumn => ({ label, unit: "money" });
const share = (label: string): TableColumn => ({ label, unit: "share" });
const named: TableColumn[] = [{ label: "Product" }, { label: "Channel" }];
const nameCells = ({ product }: PricedOutlook): [string, string] => [product.product, product.channel];

/** A price by weight; nothing of what is not sold by weight. */
const perWeight = ({ grams }: Product, price: number, by: number): number | null =>
  grams > 0 ? (price * by) / grams : null;

/** What to ask for each product: cost, floor, break-even, target and how the price now compares. */
export function askTable(rows: ReadonlyArray<PricedOutlook>, { displayUnits }: Pick<Settings, "displayUnits">): Table {
  const weight = displayUnits === "us" ? { name: "oz", grams: 28.349523125 } : { name: "100 g", grams: 100 };
  return {
    caption: "Price list",
    columns: [
      ...named,
      money("full cost"),
      money("cost of one more"),
      money("price floor"),
      money("break-even price"),
      share("target margin"),
      share("that as markup"),
      money("price to ask"),
      money(`per ${weight.name}`),
      share("margin at it"),
      share("markup at it"),
      money("price now"),
      money(`now per ${weight.name}`),
      { label: "the price now" },
    ],
    rows: rows.map((row) => {
      const { priced, product, standing } = row;
      const { unit, floor, breakEven, target } = priced;
      const margin = product.targetMargin;
      return [
        ...nameCells(row),
        unit.full,
        unit.variable,
        shown(floor),
        shown(breakEven),
        margin ?? null,
        margin === undefined ? null : markupFromMargin(margin),
        shown(target),
        target.kind === "listed" ? perWeight(product, target.shown, weight.grams) : null,
        target.kind === "listed" ? target.earns.margin : null,
        target.kind === "listed" && Number.isFinite(target.earns.markup) ? target.earns.markup : null,
        product.currentPrice ?? null,
        product.currentPrice === undefined ? null : perWeight(product, product.currentPrice, weight.grams),
        target.kind === "cannot-tell" && margin !== undefined ? `${standing}; ${target.reason}` : standing,
      ];
    }),
    note: "Per unit sold. Margin is profit as a share of the price without tax; markup is profit as a share of what it has to cover. Below the price floor every unit loses money; below break-even it does not cover its share of rent, overhead and your time. Mushrooms are in it at what a gram cost with all losses of the period. Prices to ask are rounded up to your endings, never down; empty where no price reaches the margin.",
  };
}

const feeWords: Record<FeeBase, string> = {
  price: "the price",
  "price and shipping": "price and sending",
  "price, shipping and tax": "price, sending and tax",
};

/** What the channel takes from the price to ask, or from the price now where there is no target. */
export function feeTable(rows: ReadonlyArray<PricedOutlook>): Table {
  return {
    caption: "What the channel and the tax take",
    columns: [
      ...named,
      share("fee"),
      { label: "charged on" },
      money("fixed fee"),
      share("tax"),
      { label: "price shown" },
      money("buyer pays for sending"),
      money("sending costs you"),
      money("at a price of"),
      money("fee comes to"),
      money("tax comes to"),
      money("left before cost"),
    ],
    rows: rows.map((row) => {
      const { product, priced } = row;
      const earns =
        priced.target.kind === "listed" ? priced.target.earns : "price" in priced.current ? priced.current : undefined;
      return [
        ...nameCells(row),
        product.feeFraction,
        feeWords[product.feeBase],
        product.feeFixed,
        product.taxRate,
        product.taxRate === 0 ? "no tax" : product.taxIncluded ? "with tax" : "without tax",
        product.shippingCharged,
        product.shippingCost,
        earns?.price ?? null,
        earns?.fee ?? null,
        earns?.tax ?? null,
        earns === undefined ? null : earns.netPrice + earns.netShipping - earns.fee,
      ];
    }),
    note: "“The price” as the base of a fee is the price as shown to the buyer, so it holds the tax where the shown price does. Sending that the buyer pays for counts as income, what it costs you as cost.",
  };
}

/** What the price now earns by everything that can be short; undefined where no product has one. */
export function earnsTable(rows: ReadonlyArray<PricedOutlook>, hasFixedCost: boolean): Table | undefined {
  const now = rows.flatMap((row) => ("price" in row.priced.current ? [{ row, current: row.priced.current }] : []));
  if (now.length === 0) return undefined;
  return {
    caption: "What the prices now earn",
    columns: [
      ...named,
      money("price now"),
      money("earned per unit"),
      share("margin"),
      share("margin, gram at its dearest"),
      share("margin, gram at its cheapest"),
      share("markup"),
      { label: "earned by weight", unit: "money/g" },
      { label: "earned per started tray", unit: "money/tray" },
      { label: "earned per shelf day", unit: "money/shelf day" },
      { label: "left over the cost of one more", unit: "money" },
      { label: "units a month to break even", unit: "units" },
      { label: "units expected a month", unit: "units" },
    ],
    rows: now.map(({ row, current }) => [
      ...nameCells(row),
      current.price,
      current.profit,
      current.margin,
      row.margin?.low ?? null,
      row.margin?.high ?? null,
      Number.isFinite(current.markup) ? current.markup : null,
      current.profitPerGram ?? null,
      current.profitPerTray ?? null,
      current.profitPerShelfDay ?? null,
      current.contribution,
      hasFixedCost && current.breakEvenUnits.kind === "units" ? current.breakEvenUnits.units : null,
      row.product.expectedUnitsPerMonth ?? null,
    ]),
    note: `Earned: over full cost. A gram at its dearest and cheapest: with the cost of a gram at the ends of its interval, all else as it is. ${
      hasFixedCost
        ? "Units to break even: of this product alone, to cover what a month costs whatever is made (rent for every place, overhead, equipment by years, your own time only where it is by the month). Empty where nothing is left of a unit."
        : "Without dates of inoculation there are no months, so no units to break even."
    }`,
  };
}

/** Prices for larger orders; undefined where no product states one. */
export function quantityTable(rows: ReadonlyArray<PricedOutlook>): Table | undefined {
  const steps = rows.flatMap((row) => row.priced.quantities.map((step) => ({ row, step })));
  if (steps.length === 0) return undefined;
  return {
    caption: "Prices for larger orders",
    columns: [
      ...named,
      { label: "from", unit: "units" },
      share("discount"),
      money("price of one"),
      money("price of the order"),
      money("earned per unit"),
      share("margin"),
      share("largest discount that covers full cost"),
      share("largest discount that covers the cost of one more"),
    ],
    rows: steps.map(({ row, step }) => [
      ...nameCells(row),
      step.quantity,
      step.discount,
      step.price,
      step.orderTotal,
      step.earns.profit,
      step.earns.margin,
      step.largestDiscountAtFullCost,
      step.largestDiscountAtVariableCost,
    ]),
    note: "Fees, packing and sending are counted for each unit as for a single one, so an order sent as one parcel earns more than this.",
  };
}

/** What one sold unit costs, part by part, adding up exactly to the smallest coin. */
export function unitPartsTable(rows: ReadonlyArray<PricedOutlook>, decimals: number): Table {
  const items = [...new Set(rows.flatMap(({ priced }) => priced.unit.parts.map(({ item }) => partName(item))))];
  const coin = 10 ** decimals;
  return {
    caption: "What one sold unit costs, by part",
    columns: [...named, ...items.map((item) => money(item)), money("together"), money("without your own time")],
    rows: rows.map((row) => {
      const { unit } = row.priced;
      const { parts, total } = roundToAddUp(
        unit.parts.map(({ amount }) => amount),
        decimals,
      );
      const sums = new Map<string, number>();
      unit.parts.forEach(({ item }, index) => {
        sums.set(partName(item), (sums.get(partName(item)) ?? 0) + parts[index]!);
      });
      return [
        ...nameCells(row),
        ...items.map((item) => (sums.get(item) ?? 0) / coin),
        total / coin,
        unit.withoutOwnerLabour,
      ];
    }),
    note: "Mushrooms: the grams in the unit, with what is lost in processing and what is made and never sold, at what a good gram cost with all losses of the period.",
  };
}

/** Mushrooms have one column, whatever the product is made of. */
const partName = (item: string): string => (item.startsWith("mushrooms, ") ? "mushrooms" : item);
