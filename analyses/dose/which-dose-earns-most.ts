import type { Analysis, Chart, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import {
  type BestDose,
  type DoseEarnings,
  type DoseEconomics,
  doseEarnings,
  doseProfit,
} from "../../src/costing/dose-profit.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { compareTreatment } from "../comparison/compare-treatment.ts";
import { layoutGrid } from "../comparison/confounding.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { yieldPerGoodTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { bookPrices, meanNetPrice } from "../costs/book-prices.ts";
import { missingTrays } from "../rows/missing-trays.ts";
import { doseCurve } from "./dose-curve.ts";
import { type DaysByDose, daysByDose, doseCosts, type LossByDose, lossByDose } from "./dose-economics.ts";
import { type DrawnOptima, drawnOptima } from "./drawn-optima.ts";

/** Money at every tested dose and at the best, per tray and per shelf day side by side. */
function moneyTable(doses: ReadonlyArray<number>, economics: DoseEconomics, earnings: DoseEarnings): Table {
  const rows = [
    ...doses.map((dose) => ({ label: "tested", profit: doseProfit(dose, economics) })),
    { label: "best per tray", profit: earnings.perTray },
    { label: "best per shelf day", profit: earnings.perShelfDay },
  ].sort((a, b) => a.profit.dose - b.profit.dose);
  return {
    caption: "What each dose earns, expected, lost trays included",
    columns: [
      { label: "Dose", unit: "mL" },
      { label: "" },
      { label: "yield of a started tray", unit: "g" },
      { label: "share lost", unit: "share" },
      { label: "days on the shelf", unit: "days" },
      { label: "culture", unit: "money" },
      { label: "cost of a started tray before drying", unit: "money" },
      { label: "left of a started tray", unit: "money" },
      { label: "left of a shelf day", unit: "money" },
    ],
    rows: rows.map(({ label, profit }) => [
      profit.dose,
      label,
      profit.gramsPerStartedTray,
      economics.loss(profit.dose),
      profit.shelfDaysPerStartedTray,
      profit.cultureCost,
      profit.costPerStartedTray,
      profit.profitPerStartedTray,
      profit.profitPerShelfDay,
    ]),
    note: "Left: income net of fees, packing, sending and drying, less every other cost of costs.csv.",
  };
}

function moneyChart(earnings: DoseEarnings, economics: DoseEconomics, doses: ReadonlyArray<number>): Chart {
  const { perTray, along } = earnings;
  return {
    kind: "curve",
    title: "What a started tray leaves, over dose",
    description: `Best at ${perTray.dose.toPrecision(3)} mL; hardly less from ${perTray.nearFrom.toPrecision(3)} to ${perTray.nearTo.toPrecision(3)} mL.`,
    xLabel: "Inoculum",
    xUnit: "mL",
    yLabel: "left of a started tray",
    yUnit: "money",
    points: doses.map((dose) => ({
      x: dose,
      y: doseProfit(dose, economics).profitPerStartedTray,
      tray: `at ${dose} mL`,
    })),
    curves: [
      {
        name: "expected from the fitted yield, losses and days",
        x: along.map(({ dose }) => dose),
        y: along.map(({ profitPerStartedTray }) => profitPerStartedTray),
      },
    ],
    marks: [{ x: perTray.dose, label: "best" }],
    stretch: { from: perTray.nearFrom, to: perTray.nearTo, label: "hardly less" },
  };
}

/** Whether the best dose lies inside what was tried, and how far it could lie elsewhere. */
function edgeSentence(best: BestDose): Sentence[] {
  if (best.atEdge === "none") return [];
  return [
    [
      `The best lies at the ${best.atEdge} dose tried, so it is not shown to be an optimum: ${best.atEdge === "highest" ? "more" : "less"} might earn more still. Try a dose beyond it.`,
    ],
  ];
}

function answer(
  trial: Trial,
  facts: {
    earnings: DoseEarnings;
    economics: DoseEconomics;
    drawn: DrawnOptima | undefined;
    doses: number[];
    curveLabel: string;
    settledYield: boolean;
    loss: LossByDose;
    days: DaysByDose;
    products: string[];
    otherForms: { label: string; dose: number }[];
  },
): Outcome {
  const { earnings, economics, drawn, doses } = facts;
  const { perTray, perShelfDay } = earnings;
  const { settings } = trial;
  const losing = !(perTray.profitPerStartedTray > 0);
  const sameWay = Math.abs(perShelfDay.dose - perTray.dose) < 0.05 * (Math.max(...doses) - Math.min(...doses));
  return {
    kind: "answer",
    sentence: losing
      ? [
          "No dose earns its cost at today's prices: the least is lost at ",
          { value: perTray.dose, unit: "mL", digits: 3 },
          " (",
          { value: perTray.profitPerStartedTray, unit: "money", signed: true },
          " a started tray).",
        ]
      : [
          perTray.atEdge === "none"
            ? "The dose that earns most per tray is "
            : "Of the doses tried, most is earned at ",
          { value: perTray.dose, unit: "mL", digits: 3 },
          ...(drawn === undefined ? [] : [" (", { from: drawn.low, to: drawn.high, unit: "mL", digits: 3 }, ")"]),
          ", leaving ",
          { value: perTray.profitPerStartedTray, unit: "money" },
          " a started tray; ",
          "it hardly matters (within ",
          { value: settings.nearOptimalShare, unit: "share" },
          ") from ",
          { from: perTray.nearFrom, to: perTray.nearTo, unit: "mL", digits: 3 },
          ...(sameWay ? ["."] : ["; per shelf day it is ", { value: perShelfDay.dose, unit: "mL", digits: 3 }, "."]),
        ],
    certainty:
      !facts.settledYield || drawn === undefined
        ? "open"
        : drawn.low > Math.min(...doses) && drawn.high < Math.max(...doses)
          ? "settled"
          : "leaning",
    estimates: [
      {
        label: "dose that earns most per started tray",
        value: perTray.dose,
        ...(drawn === undefined ? {} : { low: drawn.low, high: drawn.high }),
        level: settings.intervalLevel,
        unit: "mL",
        n: facts.loss.finished,
        nUnit: "trays",
        method: "profit over the fitted curve, bootstrap of trays within dose and cook",
      },
    ],
    tables: [
      moneyTable(doses, economics, earnings),
      {
        caption: "Where the best dose lies under other forms of curve",
        columns: [{ label: "form of curve" }, { label: "best dose per tray", unit: "mL" }],
        rows: facts.otherForms.map(({ label, dose }) => [label, dose]),
        note: "Forms that fit about as well can put the best dose elsewhere: the spread between them is part of the doubt.",
      },
    ],
    charts: [moneyChart(earnings, economics, doses)],
    excluded: [],
    method: [
      [
        `Yield of good trays by the ${facts.curveLabel} (best supported), losses by logistic regression, days by a straight line, each over dose; net price from ${facts.products.join(", ")}; costs from costs.csv.`,
      ],
      ...(drawn === undefined
        ? []
        : [
            [
              `Interval: ${drawn.replicates} redrawings of the trays within dose and cook, shared over the forms of curve by their support, with losses and days redrawn too (seed ${settings.seed}).`,
            ],
          ]),
    ],
    caveats: [
      ...missingTrays(trial),
      ...edgeSentence(perTray),
      ...(facts.settledYield
        ? []
        : [
            [
              "Dose is not shown to change the yield in these data, so the best dose is a guess from a curve that may be flat.",
            ],
          ]),
      ...(drawn !== undefined && drawn.shareAtEdges >= 0.2
        ? [
            [
              "In ",
              { value: drawn.shareAtEdges, unit: "share", digits: 2 },
              " of the redrawings the best dose was an end of the range tried.",
            ],
          ]
        : []),
      ["Net of fees and packing only what is sold counts: unsold product lowers the price a gram really brings."],
    ],
  };
}

function run(trial: Trial): Outcome {
  const prices = bookPrices(trial);
  const settle: Sentence = ["Fill in costs.csv and products.csv; the log says which rows could not be used."];
  if (prices.kind === "cannot-tell") return noAnswer([`Cannot tell which dose earns most: ${prices.reason}.`], settle);
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined) {
    return noAnswer(
      ["Cannot tell which dose earns most: no good tray has a weight."],
      ["Weigh each tray at harvest and after drying."],
    );
  }
  const compared = compareTreatment(trial, doseFactor, yieldPerGoodTray(weight), "higher");
  if (compared.kind === "cannot-tell") {
    return {
      ...compared,
      reason: [
        "Cannot tell which dose earns most, because the yield of the doses cannot be compared. ",
        ...compared.reason,
      ],
    };
  }
  const net = meanNetPrice(prices, trial, weight === "dry" ? "dried" : "fresh");
  if (net.kind === "cannot-tell") return noAnswer([`Cannot tell which dose earns most: ${net.reason}.`], settle);
  const curve = doseCurve(compared.observations, trial.settings.intervalLevel, trial.memo);
  const days = daysByDose(prices.costs);
  if (curve?.best === undefined || days === undefined) {
    return noAnswer(
      [
        `Cannot tell which dose earns most: ${days === undefined ? "no good tray has dates" : "no curve could be fitted over the doses"}.`,
      ],
      ["Record dates of inoculation and harvest, and at least three doses with four trays each."],
    );
  }
  const spread = doseCosts(prices.costs, weight, net.perGram);
  if (spread.kind === "cannot-tell") return noAnswer([`Cannot tell which dose earns most: ${spread.reason}.`], settle);
  const { best, compared: forms } = curve;
  const loss = lossByDose(trial.trays);
  const economicsOf = (grams: (dose: number) => number): DoseEconomics => ({
    gramsPerGoodTray: grams,
    loss: (dose) => loss.at(dose),
    daysPerGoodTray: (dose) => days.at(dose),
    ...(days.meanLost === undefined ? {} : { daysPerLostTray: () => days.meanLost! }),
    ...spread.economics,
  });
  const economics = economicsOf((dose) => best.form.value(dose, best.estimates));
  const doses = [...new Set(curve.points.map(({ x }) => x))].sort((a, b) => a - b);
  const earnings = doseEarnings(doses, economics, trial.settings.nearOptimalShare);
  if (earnings.kind === "cannot-tell")
    return noAnswer([`Cannot tell which dose earns most: ${earnings.reason}.`], settle);
  const otherForms = forms.ranked.flatMap(({ fit }) => {
    const earned = doseEarnings(
      doses,
      economicsOf((dose) => fit.form.value(dose, fit.estimates)),
      trial.settings.nearOptimalShare,
    );
    return earned.kind === "dose-earnings" ? [{ label: fit.label, dose: earned.perTray.dose }] : [];
  });
  const outcome = answer(trial, {
    earnings,
    economics,
    drawn: drawnOptima({ curve, economics, loss, days, settings: trial.settings }),
    doses,
    curveLabel: best.label,
    settledYield: compared.certainty === "settled",
    loss,
    days,
    products: net.products,
    otherForms,
  });
  const grid = layoutGrid(compared.layout);
  return {
    ...outcome,
    excluded: compared.excluded,
    tables: [...outcome.tables, ...(grid === undefined ? [] : [grid])],
  };
}

/** Which inoculum dose leaves most money, and within what range it hardly matters. */
export const whichDoseEarnsMost: Analysis = {
  id: "which-dose-earns-most",
  name: "Which dose earns most",
  question: "Which inoculum dose earns most, and within what range does it hardly matter?",
  needs: ["tray_id", "inoculum_ml", "dry_g"],
  experimentalUnit: "tray",
  assumes: [
    "everything made is sold at today's net price",
    "costs.csv lists everything that is paid for",
    "between tested doses the yield follows the curve",
  ],
  topic: "money",
  headline: true,
  run,
};
