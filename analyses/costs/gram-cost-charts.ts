import type { Chart, Trial } from "../../src/analysis.ts";
import { stageOrder } from "../../src/costing/lines/line-stage.ts";
import { accountsBy, type GramCost } from "../../src/costing/trays/cost-account.ts";
import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import { armsOf } from "../../src/design/arm.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { levelLabel } from "../comparison/level-text.ts";
import { gramCostInterval } from "./gram-cost.ts";

/** The cost of a gram, line by line: the bars add up to it, but for what lost trays recovered. A fresh one carries no drying. */
export function breakdownChart(
  costs: TrayCosts,
  cost: GramCost,
  good: number,
  { kind: gram, word }: { kind: "dried" | "fresh"; word: string },
): Chart {
  const shareWeighed = cost.trays / good;
  const weightOf = (tray: Tray): number =>
    isLost(tray)
      ? shareWeighed
      : tray.outcome === "good" && (gram === "dried" ? tray.dryGrams : tray.freshGrams) !== undefined
        ? 1
        : 0;
  const weights = costs.trays.map(weightOf);
  const byItem = new Map<string, { value: number; kind: string }>();
  costs.items.forEach(({ item, kind, stage }, row) => {
    if (gram === "fresh" && stageOrder(stage) > stageOrder("harvest")) return;
    const sum = weights.reduce((total, weight, index) => total + weight * costs.amounts[row]![index]!, 0);
    const entry = byItem.get(item) ?? { value: 0, kind };
    byItem.set(item, entry);
    entry.value += sum / cost.grams;
  });
  const parts = [...byItem]
    .map(([label, { value, kind }]) => ({ label, value, group: kind }))
    .filter(({ value }) => value > 0)
    .sort((a, b) => b.value - a.value);
  return {
    kind: "breakdown",
    title: `What a good ${word} is made of, in money`,
    description: `Longest first: ${parts
      .slice(0, 5)
      .map(({ label }) => label)
      .join(", ")}.`,
    unit: "money/g",
    valueLabel: `per good ${word}`,
    parts,
  };
}

/** Cost per good gram of each dose with its interval. */
export function byDoseChart(
  trial: Trial,
  costs: TrayCosts,
  { kind, word }: { kind: "dried" | "fresh"; word: string },
): Chart | undefined {
  const arms = armsOf(trial.trays, doseFactor);
  const accounts = new Map(accountsBy(costs, doseFactor.level).map(({ key, account }) => [key, account]));
  const rows = arms.flatMap(({ level }) => {
    const account = accounts.get(level);
    if (account === undefined || account.kind === "cannot-tell") return [];
    const cost = gramCostInterval(trial, account.perGram[kind]);
    if (cost.kind !== "interval" || cost.low === undefined || cost.high === undefined) return [];
    return [{ label: levelLabel(doseFactor, level), value: cost.value, low: cost.low, high: cost.high }];
  });
  if (rows.length < 2) return undefined;
  return {
    kind: "intervals",
    title: `Cost of a good ${word} by dose`,
    description: `Dearest first: ${rows
      .toSorted((a, b) => b.value - a.value)
      .map(({ label }) => label)
      .join("; ")}.`,
    unit: "money/g",
    valueLabel: `per good ${word}`,
    rows,
  };
}
