import type { AnswerFront, NextStep, Sentence } from "../../src/analysis.ts";
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
    ? `no price reaches a margin of ${wanted}%, the fee leaves less than ${most}%`
    : "no price earns anything, the fee takes it all";
}

const leastMargin = (rows: ReadonlyArray<PricedOutlook>): PricedOutlook | undefined =>
  rows.toSorted((a, b) => (a.margin?.value ?? 0) - (b.margin?.value ?? 0))[0];

/** Before a price that only breaks even, since no margin is wanted, or that some costs are left out of. */
export const leastWord = ({ product, isLeast }: PricedOutlook): string =>
  product.targetMargin === undefined || isLeast ? "at least " : "";

/** What to ask for the first product without a price. */
function withoutPrice(row: PricedOutlook): Sentence {
  const ask = askFor(row);
  return ask === undefined
    ? [`${labelled(row.product.product)}: ${noAsk(row)}.`]
    : [`For ${labelled(row.product.product)} ask ${leastWord(row)}`, { value: ask, unit: "money" }, "."];
}

/** The product that stands worst, with its price and the one that breaks even; where none is short, what is left to say. */
function worstFirst(worst: PricedOutlook | undefined, { fine, unset }: Standing, cost: string): Sentence {
  if (worst === undefined) {
    const covered = unset.length === 0 ? "Every price covers" : "Those with a price cover";
    const wanted = fine.some(({ product }) => product.targetMargin !== undefined) ? " and the margin you want" : "";
    return fine.length > 0 ? [`${covered} ${cost}${wanted}.`] : withoutPrice(unset[0]!);
  }
  const { product, currentPrice = 0 } = worst.product;
  const { breakEven } = worst;
  const now: Sentence = [`Worst: ${labelled(product)}, `, { value: currentPrice, unit: "money" }, " now"];
  return breakEven === undefined
    ? [...now, "; no price breaks even."]
    : [...now, `; it breaks even ${worst.isLeast ? "above" : "at"} `, { value: breakEven.value, unit: "money" }, "."];
}

/** A product's name in as few words as a short sentence has room for. */
const labelled = (name: string): string => name.split(" ").slice(0, 6).join(" ");

/** Products by where their prices stand. */
interface Standing {
  below: PricedOutlook[];
  short: PricedOutlook[];
  fine: PricedOutlook[];
  unset: PricedOutlook[];
}

/** The standing that is told first, and how many products it has. */
function toldFirst({ below, short, fine, unset }: Standing): { label: string; value: number } {
  if (below.length > 0) return { label: "sold below cost", value: below.length };
  if (short.length > 0) return { label: "short of their margin", value: short.length };
  return fine.length > 0
    ? { label: "earn what they should", value: fine.length }
    : { label: "without a price yet", value: unset.length };
}

/** What to do about prices below cost; where the cost of a gram is too unsure to tell of any of them, no more than to look again. */
function repriceStep(below: ReadonlyArray<PricedOutlook>, lowest: PricedOutlook): NextStep {
  const sure = below.filter(
    ({ margin, product: { targetMargin = 0 } }) => !(margin?.high !== undefined && margin.high >= targetMargin),
  );
  const worst = leastMargin(sure) ?? lowest;
  const { product, currentPrice = 0 } = worst.product;
  const ask = askFor(worst);
  const first =
    below.length > 1
      ? `${below.length} ${sure.length === 0 ? "prices" : "products"}, ${labelled(product)} first`
      : undefined;
  return {
    rank: "losing",
    act: [
      sure.length === 0
        ? `Look again at ${first ?? `the price of ${product}`}.`
        : first !== undefined || ask !== undefined
          ? `Reprice ${first ?? product}.`
          : `Stop selling or reprice ${product}.`,
    ],
    because: [
      { value: currentPrice, unit: "money" },
      " now, ",
      ...(ask === undefined
        ? ["and no price reaches the margin wanted"]
        : [leastWord(worst), { value: ask, unit: "money" } as const, " to ask"]),
      sure.length === 0 ? "; what a gram cost leaves it open." : ".",
    ],
  };
}

/**
 * What the front page shows: what sells below cost, and the margins now and wanted.
 * @param cost what a price that is high enough covers, in words
 */
export function priceFront(rows: ReadonlyArray<PricedOutlook>, cost: string): AnswerFront {
  const of = (call: PricedOutlook["call"]) => rows.filter((row) => row.call === call);
  const standing: Standing = {
    below: of("covers less than cost"),
    short: of("short of the target"),
    fine: of("earns what it should"),
    unset: of(undefined),
  };
  const { below, short } = standing;
  const worst = leastMargin(below);
  return {
    short: worstFirst(worst ?? leastMargin(short), standing, cost),
    figure: { ...toldFirst(standing), of: rows.length, unit: "products" },
    strip: {
      kind: "margins",
      products: rows.map(({ name, margin, product }) => ({
        name,
        ...(margin === undefined ? {} : { now: margin.value }),
        ...(product.targetMargin === undefined ? {} : { wanted: product.targetMargin }),
      })),
    },
    ...(worst === undefined ? {} : { next: [repriceStep(below, worst)] }),
  };
}
