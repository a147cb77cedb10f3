import type { Chart, Table } from "../../src/analysis.ts";
import { freshOrDried, rankForms } from "../../src/costing/products/product-forms.ts";
import type { NetOffer } from "./net-offers.ts";

/** What drying is worked out with. */
export interface Drying {
  ratio: number;
  /** the interval of the ratio; absent where there is none */
  low: number | undefined;
  high: number | undefined;
  costPerKgFresh: number;
}

/** What a kilogram of fresh mushrooms brings as one product, unsold product counted as nothing. */
const valueAt = (
  { name, madeOf, perKgSold, sellThrough }: NetOffer,
  ratio: number,
  { costPerKgFresh }: Drying,
): number =>
  rankForms([
    {
      name,
      netPricePerKg: perKgSold,
      freshPerKg: madeOf === "fresh" ? 1 : ratio,
      processingLoss: 0,
      processingCostPerKgFresh: madeOf === "fresh" ? 0 : costPerKgFresh,
      sellThrough,
    },
  ])[0]!.perKgFresh;

/** An offer with what a kilogram of fresh mushrooms brings through it. */
export interface Valued {
  offer: NetOffer;
  value: number;
  low: number;
  high: number;
}

/** Every offer valued at the drying ratio and at both ends of its interval, best first. */
export function valued(offers: ReadonlyArray<NetOffer>, drying: Drying): Valued[] {
  const { ratio, low = ratio, high = ratio } = drying;
  return offers
    .map((offer) => {
      const ends = [valueAt(offer, high, drying), valueAt(offer, low, drying)];
      return { offer, value: valueAt(offer, ratio, drying), low: Math.min(...ends), high: Math.max(...ends) };
    })
    .sort((a, b) => b.value - a.value);
}

/** Fresh against dried, one offer of each. */
export const answerTo = (fresh: NetOffer, dried: NetOffer, drying: Drying) =>
  freshOrDried({
    freshPerKg: fresh.perKgSold,
    driedPerKg: dried.perKgSold,
    dryingRatio: drying.ratio,
    dryingCostPerKgFresh: drying.costPerKgFresh,
    freshSellThrough: fresh.sellThrough,
    driedSellThrough: dried.sellThrough,
  });

/** Every offer with what a fresh kilogram brings. */
export function valueTable(rows: ReadonlyArray<Valued>, { ratio }: Drying): Table {
  const mostFresh = ({ mostKgPerMonth, madeOf }: NetOffer): number | null =>
    mostKgPerMonth === undefined ? null : mostKgPerMonth * (madeOf === "fresh" ? 1 : ratio);
  return {
    caption: "What fresh mushrooms bring, by what they are sold as",
    columns: [
      { label: "Product" },
      { label: "made of" },
      { label: "that brings, sold", unit: "money/kg" },
      { label: "share sold", unit: "share" },
      { label: "brings", unit: "money/kg fresh" },
      { label: "from", unit: "money/kg fresh" },
      { label: "to", unit: "money/kg fresh" },
      { label: "most that can be sold a month", unit: "kg fresh" },
    ],
    rows: rows.map(({ offer, value, low, high }) => [
      offer.name,
      offer.madeOf,
      offer.perKgSold,
      offer.sellThrough,
      value,
      low,
      high,
      mostFresh(offer),
    ]),
    note: "After fees, packing, sending, packing work and drying; growing costs the same either way and is not taken off. From and to: at both ends of the drying ratio's interval.",
  };
}

/** For every fresh and dried product, what would have to change for the answer to turn. */
/** Where fresh and dried bring the same: the drying ratio, price and sell-through. */
export function turningTable(fresh: ReadonlyArray<NetOffer>, dried: ReadonlyArray<NetOffer>, drying: Drying): Table {
  return {
    caption: "Where the answer turns",
    columns: [
      { label: "Fresh as" },
      { label: "dried as" },
      { label: "better now" },
      { label: "drying ratio now", unit: "factor" },
      { label: "drying pays below", unit: "factor" },
      { label: "drying costs", unit: "money/kg fresh" },
      { label: "drying pays below a cost of", unit: "money/kg fresh" },
      { label: "share of fresh sold", unit: "share" },
      { label: "fresh pays above a share of", unit: "share" },
      { label: "dried brings, sold", unit: "money/kg" },
      { label: "drying pays above", unit: "money/kg" },
    ],
    rows: fresh.flatMap((freshOffer) =>
      dried.map((driedOffer) => {
        const answer = answerTo(freshOffer, driedOffer, drying);
        const driedPays = ((answer.fresh + drying.costPerKgFresh) * drying.ratio) / driedOffer.sellThrough;
        return [
          freshOffer.name,
          driedOffer.name,
          answer.better,
          drying.ratio,
          answer.breakEvenRatio.kind === "ratio" ? answer.breakEvenRatio.ratio : null,
          drying.costPerKgFresh,
          answer.dried + drying.costPerKgFresh - answer.fresh > 0
            ? answer.dried + drying.costPerKgFresh - answer.fresh
            : null,
          freshOffer.sellThrough,
          answer.breakEvenSellThrough.kind === "share" && answer.breakEvenSellThrough.share <= 1
            ? answer.breakEvenSellThrough.share
            : null,
          driedOffer.perKgSold,
          Math.max(0, driedPays),
        ];
      }),
    ),
    note: "Empty: no such value turns the answer. A drying ratio of 9 means 9 g of fresh for 1 g of dried.",
  };
}

/** What a fresh kilogram brings through every offer, against the best fresh one. */
export function valueChart(rows: ReadonlyArray<Valued>, bestFresh: Valued): Chart {
  return {
    kind: "intervals",
    title: "What fresh mushrooms bring",
    description: `Best first: ${rows.map(({ offer }) => offer.name).join("; ")}. The line is the best fresh product.`,
    unit: "money/kg fresh",
    valueLabel: "after fees, packing, sending and drying",
    rows: rows.map(({ offer, value, low, high }) => ({ label: offer.name, value, low, high })),
    reference: bestFresh.value,
  };
}
