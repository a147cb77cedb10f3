import type { Trial } from "../../src/analysis.ts";
import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import { scopedTotals } from "../../src/costing/trays/cost-account.ts";
import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import { daysCharged } from "../../src/costing/trays/tray-life.ts";
import { hasEnded, isLost, type Tray } from "../../src/records/tray.ts";
import type { YieldWeight } from "../../src/records/yield-weight.ts";
import { type BookPrices, meanNetPrice } from "./book-prices.ts";

/** What one finished record, a tray or a pool of trays, brought in, and how long it stood. */
export interface TrayMoney {
  tray: Tray;
  /** income net of fees, packing and sending, less all its cost, the owner's time too */
  profit: number;
  /** days its places were held, all trays of a pool together; undefined where the dates do not tell */
  days: number | undefined;
}

/** Hours each record took by one cost line; undefined where the line is no work in hours. */
export function itemHours({ trays, items, amounts }: TrayCosts, row: number): Float64Array | undefined {
  const { kind, line, costPerUse, taken } = items[row]!;
  if (kind !== "labour" || line.packUnit !== "hour") return undefined;
  const started = trays.reduce((sum, { traysInPool }) => sum + traysInPool, 0);
  // unpaid time leaves no money to read the uses from, so it is shared evenly
  return Float64Array.from(trays, ({ traysInPool }, index) =>
    costPerUse > 0 ? (amounts[row]![index]! / costPerUse) * line.amount : (taken * line.amount * traysInPool) / started,
  );
}

/**
 * Money and days of every finished record with a known end. A good tray that was not weighed is left out.
 * @returns the reason where no product is made of that weight
 */
export function trayMoney(
  trial: Trial,
  prices: BookPrices,
  weight: YieldWeight,
): { kind: "tray-money"; records: TrayMoney[] } | CannotTell {
  const madeOf = weight === "dry" ? "dried" : "fresh";
  const paid = meanNetPrice(prices, trial, madeOf);
  if (paid.kind === "cannot-tell") return paid;
  const { costs } = prices;
  const [dried, picked] = [scopedTotals(costs, "full", "drying"), scopedTotals(costs, "full", "harvest")];
  const records: TrayMoney[] = [];
  costs.trays.forEach((tray, index) => {
    if (!hasEnded(tray)) return;
    const weighed = weight === "dry" ? tray.dryGrams : tray.freshGrams;
    const lost = isLost(tray);
    if (!lost && weighed === undefined) return;
    const grams = lost ? 0 : weighed!;
    const recovered = lost ? costs.settings.recoveredPerLostTray * tray.traysInPool : 0;
    const days = daysCharged(costs.lives[index]!, "filling");
    records.push({
      tray,
      profit: grams * paid.perGram + recovered - picked[index]! - paid.driedShare * (dried[index]! - picked[index]!),
      days: days === undefined ? undefined : days * tray.traysInPool,
    });
  });
  return { kind: "tray-money", records };
}
