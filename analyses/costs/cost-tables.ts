import type { Sentence, Table, Trial } from "../../src/analysis.ts";
import { accountsBy, type CostAccount, type GramKind } from "../../src/costing/trays/cost-account.ts";
import { costSheet } from "../../src/costing/trays/cost-sheet.ts";
import { emptyPlaces } from "../../src/costing/trays/empty-places.ts";
import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import { armsOf } from "../../src/design/arm.ts";
import type { Factor } from "../../src/design/factor.ts";
import { inSentence } from "../comparison/level-text.ts";
import { gramCostInterval, gramWord } from "./gram-cost.ts";

/** The month a tray was inoculated in. */
export const monthFactor: Factor = {
  key: "month",
  label: "Month of inoculation",
  unit: "",
  level: ({ inoculatedOn }) => inoculatedOn?.slice(0, 7),
};

/** Cost per started tray, per good tray and per gram for each level of a factor; undefined for fewer than two levels. */
export function costTable(trial: Trial, costs: TrayCosts, factor: Factor): Table | undefined {
  const arms = armsOf(trial.trays, factor);
  if (arms.length < 2) return undefined;
  const groups = new Map(accountsBy(costs, factor.level).map((group) => [group.key, group]));
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
      { label: `good ${gramWord("dried", trial.settings)}`, unit: "money/g" },
      { label: `good ${gramWord("dried", trial.settings)} at one moisture`, unit: "money/g" },
      { label: `good ${gramWord("fresh", trial.settings)}`, unit: "money/g" },
    ],
    rows: arms.map(({ level, value }) => {
      const { account, lost = 0, costOfLost = 0 } = groups.get(level) ?? {};
      const name = factor.unit === "" ? level : (value ?? level);
      if (account === undefined || account.kind === "cannot-tell")
        return [name, lost, 0, lost === 0 ? null : costOfLost / lost, null, null, null, null];
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

/** What each kind of gram cost, with the usual loss and with every loss. */
export function gramKindTable(trial: Trial, account: CostAccount): Table {
  const { driedMoisture } = trial.settings;
  const kinds: GramKind[] = ["fresh", "dried", "dried at common moisture", "dry matter"];
  const rows = kinds.flatMap((kind) => {
    const cost = account.perGram[kind];
    const interval = gramCostInterval(trial, cost);
    if (cost.kind === "cannot-tell" || interval.kind === "cannot-tell") return [];
    return [
      [
        gramNames[kind],
        cost.trays,
        cost.withAllLosses,
        cost.withAllLosses - cost.withNormalLoss,
        interval.low ?? null,
        interval.high ?? null,
      ],
    ];
  });
  const percent = Math.round(driedMoisture * 1000) / 10;
  return {
    caption: "What a good gram cost, by what counts as a gram",
    columns: [
      { label: "Gram" },
      { label: "good trays weighed", unit: "trays" },
      { label: "cost, all losses in it", unit: "money/g" },
      { label: "of which losses beyond the usual", unit: "money/g", digits: 2 },
      { label: "from", unit: "money/g" },
      { label: "to", unit: "money/g" },
    ],
    rows,
    // the sentence has the grams that are sold
    open: 0,
    note: `Every figure of the report has all losses of the period in it: that is what was paid. The usual loss is normal_loss_rate of the settings; without one, no loss counts as beyond it. One moisture is the ${percent}% of the settings, which also stands in where a tray's own moisture was not measured. A fresh gram carries no drying.`,
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
    note: `Of ${loss.started} finished trays ${loss.started - loss.good} ${loss.started - loss.good === 1 ? "was" : "were"} lost: ${loss.normal.toFixed(1)} by the usual loss, ${loss.abnormal.toFixed(1)} beyond it. An accountant may book what is beyond it as an expense of the period rather than a cost of the product.`,
  };
}

/** One line of what losses and idle capacity came to. */
interface LossMoney {
  what: string;
  money: number;
  /** whether the cost of a gram has it in it */
  inGram: boolean;
}

/** Losses, value recovered and idle capacity of the period, in money. */
function lossMoney({ loss }: CostAccount, costs: TrayCosts): LossMoney[] {
  const lost = loss.started - loss.good;
  const part = (trays: number): number => (lost === 0 ? 0 : (loss.recovered * trays) / lost);
  const idle = new Map<string, number>();
  for (const { item, because, amount } of costs.unabsorbed) {
    const what = because === "idle" ? `idle capacity: ${item}` : `months without trays: ${item}`;
    idle.set(what, (idle.get(what) ?? 0) + amount);
  }
  return [
    { what: "lost trays, usual loss", money: loss.normalCost + part(loss.normal), inGram: true },
    { what: "lost trays, beyond the usual loss", money: loss.abnormalCost + part(loss.abnormal), inGram: true },
    { what: "recovered from lost trays", money: loss.recovered === 0 ? 0 : -loss.recovered, inGram: true },
    ...[...idle].map(([what, money]) => ({ what, money, inGram: false })),
    ...emptyPlaces(costs).map(({ item, empty }) => ({ what: `empty places: ${item}`, money: empty, inGram: false })),
  ].filter(({ money, what }) => money !== 0 || what.startsWith("lost trays"));
}

/** The same as a table, with what it comes to per good gram. */
export function lossMoneyTable(account: CostAccount, costs: TrayCosts, kind: GramKind, word: string): Table {
  const cost = account.perGram[kind];
  const perGram = (money: number): number | null =>
    cost.kind === "cannot-tell" ? null : (money * cost.trays) / account.loss.good / cost.grams;
  return {
    caption: "What losses and idle capacity came to",
    columns: [
      { label: "What" },
      { label: "in the period", unit: "money" },
      { label: `per good ${word}`, unit: "money/g" },
      { label: "in the cost of a gram" },
    ],
    rows: lossMoney(account, costs).map(({ what, money, inGram }) => [
      what,
      money,
      perGram(money),
      inGram ? "yes" : "no",
    ]),
    note: "Idle capacity is what was paid for trays that were not started, months without any, and shelf places that stood empty from the first inoculation to the last day anything was recorded. It is no cost of what was made.",
  };
}

/** "255 of 480 of shed rent carried no tray" for each line with idle capacity. */
export function idleSentences(costs: TrayCosts): Sentence[] {
  const whole = new Map<string, { idle: number; used: number }>();
  for (const { item, amount } of costs.unabsorbed) {
    const entry = whole.get(item) ?? { idle: 0, used: 0 };
    whole.set(item, entry);
    entry.idle += amount;
  }
  costs.items.forEach(({ item, per }, row) => {
    const entry = whole.get(item);
    if (entry === undefined || per !== "month") return;
    for (const amount of costs.amounts[row]!) entry.used += amount;
  });
  const idle = [...whole].map(([item, { idle: money, used }]) => ({ item, empty: money, paid: money + used }));
  return [...idle, ...emptyPlaces(costs)].map(({ item, empty, paid }) => [
    { value: empty, unit: "money" },
    " of ",
    { value: paid, unit: "money" },
    ` of ${item} carried no tray.`,
  ]);
}
