import type { AnswerFront, Sentence } from "../../src/analysis.ts";
import { highestMargin, termsOf } from "../../src/costing/products/price.ts";
import type { PricedOutlook } from "./price-outlook.ts";

/** What to ask for a product: its target price, or the one that breaks even where no margin is wanted. */
export const askFor = ({ priced, product }: PricedOutlook): number | undefined =>
  priced.target.kind === "listed"
    ? priced.target.shown
    : product.targetMargin === undefined && priced.breakEven.kind === "listed"
      ? priced.breakEven.shown
      : undefined;

/** Why there is no price to ask: "no price reaches 40 %; the highest margin is below 30 %". */
export function noAsk({ product }: PricedOutlook): string {
  const most = Math.floor(highestMargin(termsOf(product)) * 1000 + 1e-9) / 10;
  const wanted = Math.round((product.targetMargin ?? 0) * 1000) / 10;
  return most > 0
    ? `no price reaches a margin of ${wanted} %, the fee leaves less than ${most} %`
    : "no price earns anything, the fee takes it all";
}

const leastMargin = (rows: ReadonlyArray<PricedOutlook>): PricedOutlook | undefined =>
  rows.toSorted((a, b) => (a.margin?.value ?? 0) - (b.margin?.value ?? 0))[0];

/** The product that stands worst, with its price and the one that breaks even. */
function worstFirst(worst: PricedOutlook | undefined): Sentence {
  if (worst === undefined) return ["Every price covers cost and the margin you want."];
  const { product, currentPrice = 0 } = worst.product;
  const { breakEven } = worst;
  const now: Sentence = [`Worst: ${labelled(product)}, `, { value: currentPrice, unit: "money" }, " now"];
  return breakEven === undefined
    ? [...now, "; no price breaks even."]
    : [...now, "; it breaks even at ", { value: breakEven.value, unit: "money" }, "."];
}

/** A product's name in as few words as a short sentence has room for. */
const labelled = (name: string): string => name.split(" ").slice(0, 6).join(" ");

/** What the front page shows: what sells below cost, and the margins now and wanted. */
export function priceFront(rows: ReadonlyArray<PricedOutlook>): AnswerFront {
  const below = rows.filter(({ call }) => call === "covers less than cost");
  const short = rows.filter(({ call }) => call === "short of the target");
  const worst = leastMargin(below);
  const ask = worst === undefined ? undefined : askFor(worst);
  return {
    short: worstFirst(worst ?? leastMargin(short)),
    figure: {
      label:
        below.length > 0 ? "sold below cost" : short.length > 0 ? "short of their margin" : "earn what they should",
      value: below.length > 0 ? below.length : short.length > 0 ? short.length : rows.length,
      of: rows.length,
      unit: "products",
    },
    strip: {
      kind: "margins",
      products: rows.map(({ name, margin, product }) => ({
        name,
        ...(margin === undefined ? {} : { now: margin.value }),
        ...(product.targetMargin === undefined ? {} : { wanted: product.targetMargin }),
      })),
    },
    ...(worst === undefined
      ? {}
      : {
          next: [
            {
              rank: "losing",
              act: [
                ask === undefined
                  ? `Stop selling or reprice ${worst.product.product}.`
                  : `Reprice ${worst.product.product}.`,
              ],
              because: [
                { value: worst.product.currentPrice ?? 0, unit: "money" },
                " now, ",
                ...(ask === undefined
                  ? ["and no price reaches the margin wanted."]
                  : [{ value: ask, unit: "money" } as const, " to ask."]),
              ],
            },
          ],
        }),
  };
}
