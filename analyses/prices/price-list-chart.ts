import type { PriceListChart } from "../../src/analysis.ts";
import { askFor } from "./price-front.ts";
import type { PricedOutlook, Unpriced } from "./price-outlook.ts";

/** What a product's standing is called in the list. */
function standsFor({ call, standing }: PricedOutlook): string {
  if (call === "covers less than cost") return "below cost";
  if (call === "short of the target") return "below target";
  return standing === "has no price yet" ? "no price yet" : "earns what it should";
}

/** The price list as data: what is asked now, what breaks even, what to ask, and the margins. */
export function priceListChart(rows: ReadonlyArray<PricedOutlook>, unpriced: ReadonlyArray<Unpriced>): PriceListChart {
  const products = rows.map((row): PriceListChart["products"][number] => {
    const { product, breakEven, margin } = row;
    // what breaks even has its own mark
    const ask = product.targetMargin === undefined ? undefined : askFor(row);
    const hasRange = breakEven?.low !== undefined && breakEven.high !== undefined;
    return {
      product: product.product,
      ...(product.channel === "" ? {} : { channel: product.channel }),
      ...(product.currentPrice === undefined ? {} : { now: product.currentPrice }),
      ...(breakEven === undefined ? {} : { breakEven: breakEven.value }),
      ...(hasRange ? { breakEvenFrom: breakEven.low!, breakEvenTo: breakEven.high! } : {}),
      ...(ask === undefined ? {} : { ask }),
      ...(margin === undefined ? {} : { marginNow: margin.value }),
      ...(product.targetMargin === undefined ? {} : { marginWanted: product.targetMargin }),
      stands: standsFor(row),
      below: row.call === "covers less than cost",
    };
  });
  return {
    kind: "price-list",
    title: "Prices",
    description: products
      .map(
        ({ product, now, ask, stands }) => `${product}: ${now ?? "no price"} now, ${ask ?? "none"} to ask, ${stands}`,
      )
      .join("; "),
    products: [
      ...products,
      ...unpriced.map(({ product }) => ({
        product: product.product,
        ...(product.channel === "" ? {} : { channel: product.channel }),
        ...(product.currentPrice === undefined ? {} : { now: product.currentPrice }),
        stands: "cannot be priced",
        below: false,
      })),
    ],
  };
}
