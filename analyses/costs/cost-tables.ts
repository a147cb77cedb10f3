import type { Table, Trial } from "../../src/analysis.ts";
import { accountsBy, type CostAccount, type GramKind } from "../../src/costing/trays/cost-account.ts";
import { costSheet } from "../../src/costing/trays/cost-sheet.ts";
import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import { armsOf } from "../../src/design/arm.ts";
import type { Factor } from "../../src/design/factor.ts";
import { inSentence } from "../comparison/level-text.ts";
import { gramCostInterval } from "./gram-cost.ts";

/** The month a tray was inoculated in. */
export const monthFactor: Factor = {
  key: "month",
  label: "Month of inoculation",
  unit: "",
  level: ({ inoculatedOn }) => inoculatedOn?.slice(0, 7),
};

/** Cost per started tray, per good tray and per gram for each level of a factor; undefined for fewer than two levels. */
export function costTable(trial: Trial, costs: TrayCosts, factor: Factor): Table | undefined {
  const { arms } = armsOf(trial.trays, factor);
  if (arms.length < 2) return undefined;
  const accounts = new Map(accountsBy(costs, "full", factor.level).map(({ key, account }) => [key, account]));
  const gram = (account: CostAccount, kind: GramKind) => {
    const cost = account.perGram[kind];
    return cost.kind === "cannot-tell" ? null : cost.withAllLosses;
  };
  return {
    caption: `What trays and grams cost, by ${inSentence(factor.label)}`,
    columns: [
      { label: factor.label, unit: factor.unit || undefined },
      { label: "finished", unit: "trays" },
      { label: "good", unit: "trays" },
      { label: "cost of a started tray", unit: "money" },
      { label: "cost of a good tray", unit: "money" },
      { label: "good dry gram", unit: "money/g" },
      { label: "good dry gram at one moisture", unit: "money/g" },
      { label: "good fresh gram", unit: "money/g" },
    ],
    rows: arms.map(({ level, value }) => {
      const account = accounts.get(level);
      const name = factor.unit === "" ? level : (value ?? level);
      if (account === undefined || account.kind === "cannot-tell") return [name, 0, 0, null, null, null, null, null];
      const { loss } = account;
      return [
        name,
        loss.started,
        loss.good,
        loss.costPerStarted,
        loss.costPerGoodWithAllLosses,
        gram(account, "dried"),
        gram(account, "dried at common moisture"),
        gram(account, "fresh"),
      ];
    }),
    note: "Lost trays are paid for by the good trays of the same row. A row without a good tray has no cost per gram.",
  };
}

const gramNames: Record<GramKind, string> = {
  fresh: "fresh, as picked",
  dried: "dry, as weighed",
  "dried at common moisture": "dry, brought to one moisture",
  "dry matter": "dry matter without any water",
};

/** What each kind of gram cost, with the usual loss and with every loss, and two intervals side by side. */
export function gramKindTable(trial: Trial, account: CostAccount): Table {
  const { driedMoisture, seed } = trial.settings;
  const kinds: GramKind[] = ["fresh", "dried", "dried at common moisture", "dry matter"];
  const rows = kinds.flatMap((kind) => {
    const cost = account.perGram[kind];
    const interval = gramCostInterval(trial, cost, seed);
    if (cost.kind === "cannot-tell" || interval.kind === "cannot-tell") return [];
    const { redrawn } = interval;
    return [
      [
        gramNames[kind],
        cost.trays,
        cost.withNormalLoss,
        cost.withAllLosses,
        interval.low ?? null,
        interval.high ?? null,
        redrawn.kind === "redrawn" ? redrawn.low : null,
        redrawn.kind === "redrawn" ? redrawn.high : null,
      ],
    ];
  });
  const percent = Math.round(driedMoisture * 1000) / 10;
  return {
    caption: "What a good gram cost, by what counts as a gram",
    columns: [
      { label: "Gram" },
      { label: "good trays weighed", unit: "trays" },
      { label: "with the usual loss", unit: "money/g" },
      { label: "with every loss", unit: "money/g" },
      { label: "from (Fieller)", unit: "money/g" },
      { label: "to (Fieller)", unit: "money/g" },
      { label: "from (redrawn)", unit: "money/g" },
      { label: "to (redrawn)", unit: "money/g" },
    ],
    rows,
    note: `Intervals are of the cost with every loss. One moisture is the ${percent}% of the settings, which also stands in where a tray's own moisture was not measured. A fresh gram carries no drying.`,
  };
}

/** Every cost line with what it came to, adding up exactly to the smallest coin. */
export function sheetTable(costs: TrayCosts): Table {
  const sheet = costSheet(costs);
  const coin = 10 ** costs.settings.currencyDecimals;
  const money = (...minor: number[]) => minor.map((units) => units / coin);
  return {
    caption: "Cost sheet: what was spent, by line",
    columns: [
      { label: "Line" },
      { label: "kind" },
      { label: "spent at" },
      { label: "on good trays", unit: "money" },
      { label: "on lost trays", unit: "money" },
      { label: "on growing trays", unit: "money" },
      { label: "together", unit: "money" },
    ],
    rows: [
      ...sheet.rows.map(({ item, kind, stage, good, lost, growing, total }) => [
        item,
        kind,
        stage,
        ...money(good, lost, growing, total),
      ]),
      ["Together", "", "", ...money(sheet.totals.good, sheet.totals.lost, sheet.totals.growing, sheet.totals.total)],
    ],
    totalRows: 1,
    ...(sheet.unabsorbed.length === 0
      ? {}
      : {
          note: `Not carried by any tray: ${sheet.unabsorbed
            .map(({ item, because }) => `${item} (${because === "idle" ? "idle capacity" : "months without trays"})`)
            .join(", ")}.`,
        }),
  };
}

/** What lost trays cost, and by how far they had come. */
export function lossTable({ loss, lostAt }: CostAccount): Table {
  return {
    caption: "Lost trays: what was spent on them, by how far they had come",
    columns: [
      { label: "Lost at" },
      { label: "trays", unit: "trays" },
      { label: "spent on each", unit: "money" },
      { label: "together", unit: "money" },
    ],
    rows: lostAt.map(({ stage, trays, cost, costPerTray }) => [stage, trays, costPerTray, cost]),
    note: `Of ${loss.started} finished trays ${loss.started - loss.good} were lost; ${loss.normal.toFixed(1)} is the usual loss that good trays carry, ${loss.abnormal.toFixed(1)} is beyond it and is a loss of the period rather than a cost of the product.`,
  };
}
