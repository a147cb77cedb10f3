import type { Analysis, Chart, Outcome, Sentence, Table, Trial } from "../src/analysis.ts";
import { freshOrDried, rankForms } from "../src/costing/product-forms.ts";
import { trayCostParts } from "../src/costing/tray-cost-parts.ts";
import { bookPrices } from "./methods/book-prices.ts";
import { bookDryingRatio, type NetOffer, netOffers } from "./methods/net-offers.ts";
import { noAnswer } from "./methods/no-answer.ts";

/** What drying is worked out with. */
interface Drying {
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

interface Valued {
  offer: NetOffer;
  value: number;
  low: number;
  high: number;
}

/** Every offer valued at the drying ratio and at both ends of its interval, best first. */
function valued(offers: ReadonlyArray<NetOffer>, drying: Drying): Valued[] {
  const { ratio, low = ratio, high = ratio } = drying;
  return offers
    .map((offer) => {
      const ends = [valueAt(offer, high, drying), valueAt(offer, low, drying)];
      return { offer, value: valueAt(offer, ratio, drying), low: Math.min(...ends), high: Math.max(...ends) };
    })
    .sort((a, b) => b.value - a.value);
}

const answerTo = (fresh: NetOffer, dried: NetOffer, drying: Drying) =>
  freshOrDried({
    freshPerKg: fresh.perKgSold,
    driedPerKg: dried.perKgSold,
    dryingRatio: drying.ratio,
    dryingCostPerKgFresh: drying.costPerKgFresh,
    freshSellThrough: fresh.sellThrough,
    driedSellThrough: dried.sellThrough,
  });

function valueTable(rows: ReadonlyArray<Valued>, { ratio }: Drying): Table {
  const mostFresh = ({ mostKgPerMonth, madeOf }: NetOffer): number | null =>
    mostKgPerMonth === undefined ? null : mostKgPerMonth * (madeOf === "fresh" ? 1 : ratio);
  return {
    caption: "What a kilogram of fresh mushrooms brings, by what it is sold as",
    columns: [
      { label: "Product" },
      { label: "made of" },
      { label: "a kilogram of that brings, sold", unit: "money/kg" },
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
function turningTable(fresh: ReadonlyArray<NetOffer>, dried: ReadonlyArray<NetOffer>, drying: Drying): Table {
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
        const told = answerTo(freshOffer, driedOffer, drying);
        const driedPays = ((told.fresh + drying.costPerKgFresh) * drying.ratio) / driedOffer.sellThrough;
        return [
          freshOffer.name,
          driedOffer.name,
          told.better,
          drying.ratio,
          told.breakEvenRatio.kind === "ratio" ? told.breakEvenRatio.ratio : null,
          drying.costPerKgFresh,
          told.dried + drying.costPerKgFresh - told.fresh > 0 ? told.dried + drying.costPerKgFresh - told.fresh : null,
          freshOffer.sellThrough,
          told.breakEvenSellThrough.kind === "share" && told.breakEvenSellThrough.share <= 1
            ? told.breakEvenSellThrough.share
            : null,
          driedOffer.perKgSold,
          Math.max(0, driedPays),
        ];
      }),
    ),
    note: "Empty: no such value turns the answer. A drying ratio of 9 means 9 g of fresh for 1 g of dried.",
  };
}

function valueChart(rows: ReadonlyArray<Valued>, bestFresh: Valued): Chart {
  return {
    kind: "intervals",
    title: "What a kilogram of fresh mushrooms brings",
    description: `Best first: ${rows.map(({ offer }) => offer.name).join("; ")}. The line is the best fresh product.`,
    unit: "money/kg fresh",
    valueLabel: "after fees, packing, sending and drying",
    rows: rows.map(({ offer, value, low, high }) => ({ label: `${offer.name} (${offer.madeOf})`, value, low, high })),
    reference: bestFresh.value,
  };
}

function turnsSentence(fresh: Valued, dried: Valued, drying: Drying): Sentence {
  const { breakEvenRatio, breakEvenSellThrough } = answerTo(fresh.offer, dried.offer, drying);
  const ratio: Sentence =
    breakEvenRatio.kind === "ratio"
      ? [
          "drying pays below a drying ratio of ",
          { value: breakEvenRatio.ratio, unit: "factor", digits: 3 },
          " (yours is ",
          { value: drying.ratio, unit: "factor", digits: 3 },
          ")",
        ]
      : [breakEvenRatio.reason];
  const share: Sentence =
    breakEvenSellThrough.kind === "cannot-tell"
      ? [breakEvenSellThrough.reason]
      : breakEvenSellThrough.share > 1
        ? ["at these prices fresh does not catch up even if all of it is sold"]
        : [
            "fresh pays when more than ",
            { value: breakEvenSellThrough.share, unit: "share" },
            " of it is sold (now ",
            { value: fresh.offer.sellThrough, unit: "share" },
            ")",
          ];
  return [...ratio, "; ", ...share];
}

function run(trial: Trial): Outcome {
  const start = "Cannot tell whether to sell fresh or dry: ";
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") {
    return noAnswer(
      [`${start}${prices.reason}.`],
      ["Fill in costs.csv and products.csv, with one product sold fresh and one made of dried mushrooms."],
    );
  }
  const ratio = bookDryingRatio(trial);
  if (ratio === undefined) {
    return noAnswer(
      [`${start}no good tray was weighed both fresh and dried, so the drying ratio is not known.`],
      ["Weigh the trays of one cook at harvest and again when they are dry."],
    );
  }
  const parts = trayCostParts(prices.costs, "full", "dried");
  const drying: Drying = {
    ratio: ratio.value,
    low: ratio.low === undefined || ratio.low <= 0 ? undefined : ratio.low,
    high: ratio.high,
    costPerKgFresh: parts.kind === "parts" ? parts.dryingPerKgFresh : 0,
  };
  const { offers, without } = netOffers(trial, prices);
  const rows = valued(offers, drying);
  const fresh = rows.find(({ offer }) => offer.madeOf === "fresh");
  const dried = rows.find(({ offer }) => offer.madeOf === "dried");
  const table = valueTable(rows, drying);
  if (fresh === undefined || dried === undefined) {
    const lacking = fresh === undefined ? "fresh" : "dried";
    const other = fresh ?? dried;
    return noAnswer(
      [`${start}products.csv has no ${lacking} product with a price.`],
      other === undefined
        ? ["Add a product sold fresh and one made of dried mushrooms, each with a price."]
        : [
            `Add a ${lacking} product with its price. It has to bring more than `,
            { value: other.value, unit: "money/kg fresh" },
            ` (after fees, packing and ${lacking === "dried" ? "drying" : "what stays unsold"}) to beat ${other.offer.name}.`,
          ],
      { tables: rows.length === 0 ? [] : [table] },
    );
  }
  const gap = dried.value - fresh.value;
  const hasRange = drying.low !== undefined && drying.high !== undefined;
  const [gapLow, gapHigh] = [dried.low - fresh.value, dried.high - fresh.value];
  const dryFirst = gap > 0;
  const better = dryFirst ? dried : fresh;
  const unsoldDried = fresh.value + (1 - fresh.offer.sellThrough) * Math.max(0, dried.value);
  return {
    kind: "answer",
    sentence: [
      dryFirst ? "Dry it: " : "Sell it fresh: ",
      `as ${better.offer.name} a kilogram of fresh brings `,
      { value: better.value, unit: "money" },
      dryFirst ? "" : ` (${Math.round(fresh.offer.sellThrough * 100)} % of it sold)`,
      `, as ${(dryFirst ? fresh : dried).offer.name} `,
      { value: (dryFirst ? fresh : dried).value, unit: "money" },
      "; ",
      ...turnsSentence(fresh, dried, drying),
      ".",
    ],
    certainty: !hasRange ? "open" : gapLow * gapHigh > 0 ? "settled" : "leaning",
    estimates: [
      {
        label: `dried (${dried.offer.name}) less fresh (${fresh.offer.name}), per kg of fresh`,
        value: gap,
        ...(hasRange ? { low: gapLow, high: gapHigh } : {}),
        level: trial.settings.intervalLevel,
        unit: "money/kg fresh",
        n: ratio.units,
        nUnit: ratio.unitName,
        method: "net price over the drying ratio less drying, at both ends of the ratio's interval",
      },
      {
        label: "drying ratio, fresh over dried",
        value: ratio.value,
        ...(hasRange ? { low: drying.low, high: drying.high } : {}),
        level: trial.settings.intervalLevel,
        unit: "factor",
        n: ratio.units,
        nUnit: ratio.unitName,
        method: "ratio of sums, Fieller's interval",
      },
    ],
    tables: [
      table,
      turningTable(
        offers.filter(({ madeOf }) => madeOf === "fresh"),
        offers.filter(({ madeOf }) => madeOf === "dried"),
        drying,
      ),
    ],
    charts: [valueChart(rows, fresh)],
    excluded: [],
    method: [
      [
        "Net price of the fresh product against the net price of the dried one over the drying ratio less the cost of drying, each weighed by the share of what is made that is sold.",
      ],
      [
        `Drying ratio: all fresh over all dried weight of ${ratio.trays} good trays weighed both ways; Fieller's interval over ${ratio.units} ${ratio.unitName} (${ratio.says}).`,
      ],
    ],
    caveats: [
      [
        "This is for a kilogram that could go either way. Where a product is limited to so many a month, the next kilogram goes to the next best; the question on what to make puts them together.",
      ],
      ...(fresh.offer.sellThrough < 1 && dried.value > 0
        ? [
            [
              "Unsold fresh counts as worth nothing; if it could still be dried in good time, fresh first would bring ",
              { value: unsoldDried, unit: "money/kg fresh" },
              ".",
            ] satisfies Sentence,
          ]
        : []),
      ...(drying.costPerKgFresh === 0
        ? [["Drying costs nothing in this book: add a line with stage drying to costs.csv if that is not so."]]
        : []),
      ...(without.length === 0 ? [] : [[`Left out: ${without.join("; ")}.`]]),
      [
        "Dried product of another final moisture has another drying ratio. How fresh and dried food may be stored, labelled and sold differs by place: follow local rules.",
      ],
    ],
  };
}

/** Whether a kilogram of fresh mushrooms brings more sold fresh or dried, and where that turns. */
export const freshOrDriedAnalysis: Analysis = {
  id: "fresh-or-dried",
  question: "Sell fresh, or dry it?",
  needs: ["tray_id", "outcome", "fresh_g", "dry_g"],
  experimentalUnit: "cook",
  assumes: [
    "a kilogram could go either way",
    "what is sold goes at today's prices",
    "drying another kilogram costs what the last ones did",
  ],
  headline: false,
  run,
};
