import type { Chart, Table } from "../../src/analysis.ts";
import { daysBetween } from "../../src/measures/day-number.ts";
import { pickingsOf } from "../../src/records/tray.ts";
import type { YieldWeight } from "../../src/records/yield-weight.ts";
import { mean } from "../../src/statistics/descriptive/mean.ts";
import type { FlushMoney } from "./flush-money.ts";
import type { LaterFlushes } from "./flush-shares.ts";

/** Grams and waiting days of each flush over the trays that had it. */
export function flushTable(kept: ReadonlyArray<LaterFlushes>, weight: YieldWeight): Table {
  const byNumber = new Map<number, { grams: number[]; days: number[] }>();
  for (const { tray } of kept) {
    const flushes = pickingsOf(tray);
    flushes.forEach((flush, index) => {
      const entry = byNumber.get(index + 1) ?? { grams: [], days: [] };
      byNumber.set(index + 1, entry);
      entry.grams.push((weight === "dry" ? flush.dryGrams! : flush.freshGrams!) / tray.traysInPool);
      const from = index === 0 ? tray.inoculatedOn : flushes[index - 1]!.harvestedOn;
      if (from !== undefined && flush.harvestedOn !== undefined) entry.days.push(daysBetween(from, flush.harvestedOn));
    });
  }
  const meanOf = (values: number[]) => (values.length === 0 ? null : mean(values));
  return {
    caption: "Flush by flush, trays that were picked more than once",
    columns: [
      { label: "Picking" },
      { label: "records", unit: "records" },
      { label: `mean ${weight} yield a tray`, unit: "g" },
      { label: "days since the one before (first: since inoculation)", unit: "days" },
    ],
    rows: [...byNumber]
      .sort(([a], [b]) => a - b)
      .map(([number, { grams, days }]) => [`flush ${number}`, grams.length, meanOf(grams), meanOf(days)]),
  };
}

/** What a place leaves a day, later flush and new tray side by side. */
export function flushMoneyTable(money: FlushMoney): Table {
  return {
    caption: "Money left of a place and day",
    columns: [
      { label: "" },
      { label: "later flush", unit: "money/shelf day" },
      { label: "new tray", unit: "money/shelf day" },
    ],
    rows: [
      ["left after all costs counted per tray, gram and day", money.laterPerDay, money.newTrayPerDay],
      ["of which the shelf day itself cost", money.costPerShelfDay, money.costPerShelfDay],
    ],
    note: `Net price from ${money.products.join("; ")}. A later flush pays for its days and grams only; a new tray also pays for all it takes to start one, lost trays included.`,
  };
}

/** First and later flushes of the same trays. */
export function flushChart(kept: ReadonlyArray<LaterFlushes>, weight: YieldWeight): Chart {
  const points = kept.flatMap(({ tray, firstGrams, laterGrams }) => [
    { group: "first flush", value: firstGrams, tray: tray.trayId },
    { group: "later flushes", value: laterGrams, tray: tray.trayId },
  ]);
  const groups = ["first flush", "later flushes"].map((group) => {
    const own = points.filter((point) => point.group === group);
    return { group, mean: own.reduce((sum, { value }) => sum + value, 0) / own.length, n: own.length };
  });
  return {
    kind: "trays-by-group",
    title: "First and later flushes of the same trays",
    description: groups.map(({ group, mean, n }) => `${group}: ${mean.toPrecision(3)} g, ${n} records`).join("; "),
    groupLabel: "Flush",
    valueLabel: `${weight} yield a tray`,
    unit: "g",
    points,
    groups,
  };
}
