import type {
  Analysis,
  AnswerFront,
  CannotTell,
  Estimate,
  Outcome,
  Quantity,
  Sentence,
  Table,
  Trial,
} from "../../src/analysis.ts";
import { trayCostParts } from "../../src/costing/trays/tray-cost-parts.ts";
import { capital } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { bookDryingRatio, type DryingRatio } from "../costs/book-drying-ratio.ts";
import { type BookPrices, bookPrices, pricesMissing } from "../costs/book-prices.ts";
import { kilogramWord } from "../costs/gram-cost.ts";
import {
  answerTo,
  type Drying,
  turningTable,
  type Valued,
  valueChart,
  valued,
  valueTable,
} from "./fresh-or-dried-tables.ts";
import { netOffers } from "./net-offers.ts";

function turnsSentence(fresh: Valued, dried: Valued, drying: Drying): Sentence {
  const { breakEvenRatio, breakEvenSellThrough } = answerTo(fresh.offer, dried.offer, drying);
  const ratio: Sentence =
    breakEvenRatio.kind === "ratio"
      ? [
          "Drying pays below a drying ratio of ",
          { value: breakEvenRatio.ratio, unit: "factor", digits: 3 },
          " (yours is ",
          { value: drying.ratio, unit: "factor", digits: 3 },
          ")",
        ]
      : [capital(breakEvenRatio.reason)];
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

const start = "Cannot tell whether to sell fresh or dry: ";

/** Both ways to sell, the range of the ratio between them, and which is better. */
interface Compared {
  fresh: Valued;
  dried: Valued;
  drying: Drying;
  better: Valued;
  other: Valued;
  hasRange: boolean;
  /** dried less fresh, and at both ends of the ratio's interval */
  gap: number;
  gapLow: number;
  gapHigh: number;
}

function compared(fresh: Valued, dried: Valued, drying: Drying): Compared {
  const gap = dried.value - fresh.value;
  return {
    fresh,
    dried,
    drying,
    better: gap > 0 ? dried : fresh,
    other: gap > 0 ? fresh : dried,
    hasRange: drying.low !== undefined && drying.high !== undefined,
    gap,
    gapLow: dried.low - fresh.value,
    gapHigh: dried.high - fresh.value,
  };
}

/** What is said where only one way to sell has a price. */
function oneWayOnly(fresh: Valued | undefined, dried: Valued | undefined, table: Table | undefined): CannotTell {
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
    {
      tables: table === undefined ? [] : [table],
      missing: { kind: "record", need: `a ${lacking} product with a price` },
    },
  );
}

function answerSentence({ fresh, dried, drying, better, other }: Compared, word: string): Sentence {
  const dryFirst = better === dried;
  const brings = ({ value }: Valued): Quantity => ({ value, unit: "money/kg", isNamed: true });
  return [
    `${dryFirst ? "Dry it" : "Sell it fresh"}: a ${word} of fresh brings `,
    brings(better),
    ` as ${better.offer.name}`,
    ...(dryFirst ? [] : [" (", { value: fresh.offer.sellThrough, unit: "share" } as const, " of it sold)"]),
    " and ",
    brings(other),
    ` as ${other.offer.name}. `,
    ...turnsSentence(fresh, dried, drying),
    ".",
  ];
}

/** What the front page shows: what a fresh kilogram brings either way. */
function frontOf({ fresh, dried, better, hasRange }: Compared, word: string): AnswerFront {
  return {
    short: [
      better === dried ? "Mushrooms bring more dried than sold fresh." : "Mushrooms bring more sold fresh than dried.",
    ],
    figure: {
      label: `a fresh ${word} brings, ${better === dried ? "dried" : "sold fresh"}`,
      value: better.value,
      unit: "money/kg",
      ...(hasRange && better === dried ? { from: dried.low, to: dried.high } : {}),
    },
    strip: {
      kind: "groups",
      unit: "money/kg",
      groups: [
        { name: "fresh", value: fresh.value },
        { name: "dried", value: dried.value, ...(hasRange ? { from: dried.low, to: dried.high } : {}) },
      ],
    },
  };
}

function estimatesOf(
  trial: Trial,
  { fresh, dried, drying, gap, gapLow, gapHigh, hasRange }: Compared,
  ratio: DryingRatio,
): Estimate[] {
  const restsOn = { level: trial.settings.intervalLevel, n: ratio.units, nUnit: ratio.unitName };
  return [
    {
      ...restsOn,
      label: `dried (${dried.offer.name}) less fresh (${fresh.offer.name})`,
      value: gap,
      ...(hasRange ? { low: gapLow, high: gapHigh } : {}),
      unit: "money/kg fresh",
      method: "net price over the drying ratio less drying, at both ends of the ratio's interval",
    },
    {
      ...restsOn,
      label: "drying ratio, fresh over dried",
      value: ratio.value,
      ...(drying.low === undefined || drying.high === undefined ? {} : { low: drying.low, high: drying.high }),
      unit: "factor",
      method: "ratio of sums, Fieller's interval",
    },
  ];
}

function caveatsOf({ fresh, dried, drying }: Compared, without: ReadonlyArray<string>): Sentence[] {
  const unsoldDried = fresh.value + (1 - fresh.offer.sellThrough) * Math.max(0, dried.value);
  return [
    [
      "This is for mushrooms that could go either way. Where a product is limited to so many a month, the next go to the next best; the question on what to make puts them together.",
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
  ];
}

const methodOf = (ratio: DryingRatio): Sentence[] => [
  [
    "Net price of the fresh product against the net price of the dried one over the drying ratio less the cost of drying, each weighed by the share of what is made that is sold.",
  ],
  [
    `Drying ratio: all fresh over all dried weight of ${ratio.trays} good trays weighed both ways; Fieller's interval over ${ratio.units} ${ratio.unitName} (${ratio.says}).`,
  ],
];

/** What drying is worked out with; the ends of the ratio only where they are above 0. */
function dryingOf(prices: BookPrices, ratio: DryingRatio): Drying {
  const parts = trayCostParts(prices.costs, "full", "dried");
  return {
    ratio: ratio.value,
    low: ratio.low === undefined || ratio.low <= 0 ? undefined : ratio.low,
    high: ratio.high,
    costPerKgFresh: parts.kind === "parts" ? parts.dryingPerKgFresh : 0,
  };
}

function run(trial: Trial): Outcome {
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") {
    return noAnswer(
      [`${start}${prices.reason}.`],
      ["Fill in costs.csv and products.csv, with one product sold fresh and one made of dried mushrooms."],
      { missing: pricesMissing(trial, "a fresh and a dried product, in products.csv") },
    );
  }
  const ratio = bookDryingRatio(trial);
  if (ratio === undefined) {
    return noAnswer(
      [`${start}no good tray was weighed both fresh and dried, so the drying ratio is not known.`],
      ["Weigh the trays of one cook at harvest and again when they are dry."],
      { missing: { kind: "record", need: "trays weighed both fresh and dry" } },
    );
  }
  const drying = dryingOf(prices, ratio);
  const { offers, without } = netOffers(trial, prices);
  const rows = valued(offers, drying);
  const fresh = rows.find(({ offer }) => offer.madeOf === "fresh");
  const dried = rows.find(({ offer }) => offer.madeOf === "dried");
  const table = valueTable(rows, drying);
  if (fresh === undefined || dried === undefined)
    return oneWayOnly(fresh, dried, rows.length === 0 ? undefined : table);
  const both = compared(fresh, dried, drying);
  const word = kilogramWord(trial.settings);
  return {
    kind: "answer",
    ...frontOf(both, word),
    sentence: answerSentence(both, word),
    certainty: !both.hasRange ? "open" : both.gapLow * both.gapHigh > 0 ? "settled" : "leaning",
    estimates: estimatesOf(trial, both, ratio),
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
    method: methodOf(ratio),
    caveats: caveatsOf(both, without),
  };
}

/** Whether a kilogram of fresh mushrooms brings more sold fresh or dried, and where that turns. */
export const freshOrDriedAnalysis: Analysis = {
  id: "fresh-or-dried",
  name: "Fresh or dried",
  question: "Sell fresh, or dry it?",
  needs: ["tray_id", "outcome", "fresh_g", "dry_g"],
  assumes: [
    "what is picked could go either way",
    "what is sold goes at today's prices",
    "drying more costs what the last did",
  ],
  topic: "money",
  headline: false,
  run,
};
