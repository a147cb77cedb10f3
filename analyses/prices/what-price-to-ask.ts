import type { Analysis, CannotTell, Chart, Estimate, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { breakEvenMix } from "../../src/costing/products/break-even.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { type BookPrices, bookPrices } from "../costs/book-prices.ts";
import { type PricedOutlook, priceOutlook } from "./price-outlook.ts";
import { askTable, earnsTable, feeTable, quantityTable, unitPartsTable } from "./price-tables.ts";

/** products named in the sentence for one standing; the table has them all */
const mostNamed = 3;

/** What to ask for a product: its target price, or else the one that breaks even. */
const askFor = ({ priced }: PricedOutlook): number | undefined =>
  priced.target.kind === "listed"
    ? priced.target.shown
    : priced.breakEven.kind === "listed"
      ? priced.breakEven.shown
      : undefined;

/** "dried slices 50 g, web shop (now €24.90, ask €26.90)" for each, with commas between. */
function list(rows: ReadonlyArray<PricedOutlook>): Sentence {
  const parts = rows.slice(0, mostNamed).flatMap((row, index): Sentence => {
    const { product, name } = row;
    const ask = askFor(row);
    const now: Sentence =
      product.currentPrice === undefined ? [] : ["now ", { value: product.currentPrice, unit: "money" }];
    const asked: Sentence = ask === undefined ? ["no price reaches it"] : ["ask ", { value: ask, unit: "money" }];
    return [index === 0 ? "" : "; ", name, " (", ...now, now.length === 0 ? "" : ", ", ...asked, ")"];
  });
  return rows.length > mostNamed ? [...parts, `; and ${rows.length - mostNamed} more`] : parts;
}

function answerSentence(rows: ReadonlyArray<PricedOutlook>): Sentence {
  const of = (call: PricedOutlook["call"]) => rows.filter((row) => row.call === call);
  const [below, short, fine] = [of("covers less than cost"), of("short of the target"), of("earns what it should")];
  const unset = of(undefined);
  const clauses: Sentence[] = [
    ...(below.length === 0 ? [] : [["Sold below cost today: ", ...list(below), "."]]),
    ...(short.length === 0 ? [] : [["Short of the target margin: ", ...list(short), "."]]),
    ...(unset.length === 0 ? [] : [["Without a price yet: ", ...list(unset), "."]]),
    ...(fine.length === 0
      ? []
      : [
          [
            fine.length < rows.length
              ? `Earning what it should: ${fine.length} of ${rows.length} products.`
              : `Every price covers cost and reaches its target margin, where one is stated (${rows.length} ${rows.length === 1 ? "product" : "products"}).`,
          ],
        ]),
  ];
  return clauses.flatMap((clause, index) => (index === 0 ? clause : [" ", ...clause]));
}

/** Margin at the prices now, with both ends of the interval of a gram's cost. */
function marginChart(rows: ReadonlyArray<PricedOutlook>): Chart | undefined {
  const drawn = rows.flatMap(({ name, margin }) =>
    margin?.low === undefined || margin.high === undefined
      ? []
      : [{ label: name, value: margin.value, low: margin.low, high: margin.high }],
  );
  if (drawn.length === 0) return undefined;
  return {
    kind: "intervals",
    title: "Margin at the prices now",
    description: `${drawn.map(({ label, value }) => `${label}: ${Math.round(value * 100)}%`).join("; ")}. Left of 0 the price does not cover full cost.`,
    unit: "share",
    valueLabel: "profit as a share of the price without tax",
    rows: drawn,
    reference: 0,
  };
}

const breakEvenEstimates = (trial: Trial, rows: ReadonlyArray<PricedOutlook>): Estimate[] =>
  rows.flatMap(({ name, breakEven, units, unitName }) =>
    breakEven === undefined
      ? []
      : [
          {
            label: `break-even price, ${name}`,
            value: breakEven.value,
            ...(breakEven.low === undefined || breakEven.high === undefined
              ? {}
              : { low: breakEven.low, high: breakEven.high }),
            level: trial.settings.intervalLevel,
            unit: "money",
            n: units,
            nUnit: unitName,
            method: "full cost over what the channel leaves; interval of the cost of a gram by Fieller's method",
          },
        ],
  );

/** How much of the expected sales covers what a month costs whatever is made. */
function mixSentence(prices: BookPrices, rows: ReadonlyArray<PricedOutlook>): Sentence[] {
  const { fixedPerMonth } = prices;
  if (fixedPerMonth === undefined) return [];
  const sold = rows.flatMap(({ priced, product, name }) =>
    "price" in priced.current && (product.expectedUnitsPerMonth ?? 0) > 0
      ? [{ name, contribution: priced.current.contribution, expectedUnits: product.expectedUnitsPerMonth! }]
      : [],
  );
  if (sold.length === 0) return [];
  const mix = breakEvenMix(fixedPerMonth, sold);
  const month: Sentence = [
    "A month costs ",
    { value: fixedPerMonth, unit: "money" },
    " whatever is made (rent, overhead, equipment by years, your time on the trays, shared out over the months of the book)",
  ];
  if (mix.kind === "cannot-tell") return [[...month, `; ${mix.reason}.`]];
  return [
    [
      ...month,
      "; in the proportions you expect to sell, ",
      { value: mix.shareOfExpected, unit: "share" },
      ` of the expected sales covers it (${sold.map(({ name }, index) => `${mix.units[index]} ${name}`).join("; ")}).`,
    ],
  ];
}

function certaintyOf(rows: ReadonlyArray<PricedOutlook>): "settled" | "leaning" | "open" {
  const judged = rows.flatMap(({ holds }) => (holds === undefined ? [] : [holds]));
  if (judged.length === 0) return "open";
  return judged.every(Boolean) ? "settled" : "leaning";
}

function run(trial: Trial): Outcome {
  const prices = bookPrices(trial);
  const cannot = (reason: string, settle: string): CannotTell =>
    noAnswer([`Cannot tell what price to ask: ${reason}.`], [settle]);
  if (prices.kind === "cannot-tell") {
    return cannot(
      prices.reason,
      "Fill in costs.csv (what you pay for) and products.csv (what you sell, on which channel); the log says which rows could not be used.",
    );
  }
  const { priced, unpriced } = priceOutlook(trial, prices);
  if (priced.length === 0) {
    return cannot(
      unpriced.map(({ name, reason }) => `${name}: ${reason}`).join("; "),
      "Weigh trays at harvest and after drying, and see the log for the rows of products.csv.",
    );
  }
  const impossible = priced.filter(
    ({ priced: { target }, product }) => target.kind === "cannot-tell" && product.targetMargin !== undefined,
  );
  const unsure = priced.filter(({ holds }) => holds === false);
  const tables = [
    askTable(priced),
    earnsTable(priced, prices.fixedPerMonth !== undefined),
    feeTable(priced),
    quantityTable(priced),
    unitPartsTable(priced, trial.settings.currencyDecimals),
  ].filter((table): table is Table => table !== undefined);
  const chart = marginChart(priced);
  return {
    kind: "answer",
    sentence: answerSentence(priced),
    certainty: certaintyOf(priced),
    estimates: breakEvenEstimates(trial, priced),
    tables,
    charts: chart === undefined ? [] : [chart],
    excluded: [],
    method: [
      [
        "Price for a margin: all cost of a unit and the fixed fee, over what the percentage fee and the margin leave of the price, with tax and sending on the base each is charged on; rounded up to your price endings.",
      ],
      [
        "The cost of a gram is that of good trays with the usual loss; its interval (Fieller's method, over cooks where there are three or more) is carried through to prices and margins.",
      ],
    ],
    caveats: [
      ...impossible.map(
        ({ name, product, priced: { target } }): Sentence => [
          `${name}: no price reaches a margin of `,
          { value: product.targetMargin!, unit: "share" },
          target.kind === "cannot-tell" ? `, because ${target.reason}.` : ".",
        ],
      ),
      ...unpriced.map(({ name, reason }): Sentence => [`${name} could not be priced: ${reason}.`]),
      ...(unsure.length === 0
        ? []
        : [
            [
              `Within the interval of what a gram cost, ${unsure.map(({ name }) => name).join("; ")} could stand elsewhere.`,
            ],
          ]),
      ...mixSentence(prices, priced),
      [
        "What the market pays is not in the book. Tax, label and food rules differ by place: follow local codes, and ask an accountant about tax.",
      ],
    ],
  };
}

/** What each product has to cost on each channel, and what today's prices earn. */
export const whatPriceToAsk: Analysis = {
  id: "what-price-to-ask",
  name: "Prices",
  question: "What price covers cost and the margin you want, and which prices do not?",
  needs: ["tray_id", "outcome", "fresh_g", "dry_g"],
  experimentalUnit: "cook",
  assumes: [
    "costs.csv lists everything that is paid for",
    "products.csv states fees, tax and sending as they are charged",
    "another month's trays would be like these",
  ],
  topic: "money",
  headline: true,
  run,
};
