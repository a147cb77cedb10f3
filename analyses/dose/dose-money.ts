import type { Trial } from "../../src/analysis.ts";
import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import { isFinished, type YieldWeight } from "../comparison/tray-response.ts";
import { bookPrices } from "../costs/book-prices.ts";
import { dosePrices } from "../costs/dose-prices.ts";

/** What a gram brings and what a dose costs, for weighing a change of dose. */
export interface DoseMoney {
  kind: "money";
  /** net of fees, packing and sending, and of what is spent per gram (drying) */
  perGram: number;
  /** liquid culture */
  perMillilitre: number;
  /** everything spent on a started tray that is finished */
  perStartedTray: number;
}

/**
 * Prices of a gram and of a mL from the book's own sheets.
 * @returns the reason where the book has no costs, no products, or none made of that weight, or a gram brings nothing
 */
export function doseMoney(trial: Trial, weight: YieldWeight): DoseMoney | CannotTell {
  const prices = bookPrices(trial);
  if (prices.kind === "cannot-tell") return prices;
  const found = dosePrices(trial, prices, weight === "dry" ? "dried" : "fresh");
  if (found.kind === "cannot-tell") return found;
  const { perGram, perMillilitre } = found;
  if (!(perGram > 0)) return { kind: "cannot-tell", reason: "a gram brings nothing after fees, packing and drying" };
  const { trays, totals } = prices.costs;
  let [spent, started] = [0, 0];
  trays.forEach((tray, index) => {
    if (!isFinished(tray)) return;
    spent += totals[index]!;
    started += tray.traysInPool;
  });
  return {
    kind: "money",
    perGram,
    perMillilitre,
    perStartedTray: started > 0 ? spent / started : 0,
  };
}

/** The grams a tray at one dose must give over another to pay for the liquid: 0 when the dose is no higher. */
export function gainThatPays(money: DoseMoney, fromDose: number, toDose: number): number {
  return Math.max(0, ((toDose - fromDose) * money.perMillilitre) / money.perGram);
}
