import type { Analysis, Certainty, Chart, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { type Arm, startedCount } from "../../src/design/arm.ts";
import { doseFactor, type Factor, gradeFactor, supplementFactor } from "../../src/design/factor.ts";
import { readLayout } from "../../src/design/layout.ts";
import { confounding, layoutGrid, layoutSentence } from "../comparison/confounding.ts";
import { inSentence, levelLabel, levelPart } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { isFinished, yieldWeightOf } from "../comparison/tray-response.ts";
import { bookPrices } from "../costs/book-prices.ts";
import { type TrayMoney, trayMoney } from "../costs/tray-money.ts";
import {
  type ProfitabilityMeasure,
  profitabilityMeasures,
  type Ranking,
  rankByProfitability,
} from "./profitability-measures.ts";

const treatments: ReadonlyArray<Factor> = [doseFactor, gradeFactor, supplementFactor];

const unitOf: Record<ProfitabilityMeasure, string> = {
  "started tray": "money/tray",
  "shelf day": "money/shelf day",
  "hour of work": "money/hour",
};

/** A treatment that can be ranked, or why it cannot. */
type Tried =
  | { kind: "ranked"; ranking: Ranking; told: Sentence }
  | { kind: "not-ranked"; reason: Sentence; wouldSettle: Sentence; treatment: Factor };

function tryRanking(trial: Trial, records: ReadonlyArray<TrayMoney>, treatment: Factor): Tried {
  const { minimumTraysPerArm, intervalLevel, seed } = trial.settings;
  const layout = readLayout(trial.trays, treatment, trial.memo);
  const verdict = confounding(layout);
  if (verdict.kind === "not-separable") return { ...verdict, kind: "not-ranked", treatment };
  const counted = new Set(records.map(({ tray }) => tray));
  const enough = ({ trays }: Arm) =>
    startedCount(trays.filter((tray) => isFinished(tray) && counted.has(tray))) >= Math.max(2, minimumTraysPerArm);
  const arms = layout.arms.filter(enough);
  if (arms.length < 2) {
    return {
      kind: "not-ranked",
      treatment,
      reason: [
        `Cannot tell how levels of ${inSentence(treatment.label)} rank: fewer than two have ${minimumTraysPerArm} finished trays with a weight.`,
      ],
      wouldSettle: [`Finish at least ${minimumTraysPerArm} trays of each level, from the same cooks.`],
    };
  }
  return {
    kind: "ranked",
    ranking: rankByProfitability(records, treatment, arms, { level: intervalLevel, seed }),
    told: layoutSentence(layout),
  };
}

function rankTable({ treatment, levels }: Ranking): Table {
  const used = profitabilityMeasures.filter((by) => levels.some((level) => level.by[by] !== undefined));
  return {
    caption: `What is left, by ${inSentence(treatment.label)} and by what is short`,
    columns: [
      { label: treatment.label, unit: treatment.unit || undefined },
      { label: "trays", unit: "trays" },
      ...used.flatMap((by) => [
        { label: `left per ${by}`, unit: unitOf[by] },
        { label: "from", unit: unitOf[by] },
        { label: "to", unit: unitOf[by] },
        { label: `place by ${by}`, unit: "factor" },
      ]),
    ],
    rows: levels.map(({ level, dose, trays, by }) => [
      treatment.unit === "" ? level : (dose ?? level),
      trays,
      ...used.flatMap((one) => {
        const measured = by[one];
        return measured === undefined
          ? [null, null, null, null]
          : [measured.value, measured.low ?? null, measured.high ?? null, measured.rank];
      }),
    ]),
    note: "Left per tray and per shelf day: income net of fees, packing and sending, less every cost, your own time among them. Left per hour of work: the same before your own time is paid, over all hours of work, packing among them. Lost trays count with their cost and their days.",
  };
}

function rankCharts({ treatment, levels }: Ranking): Chart[] {
  return profitabilityMeasures.flatMap((by): Chart[] => {
    const rows = levels.flatMap(({ level, by: measured }) => {
      const one = measured[by];
      return one?.low === undefined || one.high === undefined
        ? []
        : [{ label: levelLabel(treatment, level), value: one.value, low: one.low, high: one.high }];
    });
    if (rows.length < 2) return [];
    const best = rows.reduce((top, row) => (row.value > top.value ? row : top));
    return [
      {
        kind: "intervals",
        title: `Left per ${by}, by ${inSentence(treatment.label)}`,
        description: `Most is left per ${by} at ${best.label}.`,
        unit: unitOf[by],
        valueLabel: `left per ${by}`,
        rows,
        reference: 0,
      },
    ];
  });
}

function rankSentence({ treatment, levels, best }: Ranking): Sentence {
  const used = profitabilityMeasures.filter((by) => best[by] !== undefined);
  const bestBy = (by: ProfitabilityMeasure): Sentence => {
    const { level, dose, by: measured } = levels.find((one) => one.level === best[by])!;
    return [levelPart(treatment, level, dose), " (", { value: measured[by]!.value, unit: unitOf[by] }, ")"];
  };
  const named = new Set(used.map((by) => best[by]));
  const orders = new Set(used.map((by) => levels.map((one) => one.by[by]!.rank).join(" ")));
  const clauses = used.flatMap((by, index): Sentence => [index === 0 ? "" : ", ", `per ${by} `, ...bestBy(by)]);
  return [
    named.size === 1
      ? orders.size === 1
        ? `The ranking of ${inSentence(treatment.label)} does not change with what is short: best `
        : `The best ${inSentence(treatment.label)} is the same whatever is short, only lower places change: `
      : `The best ${inSentence(treatment.label)} depends on what is short: `,
    ...clauses,
    ".",
  ];
}

/** How sure it is that the profitabilityMeasures agree, or that they do not. */
function certaintyOf({ best, shareAgreeing }: Ranking, level: number): Certainty {
  if (shareAgreeing === undefined) return "open";
  const agrees = new Set(Object.values(best)).size === 1;
  const share = agrees ? shareAgreeing : 1 - shareAgreeing;
  return share >= level ? "settled" : share >= 0.8 ? "leaning" : "open";
}

function run(trial: Trial): Outcome {
  const start = "Cannot tell whether the ranking changes: ";
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") {
    return noAnswer([`${start}${prices.reason}.`], ["Fill in costs.csv and products.csv."]);
  }
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined) {
    return noAnswer([`${start}no good tray has a weight.`], ["Weigh each tray at harvest and after drying."]);
  }
  const money = trayMoney(trial, prices, weight);
  if (money.kind === "cannot-tell") {
    return noAnswer(
      [`${start}${money.reason}.`],
      [`Add a ${weight === "dry" ? "dried" : "fresh"} product with its price to products.csv.`],
    );
  }
  const tried = treatments.map((treatment) => tryRanking(trial, money.records, treatment));
  const ranked = tried.filter((one) => one.kind === "ranked");
  const main = ranked[0];
  if (main === undefined) {
    const [first] = tried as [Extract<Tried, { kind: "not-ranked" }>];
    const grid = layoutGrid(readLayout(trial.trays, first.treatment, trial.memo));
    return noAnswer(first.reason, first.wouldSettle, { tables: grid === undefined ? [] : [grid] });
  }
  const { ranking } = main;
  const used = profitabilityMeasures.filter((by) => ranking.best[by] !== undefined);
  const { leftOut, redrawn, shareAgreeing, cooks } = ranking;
  return {
    kind: "answer",
    sentence: rankSentence(ranking),
    certainty: certaintyOf(ranking, trial.settings.intervalLevel),
    estimates: used.map((by) => {
      const top = ranking.levels.find(({ level }) => level === ranking.best[by])!;
      const { value, low, high } = top.by[by]!;
      return {
        label: `left per ${by} at the best, ${levelLabel(ranking.treatment, top.level)}`,
        value,
        ...(low === undefined || high === undefined ? {} : { low, high }),
        level: trial.settings.intervalLevel,
        unit: unitOf[by],
        n: top.trays,
        nUnit: "trays",
        method: redrawn === undefined ? "mean over cooks" : `mean over cooks, bootstrap of ${redrawn.what}`,
      };
    }),
    tables: ranked.map((one) => rankTable(one.ranking)),
    charts: rankCharts(ranking),
    excluded: [
      ...(money.unweighed.length === 0
        ? []
        : [{ trays: money.unweighed, reason: `good, but no ${weight} weight is recorded` }]),
      ...(leftOut.trays.length === 0
        ? []
        : [
            {
              trays: leftOut.trays,
              reason: `their cook does not hold every level of ${inSentence(ranking.treatment.label)}`,
            },
          ]),
    ],
    method: [
      main.told,
      [
        cooks === 0
          ? "No cook holds every level, so means are over all trays: a good cook favours the levels it held."
          : `Means over ${cooks === 1 ? "the one group" : `${cooks} cooks`} that hold every level, each weighing the same for all levels.`,
      ],
      ...(redrawn === undefined
        ? []
        : [
            [
              `Intervals from ${redrawn.draws} redrawings of ${redrawn.what === "cooks" ? "whole cooks" : "trays within cook and level"} (seed ${trial.settings.seed}).`,
            ],
          ]),
    ],
    caveats: [
      [
        "Go by what runs out first: by the tray when culture, bags or cooker loads are short, by the shelf day when shelves are full, by the hour when your time is.",
      ],
      ...(shareAgreeing === undefined
        ? []
        : [
            [
              "In ",
              { value: shareAgreeing, unit: "share", digits: 2 } as const,
              " of the redrawings all profitabilityMeasures name the same best.",
            ],
          ]),
      ...notMeasured(used),
    ],
  };
}

/** What could not be measured. */
function notMeasured(used: ReadonlyArray<ProfitabilityMeasure>): Sentence[] {
  return profitabilityMeasures
    .filter((by) => !used.includes(by))
    .map((by) => [
      by === "shelf day"
        ? "No dates tell how long trays stood, so there is nothing per shelf day."
        : "No labour line in hours tells how long the work took, so there is nothing per hour.",
    ]);
}

/** Whether what earns most per tray also earns most per shelf day and per hour of work. */
export const perTrayShelfDayOrHour: Analysis = {
  id: "per-tray-shelf-day-or-hour",
  name: "Tray, shelf or hour",
  question: "Per tray, per shelf day or per hour of work: does the ranking change what earns most?",
  needs: ["tray_id", "outcome", "inoculum_ml"],
  experimentalUnit: "tray",
  assumes: ["everything made is sold at today's net price", "levels were given to trays at random within each cook"],
  topic: "money",
  headline: false,
  run,
};
