import type { Analysis, CannotTell, Estimate, Missing, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { breakEvenMix } from "../../src/costing/products/break-even.ts";
import { counted } from "../../src/records/counted.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { type BookPrices, bookPrices, pricesMissing } from "../costs/book-prices.ts";
import { askFor, leastWord, noAsk, priceFront } from "./price-front.ts";
import { priceListChart } from "./price-list-chart.ts";
import { type PricedOutlook, priceOutlook } from "./price-outlook.ts";
import { askTable, earnsTable, feeTable, quantityTable, unitPartsTable } from "./price-tables.ts";

/** products named in the sentence for one standing; the table has them all */
const mostNamed = 3;

/** "dried slices 50 g, web shop (now €24.90, ask €26.90)" for each, with commas between. */
function list(rows: ReadonlyArray<PricedOutlook>): Sentence {
  const parts = rows.slice(0, mostNamed).flatMap((row, index): Sentence => {
    const { product, name } = row;
    const ask = askFor(row);
    const now: Sentence =
      product.currentPrice === undefined ? [] : ["now ", { value: product.currentPrice, unit: "money" }];
    const asked: Sentence = ask === undefined ? [noAsk(row)] : [`ask ${leastWord(row)}`, { value: ask, unit: "money" }];
    return [index === 0 ? "" : "; ", name, " (", ...now, now.length === 0 ? "" : ", ", ...asked, ")"];
  });
  return rows.length > mostNamed ? [...parts, `; and ${rows.length - mostNamed} more`] : parts;
}

/** What a price covers: of a cost with lines missing only what there is of it. */
const costWords = (rows: ReadonlyArray<PricedOutlook>): string =>
  rows.some(({ isLeast }) => isLeast) ? "the costs that could be read" : "cost";

function answerSentence(rows: ReadonlyArray<PricedOutlook>, cost: string): Sentence {
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
              : `Every price covers ${cost} and reaches its target margin, where one is stated (${counted(rows.length, "product")}).`,
          ],
        ]),
  ];
  return clauses.flatMap((clause, index) => (index === 0 ? clause : [" ", ...clause]));
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
  const { fixed } = prices;
  if (fixed === undefined) return [];
  const sold = rows.flatMap(({ priced, product, name }) =>
    "price" in priced.current && (product.expectedUnitsPerMonth ?? 0) > 0
      ? [{ name, contribution: priced.current.contribution, expectedUnits: product.expectedUnitsPerMonth! }]
      : [],
  );
  if (sold.length === 0) return [];
  const mix = breakEvenMix(fixed.total, sold);
  const month: Sentence = [
    "A month costs ",
    { value: fixed.total, unit: "money" },
    ` whatever is made (${fixed.lines.map(({ item }) => item).join(", ") || "nothing"}; your own time ${fixed.lines.some(({ ownerLabour }) => ownerLabour) ? "only where it is by the month" : "is not in it"})`,
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
  const judged = rows.flatMap(({ holds, callWithGuesses }) =>
    holds === undefined ? [] : [holds && callWithGuesses === undefined],
  );
  if (judged.length === 0) return "open";
  return judged.every(Boolean) ? "settled" : "leaning";
}

/** Products whose call would turn with what could not be read counted as it could be. */
function guessSentences(rows: ReadonlyArray<PricedOutlook>): Sentence[] {
  const turned = rows.filter(({ callWithGuesses }) => callWithGuesses !== undefined);
  if (turned.length === 0) return [];
  return [
    [
      `With what could not be read counted as it could be: ${turned.map(({ name, callWithGuesses }) => `${name} ${callWithGuesses}`).join("; ")}.`,
    ],
  ];
}

function caveatsOf(
  prices: BookPrices,
  priced: ReadonlyArray<PricedOutlook>,
  unpriced: ReadonlyArray<{ name: string; reason: string }>,
): Sentence[] {
  const unreachable = priced.filter(
    ({ priced: { target }, product }) => target.kind === "cannot-tell" && product.targetMargin !== undefined,
  );
  const unsure = priced.filter(({ holds }) => holds === false);
  return [
    ...unreachable.map((row): Sentence => [`${row.name}: ${noAsk(row)}.`]),
    ...unpriced.map(({ name, reason }): Sentence => [`${name} could not be priced: ${reason}.`]),
    ...(unsure.length === 0
      ? []
      : [
          [
            `Within the interval of what a gram cost, ${unsure.map(({ name }) => name).join("; ")} could turn out otherwise.`,
          ],
        ]),
    ...mixSentence(prices, priced),
    [
      "What the market pays is not in the book. Tax, label and food rules differ by place: follow local codes, and ask an accountant about tax.",
    ],
  ];
}

const cannot = (reason: string, settle: string, missing: Missing): CannotTell =>
  noAnswer([`Cannot tell what price to ask: ${reason}.`], [settle], { missing });

function run(trial: Trial): Outcome {
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") {
    return cannot(
      prices.reason,
      "Fill in costs.csv (what you pay for) and products.csv (what you sell, on which channel); the log says which rows could not be used.",
      pricesMissing(trial, "what you sell, in products.csv"),
    );
  }
  const { priced, unpriced } = priceOutlook(trial, prices);
  if (priced.length === 0) {
    return cannot(
      unpriced.map(({ name, reason }) => `${name}: ${reason}`).join("; "),
      "Weigh trays at harvest and after drying, and see the log for the rows of products.csv.",
      { kind: "record", need: "trays weighed at harvest and after drying" },
    );
  }
  const tables = [
    askTable(priced, trial.settings),
    earnsTable(priced, prices.fixed !== undefined),
    feeTable(priced),
    quantityTable(priced),
    unitPartsTable(priced, trial.settings.currencyDecimals),
  ].filter((table): table is Table => table !== undefined);
  return {
    kind: "answer",
    ...priceFront(priced, costWords(priced)),
    sentence: [
      ...answerSentence(priced, costWords(priced)),
      ...guessSentences(priced).flatMap((sentence) => [" ", ...sentence]),
    ],
    certainty: certaintyOf(priced),
    estimates: breakEvenEstimates(trial, priced),
    tables,
    charts: [priceListChart(priced, unpriced)],
    excluded: [],
    method: [
      [
        "Price for a margin: all cost of a unit and the fixed fee, over what the percentage fee and the margin leave of the price, with tax and sending on the base each is charged on; rounded up to your price endings.",
      ],
      [
        "The cost of a gram has all losses of the period in it; its interval (Fieller's method, over cooks where there are three or more) is carried through to prices and margins.",
      ],
    ],
    caveats: caveatsOf(prices, priced, unpriced),
  };
}

/** What each product has to cost on each channel, and what today's prices earn. */
export const whatPriceToAsk: Analysis = {
  id: "what-price-to-ask",
  name: "Prices",
  question: "What price covers cost and the margin you want, and which prices do not?",
  needs: ["tray_id", "outcome", "fresh_g", "dry_g"],
  assumes: [
    "costs.csv lists everything that is paid for",
    "products.csv states fees, tax and sending as they are charged",
    "another month's trays would be like these",
  ],
  topic: "money",
  headline: true,
  run,
};
