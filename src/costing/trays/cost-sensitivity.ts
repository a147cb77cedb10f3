import type { CostLine, Stage } from "../../records/cost-line.ts";
import { isLost } from "../../records/tray.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import { compensatedSum } from "../compensated-sum.ts";
import { costPerUse } from "../lines/cost-per-use.ts";
import { stageOrder } from "../lines/line-stage.ts";
import { itemKey } from "../lines/price-versions.ts";
import { costAccount, type GramKind } from "./cost-account.ts";
import type { TrayCosts } from "./tray-costs.ts";

/** How far one input moves the cost of a gram. */
export interface CostSensitivity {
  label: string;
  /** cost of a gram with the input at its low and high end */
  atLow: number;
  atHigh: number;
  /** the ends, as shares of the central value: 0.8 and 1.2, or the line's own range */
  lowShare: number;
  highShare: number;
  /** whether the range is the line's own */
  ownRange: boolean;
  /** distance between the two costs */
  spread: number;
}

/** A price range as shares of the price: the line's own, or plus and minus a share. */
function rangeOf(line: CostLine, share: number): { low: number; high: number; own: boolean } {
  const { packPrice, packPriceLow, packPriceHigh } = line;
  const own = packPrice > 0 && (packPriceLow !== undefined || packPriceHigh !== undefined);
  if (!own) return { low: 1 - share, high: 1 + share, own: false };
  const [low, high] = [(packPriceLow ?? packPrice) / packPrice, (packPriceHigh ?? packPrice) / packPrice];
  return { low: Math.min(low, high), high: Math.max(low, high), own: true };
}

/** Where a line's price, at both ends of its range, moves the cost of a gram. */
interface MovedLine {
  label: string;
  low: number;
  high: number;
  lowShare: number;
  highShare: number;
  own: boolean;
}

/** Every line that a gram carries; prices of one item at different dates move together. */
function movedLines(
  costs: TrayCosts,
  lastStage: Stage,
  share: number,
  perGram: (amounts: Float64Array) => number,
): MovedLine[] {
  const lines = new Map<string, MovedLine>();
  costs.items.forEach((item, row) => {
    if (stageOrder(item.stage) > stageOrder(lastStage) || item.costPerUse === 0) return;
    const { line } = item;
    const range = rangeOf(line, share);
    // the owner's unpriced time has no pack price to change: its rate moves instead
    const costPerUseAt = (times: number): number => {
      if (line.packPrice === 0) return item.costPerUse * times;
      const perUse = costPerUse(line, costs.settings, line.packPrice * times);
      return perUse.kind === "cost-per-use" ? perUse.money : item.costPerUse;
    };
    const now = perGram(costs.amounts[row]!);
    const key = JSON.stringify([itemKey(line), line.per]);
    const entry = lines.get(key) ?? {
      label: line.onlyWhereValue === undefined ? line.item : `${line.item} (${line.onlyWhereValue})`,
      low: 0,
      high: 0,
      lowShare: range.low,
      highShare: range.high,
      own: range.own,
    };
    lines.set(key, entry);
    entry.low += now * (costPerUseAt(range.low) / item.costPerUse - 1);
    entry.high += now * (costPerUseAt(range.high) / item.costPerUse - 1);
    entry.lowShare = Math.min(entry.lowShare, range.low);
    entry.highShare = Math.max(entry.highShare, range.high);
    entry.own ||= range.own;
  });
  return [...lines.values()];
}

/** The same for the yield of a good tray; costs per kg stay the same per gram when a tray gives more. */
function yieldBar(
  costs: TrayCosts,
  lastStage: Stage,
  share: number,
  centre: number,
  perGram: (amounts: Float64Array) => number,
): CostSensitivity {
  const byWeight = compensatedSum(
    costs.items.map(({ per, stage }, row) =>
      (per === "kg fresh" || per === "kg dried") && stageOrder(stage) <= stageOrder(lastStage)
        ? perGram(costs.amounts[row]!)
        : 0,
    ),
  );
  const atYield = (times: number): number => byWeight + (centre - byWeight) / times;
  const [atLow, atHigh] = [atYield(1 - share), atYield(1 + share)];
  return {
    label: "yield per good tray",
    atLow,
    atHigh,
    lowShare: 1 - share,
    highShare: 1 + share,
    ownRange: false,
    spread: Math.abs(atLow - atHigh),
  };
}

/**
 * Which cost line moves the cost of a gram most: each line's price at the ends of its own range, or at plus and minus a
 * share, everything else as it is. Prices of one item at different dates move together. The owner's time moves by its
 * hourly rate. Yield per good tray is among them for comparison; costs per kg move with it. The cost is that with all
 * losses of the period.
 * @param share of the price for lines without a range of their own, above 0 and up to 1
 * @returns longest spread first; cannot-tell when a gram has no cost
 * @throws RangeError if the share lies outside its range
 * @example costSensitivity(costs, "dried").bars[0].label // "yield per good tray"
 */
export function costSensitivity(
  costs: TrayCosts,
  gram: GramKind,
  share = 0.2,
): { kind: "sensitivity"; centre: number; bars: CostSensitivity[] } | CannotTell {
  if (!(share > 0 && share <= 1)) {
    throw new RangeError(`costSensitivity: share must be above 0 and at most 1; received ${share}`);
  }
  const account = costAccount(costs, "full");
  if (account.kind === "cannot-tell") return account;
  const cost = account.perGram[gram];
  if (cost.kind === "cannot-tell") return cannotTell(cost.reason);
  const weighedShare = cost.trays / account.loss.good;
  const weighed = new Set(cost.pairs.filter(({ tray }) => !isLost(tray)).map(({ tray }) => tray));
  // what each tray's cost weighs in the cost of a gram
  const weights = costs.trays.map((tray) =>
    weighed.has(tray) ? 1 / cost.grams : isLost(tray) ? weighedShare / cost.grams : 0,
  );
  const perGram = (amounts: Float64Array): number =>
    compensatedSum(weights.map((weight, index) => weight * amounts[index]!));

  const lastStage = gram === "fresh" ? "harvest" : "drying";
  const centre = cost.withAllLosses;
  const bars = movedLines(costs, lastStage, share, perGram).map(
    ({ label, low, high, lowShare, highShare, own }): CostSensitivity => ({
      label,
      atLow: centre + low,
      atHigh: centre + high,
      lowShare,
      highShare,
      ownRange: own,
      spread: Math.abs(high - low),
    }),
  );
  if (share < 1) bars.push(yieldBar(costs, lastStage, share, centre, perGram));
  bars.sort((a, b) => b.spread - a.spread);
  return { kind: "sensitivity", centre, bars };
}
