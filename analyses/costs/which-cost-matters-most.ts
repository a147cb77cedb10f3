import type { Analysis, Chart, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import type { GramKind } from "../../src/costing/trays/cost-account.ts";
import { type CostSensitivity, costSensitivity } from "../../src/costing/trays/cost-sensitivity.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { bookCosts, bookPrices } from "./book-prices.ts";
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
    caption: `What moves the cost of a good ${gram} gram`,
    columns: [
      { label: "Line" },
      { label: "from" },
      { label: "to" },
      { label: "cost of a gram at the low end", unit: "money/g" },
      { label: "cost of a gram at the high end", unit: "money/g" },
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
    note: "One line at a time, everything else as it is. Lines with a range of their own in costs.csv use it. The cost is that of good trays with the usual loss.",
  };
}

function tornadoChart(bars: ReadonlyArray<CostSensitivity>, centre: number, gram: string): Chart {
  const rows = bars.slice(0, mostBars);
  return {
    kind: "tornado",
    title: `What moves the cost of a good ${gram} gram`,
    description: `Longest first: ${rows
      .slice(0, 5)
      .map(({ label }) => label)
      .join(", ")}.`,
    unit: "money/g",
    valueLabel: `cost of a good ${gram} gram`,
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
      { label: "margin, 1 in 20 below", unit: "share" },
      { label: "margin, middle", unit: "share" },
      { label: "margin, 1 in 20 above", unit: "share" },
      { label: "profit of a unit, middle", unit: "money" },
      { label: "chance it covers cost at a discount", unit: "share" },
    ],
    rows: outlooks.map(({ name, price, isCurrent, asListed, discounted }) => [
      name,
      price,
      isCurrent ? "now" : "for the target",
      asListed.chanceCovered,
      asListed.chanceTarget ?? null,
      asListed.margin.q05,
      asListed.margin.median,
      asListed.margin.q95,
      asListed.profit.median,
      discounted.chanceCovered,
    ]),
    note: `Drawn together: mean yield of a good tray from the spread between cooks, share lost, and all cost but the mushrooms by up to ${otherCostShare * 100}% either way. At a discount: each price somewhere between the listed one and your quantity discount, or ${usualDiscount * 100}% less where none is stated. Every lost tray is paid for.`,
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

function run(trial: Trial): Outcome {
  const start = "Cannot tell which cost matters most: ";
  const costs = bookCosts(trial);
  if (costs.kind === "cannot-tell") {
    return noAnswer([`${start}${costs.reason}.`], ["Type what you buy, use and pay for into costs.csv, one row each."]);
  }
  const [dried, fresh] = [
    costSensitivity(costs, "dried", sensitivityShare),
    costSensitivity(costs, "fresh", sensitivityShare),
  ];
  const found = dried.kind === "sensitivity" ? dried : fresh;
  if (found.kind === "cannot-tell") {
    return noAnswer([`${start}${found.reason}.`], ["Harvest and weigh at least one tray."]);
  }
  const gram: GramKind = dried.kind === "sensitivity" ? "dried" : "fresh";
  const word = gram === "dried" ? "dry" : "fresh";
  const lines = found.bars.filter(({ label, spread }) => label !== yieldLabel && spread > 0);
  const ofYield = found.bars.find(({ label }) => label === yieldLabel);
  const first = lines[0];
  if (first === undefined) {
    return noAnswer(
      [`${start}no line of costs.csv adds to the cost of a gram.`],
      ["Check the pack prices and amounts in costs.csv."],
    );
  }
  const prices = bookPrices(trial);
  const margins =
    prices.kind === "prices"
      ? marginOutlook(trial, prices)
      : { outlooks: [], without: [prices.reason], units: 0, unitName: "trays" };
  const next = lines.slice(1, 3);
  const moves = ({ lowShare, highShare, atLow, atHigh }: CostSensitivity): Sentence => [
    `${change(lowShare)} makes it `,
    { value: atLow, unit: "money/g" },
    `, ${change(highShare)} `,
    { value: atHigh, unit: "money/g" },
  ];
  return {
    kind: "answer",
    sentence: [
      `Of the cost lines ${first.label} moves the cost of a good ${word} gram (`,
      { value: found.centre, unit: "money/g" },
      ") most: ",
      ...moves(first),
      next.length === 0 ? "" : `; then ${next.map(({ label }) => label).join(" and ")}`,
      ...(ofYield !== undefined && ofYield.spread > first.spread
        ? ["; what a good tray yields moves it more than any line: ", ...moves(ofYield)]
        : []),
      ".",
      ...chances(margins.outlooks),
    ],
    certainty: margins.units >= 3 || margins.outlooks.length === 0 ? "settled" : "leaning",
    estimates: margins.outlooks.map(({ name, asListed }) => ({
      label: `margin, ${name}`,
      value: asListed.margin.median,
      low: asListed.margin.q05,
      high: asListed.margin.q95,
      level: 0.9,
      unit: "share",
      n: margins.units,
      nUnit: margins.unitName,
      method: `simulation, ${draws} draws, seed ${trial.settings.seed}`,
    })),
    tables: [
      sensitivityTable(found.bars, word),
      ...(margins.outlooks.length === 0 ? [] : [marginTable(margins.outlooks)]),
    ],
    charts: [tornadoChart(found.bars, found.centre, word)],
    excluded: [],
    method: [
      [
        "Each cost line's price is moved to the ends of its own range, or by 20% either way, with everything else as it is (sensitivity one at a time).",
      ],
      ...(margins.outlooks.length === 0
        ? []
        : [
            [
              `Margins by simulation, ${draws} draws (seed ${trial.settings.seed}): yield log-normal with the standard error of its mean over ${margins.units} ${margins.unitName}, loss from the beta distribution its counts leave, other cost triangular.`,
            ],
          ]),
    ],
    caveats: [
      ["A small line can still matter if its price could double: give such lines their own range in costs.csv."],
      [
        "Losses are drawn as if each tray were lost on its own; trays of one jar or cook fail together, which makes a bad month likelier than shown.",
      ],
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
  experimentalUnit: "cook",
  assumes: ["costs.csv lists everything that is paid for", "costs move one at a time"],
  topic: "money",
  headline: false,
  run,
};
