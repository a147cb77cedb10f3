import { hasEnded, isLost } from "../../records/tray.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import { compensatedSumOver } from "../compensated-sum.ts";
import { type CostScope, inScope } from "./cost-account.ts";
import type { CostItem, TrayCosts } from "./tray-costs.ts";
import { daysCharged } from "./tray-life.ts";

/** The cost of trays, taken apart by what makes it grow. Money; means over finished trays. */
export interface TrayCostParts {
  kind: "parts";
  /** culture, per mL injected; 0 where none was recorded */
  perMillilitre: number;
  /** lines per day of shelf, over all days from inoculation on; 0 where none were recorded */
  perShelfDay: number;
  /** lines per kg, per gram of the weight asked for */
  perGram: number;
  /** lines per good tray */
  perGoodTray: number;
  /** everything else */
  perStartedTray: number;
  /** all cost up to harvest, per started tray: what starting one more commits to */
  toHarvestPerStartedTray: number;
  /** cost of drying per kg of fresh dried; 0 where nothing was dried */
  dryingPerKgFresh: number;
}

const partOf = ({ per }: CostItem): "mL" | "day" | "gram" | "good" | "started" => {
  if (per === "jar" || per === "inoculum mL") return "mL";
  if (per === "shelf day") return "day";
  if (per === "kg fresh" || per === "kg dried") return "gram";
  return per === "good tray" ? "good" : "started";
};

/**
 * Takes the cost of finished trays apart for questions that change one part: the best dose, the uncertainty of margin,
 * the month's plan. Put together again at the book's own means, the parts make the book's cost.
 * @param weight the gram that costs per kg are given for
 * @param driedShare share of what is picked that is dried: so much of drying counts; of fresh none unless stated
 * @returns cannot-tell when nothing was good
 * @example trayCostParts(costs, "full", "dried").perMillilitre // 0.06
 */
export function trayCostParts(
  costs: TrayCosts,
  scope: CostScope,
  weight: "fresh" | "dried",
  driedShare = weight === "dried" ? 1 : 0,
): TrayCostParts | CannotTell {
  const { trays, lives } = costs;
  const finished = trays.flatMap((tray, index) => (hasEnded(tray) ? [index] : []));
  const total = (of: (index: number) => number, among: ReadonlyArray<number> = finished): number =>
    compensatedSumOver(among, of);
  const goodOnes = finished.filter((index) => !isLost(trays[index]!));
  const pool = (index: number): number => trays[index]!.traysInPool;
  const [started, good] = [total(pool), total(pool, goodOnes)];
  if (good === 0) return cannotTell(started === 0 ? "no tray is finished" : "no finished tray was good");

  const sums = { mL: 0, day: 0, gram: 0, good: 0, started: 0 };
  let [drying, toHarvest] = [0, 0];
  costs.items.forEach((item, row) => {
    if (!inScope(item, scope)) return;
    const amounts = costs.amounts[row]!;
    const amount = total((index) => amounts[index]!);
    if (item.stage === "drying") drying += amount;
    else toHarvest += amount;
    sums[partOf(item)] += item.stage === "drying" ? driedShare * amount : amount;
  });
  const per = (sum: number, count: number): number => (count > 0 ? sum / count : 0);
  const millilitres = total((index) => (trays[index]!.inoculumMillilitres ?? 0) * pool(index));
  const days = total((index) => (daysCharged(lives[index]!, "filling") ?? 0) * pool(index));
  const grams = total(
    (index) => (weight === "fresh" ? trays[index]!.freshGrams : trays[index]!.dryGrams) ?? 0,
    goodOnes,
  );
  const freshDried = total((index) => (lives[index]!.reached === "drying" ? (trays[index]!.freshGrams ?? 0) : 0));
  return {
    kind: "parts",
    perMillilitre: per(sums.mL, millilitres),
    perShelfDay: per(sums.day, days),
    perGram: per(sums.gram, grams),
    perGoodTray: sums.good / good,
    perStartedTray: sums.started / started,
    toHarvestPerStartedTray: toHarvest / started,
    dryingPerKgFresh: per(drying * 1000, freshDried),
  };
}
