import type { Analysis, AnswerFront, CannotTell, Chart, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { type CostSensitivity, costSensitivity } from "../../src/costing/trays/cost-sensitivity.ts";
import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { bookCosts, bookPrices } from "./book-prices.ts";
import { gramWord } from "./gram-cost.ts";
import { draws, type MarginOutlook, marginOutlook, otherCostShare, usualDiscount } from "./margin-outlook.ts";

const sensitivityShare = 0.2;
/** bars drawn; the table has every line */
const mostBars = 12;
/** what the bars call the yield, which is no cost line */
const yieldLabel = "yield per good tray";
/** products named in the sentence */
const mostNamed = 3;

/** "−20%" for 0.8. */
const change = (share: number): string => {
  const percent = Math.round((share - 1) * 100);
  return `${percent > 0 ? "+" : percent < 0 ? "−" : ""}${Math.abs(percent)}%`;
};

function sensitivityTable(bars: ReadonlyArray<CostSensitivity>, gram: string): Table {
  return {
    caption: `What moves the cost of a good ${gram}`,
    columns: [
      { label: "Line" },
      { label: "from" },
      { label: "to" },
      { label: "cost at the low end", unit: "money/g" },
      { label: "cost at the high end", unit: "money/g" },
      { label: "difference", unit: "money/g" },
      { label: "range" },
    ],
    rows: bars.map(({ label, lowShare, highShare, atLow, atHigh, spread, ownRange }) => [
      label,
      change(lowShare),
      change(highShare),
      atLow,
      atHigh,
      spread,
      ownRange ? "its own" : "the same for all",
    ]),
    note: "One line at a time, everything else as it is. Lines with a range of their own in costs.csv use it. The cost has all losses of the period in it.",
  };
}

function tornadoChart(bars: ReadonlyArray<CostSensitivity>, centre: number, gram: string): Chart {
  const rows = bars.slice(0, mostBars);
  return {
    kind: "tornado",
    title: `What moves the cost of a good ${gram}`,
    description: `Longest first: ${rows
      .slice(0, 5)
      .map(({ label }) => label)
      .join(", ")}.`,
    unit: "money/g",
    valueLabel: `cost of a good ${gram}`,
    centre,
    rows: rows.map(({ label, atLow, atHigh, lowShare, highShare }) => ({
      label,
      low: atLow,
      high: atHigh,
      lowLabel: change(lowShare),
      highLabel: change(highShare),
    })),
  };
}

function marginTable(outlooks: ReadonlyArray<MarginOutlook>): Table {
  return {
    caption: "How margins may turn out",
    columns: [
      { label: "Product" },
      { label: "price", unit: "money" },
      { label: "which price" },
      { label: "chance it covers cost", unit: "share" },
      { label: "chance it reaches the target", unit: "share" },
      { label: "margin", unit: "share" },
      { label: "margin, 1 chance in 20 of less", unit: "share" },
      { label: "margin, 1 chance in 20 of more", unit: "share" },
      { label: "profit of a unit", unit: "money" },
      { label: "chance it covers cost at a discount", unit: "share" },
    ],
    rows: outlooks.map(({ name, price, margin, profit, isCurrent, asListed, discounted }) => [
      name,
      price,
      isCurrent ? "now" : "for the target",
      asListed.chanceCovered,
      asListed.chanceTarget ?? null,
      margin,
      asListed.margin.q05,
      asListed.margin.q95,
      profit,
      discounted.chanceCovered,
    ]),
    note: `Margin and profit are those of the price list. Chances are drawn: the cost of a gram within its own interval (yield and losses as they varied from cook to cook), and all cost but the mushrooms by up to ${otherCostShare * 100}% either way. At a discount: each price somewhere between the listed one and your quantity discount, or ${usualDiscount * 100}% less where none is stated.`,
  };
}

/** A chance from draws is never 0 or 1. */
const chance = (share: number): Sentence =>
  share > 0.995 ? ["over 99%"] : share < 0.005 ? ["under 1%"] : [{ value: share, unit: "share", digits: 2 }];

/** "99% for dried slices; 3% for fresh punnet", the least sure first. */
function chances(outlooks: ReadonlyArray<MarginOutlook>): Sentence {
  if (outlooks.length === 0) return [];
  const sorted = [...outlooks].sort((a, b) => a.asListed.chanceCovered - b.asListed.chanceCovered);
  const shown = sorted
    .slice(0, mostNamed)
    .flatMap(
      ({ name, asListed }, index): Sentence => [
        index === 0 ? "" : "; ",
        ...chance(asListed.chanceCovered),
        ` for ${name}`,
      ],
    );
  const rest = sorted.length - mostNamed;
  return [
    " The chance that the price covers cost, as unsure as yield, losses and other costs are: ",
    ...shown,
    rest > 0 ? `; higher for the other ${rest === 1 ? "one" : rest}.` : ".",
  ];
}

const start = "Cannot tell which cost matters most: ";

const moves = ({ lowShare, highShare, atLow, atHigh }: CostSensitivity): Sentence => [
  `${change(lowShare)} makes it `,
  { value: atLow, unit: "money/g", isNamed: true },
  `, ${change(highShare)} `,
  { value: atHigh, unit: "money/g", isNamed: true },
];

/** Bars of a book, the longest line first, and that of the yield. */
interface Bars {
  /** "dry gram", in ounces where the report is */
  word: string;
  all: ReadonlyArray<CostSensitivity>;
  lines: ReadonlyArray<CostSensitivity>;
  ofYield: CostSensitivity | undefined;
  centre: number;
}

type Margins = ReturnType<typeof marginOutlook>;

function answerSentence({ word, lines, ofYield, centre }: Bars, margins: Margins): Sentence {
  const first = lines[0]!;
  const next = lines.slice(1, 3);
  return [
    `Of the cost lines ${first.label} moves the cost of a good ${word} (`,
    { value: centre, unit: "money/g", isNamed: true },
    ") most: ",
    ...moves(first),
    next.length === 0 ? "" : `; then ${next.map(({ label }) => label).join(" and ")}`,
    ...(ofYield !== undefined && ofYield.spread > first.spread
      ? ["; what a good tray yields moves it more than any line: ", ...moves(ofYield)]
      : []),
    ".",
    ...chances(margins.outlooks),
  ];
}

/** What the front page shows: the line that moves most, and each line's share of all that moves. */
function frontOf({ word, all, lines }: Bars): AnswerFront {
  const total = all.reduce((sum, { spread }) => sum + spread, 0);
  const longest = all.slice(0, 5);
  const first = lines[0]!;
  return {
    short: [
      `Its price at ${change(first.lowShare)} makes a good ${word} `,
      { value: first.atLow, unit: "money/g", isNamed: true },
      ".",
    ],
    figure: { label: "moves a gram's cost most", text: first.label },
    strip: {
      kind: "shares",
      parts: longest.map(({ label, spread }) => ({
        name: label === yieldLabel ? "yield" : label,
        value: total > 0 ? spread / total : 0,
      })),
    },
  };
}

function methodOf(trial: Trial, { outlooks, units, unitName }: Margins): Sentence[] {
  return [
    [
      "Each cost line's price is moved to the ends of its own range, or by 20% either way, with everything else as it is (sensitivity one at a time).",
    ],
    ...(outlooks.length === 0
      ? []
      : [
          [
            `Chances by simulation, ${draws} draws (seed ${trial.settings.seed}): the cost of a gram from the distribution whose quantiles are Fieller's limits over ${units} ${unitName}, other cost triangular.`,
          ],
        ]),
  ];
}

/** The bars of the book, or why there are none. */
function barsOf(trial: Trial, costs: TrayCosts): Bars | CannotTell {
  const [dried, fresh] = [
    costSensitivity(costs, "dried", sensitivityShare),
    costSensitivity(costs, "fresh", sensitivityShare),
  ];
  const isFresh = dried.kind !== "sensitivity" || (fresh.kind === "sensitivity" && yieldWeightOf(trial) === "fresh");
  const found = isFresh ? fresh : dried;
  if (found.kind === "cannot-tell") {
    return noAnswer([`${start}${found.reason}.`], ["Harvest and weigh at least one tray."], {
      missing: { kind: "record", need: "the weight of good trays, fresh and dry" },
    });
  }
  const lines = found.bars.filter(({ label, spread }) => label !== yieldLabel && spread > 0);
  if (lines.length === 0) {
    return noAnswer(
      [`${start}no line of costs.csv adds to the cost of a gram.`],
      ["Check the pack prices and amounts in costs.csv."],
      { missing: { kind: "costs", need: "prices and amounts in costs.csv" } },
    );
  }
  return {
    word: gramWord(isFresh ? "fresh" : "dried", trial.settings),
    all: found.bars.filter(({ spread }) => spread > 0),
    lines,
    ofYield: found.bars.find(({ label }) => label === yieldLabel),
    centre: found.centre,
  };
}

function run(trial: Trial): Outcome {
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") {
    return noAnswer(
      [`${start}${costs.reason}.`],
      ["Type what you buy, use and pay for into costs.csv, one row each."],
      {
        missing: { kind: "costs", need: "cost lines in costs.csv" },
      },
    );
  }
  const bars = barsOf(trial, costs);
  if ("kind" in bars) return bars;
  const prices = bookPrices(trial);
  const margins: Margins =
    prices.kind === "prices"
      ? marginOutlook(trial, prices)
      : { outlooks: [], without: [prices.reason], units: 0, unitName: "trays" };
  return {
    kind: "answer",
    ...frontOf(bars),
    sentence: answerSentence(bars, margins),
    certainty: "measured",
    estimates: margins.outlooks.map(({ name, margin, asListed }) => ({
      label: `margin, ${name}`,
      value: margin,
      low: Math.min(margin, asListed.margin.q05),
      high: Math.max(margin, asListed.margin.q95),
      level: 0.9,
      unit: "share",
      n: margins.units,
      nUnit: margins.unitName,
      method: `price list; range by simulation, ${draws} draws, seed ${trial.settings.seed}`,
    })),
    tables: [
      sensitivityTable(bars.all, bars.word),
      ...(margins.outlooks.length === 0 ? [] : [marginTable(margins.outlooks)]),
    ],
    charts: [tornadoChart(bars.all, bars.centre, bars.word)],
    excluded: [],
    method: methodOf(trial, margins),
    caveats: [
      ["A small line can still matter if its price could double: give such lines their own range in costs.csv."],
      ...(margins.without.length === 0 ? [] : [[`No margins drawn: ${margins.without.join("; ")}.`]]),
    ],
  };
}

/** Which cost line moves the cost of a gram most, and how likely prices cover cost. */
export const whichCostMattersMost: Analysis = {
  id: "which-cost-matters-most",
  name: "Which cost matters",
  question: "Which cost matters most, and how sure is it that the prices cover cost?",
  needs: ["tray_id", "outcome", "fresh_g", "dry_g"],
  assumes: ["costs.csv lists everything that is paid for", "costs move one at a time"],
  topic: "money",
  headline: false,
  run,
};
