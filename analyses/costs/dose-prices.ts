import type { Trial } from "../../src/analysis.ts";
import type { CannotTell } from "../../src/costing/cannot-tell.ts";
import { trayCostParts } from "../../src/costing/trays/tray-cost-parts.ts";
import { type BookPrices, meanNetPrice, type NetPrice } from "./book-prices.ts";

/** What a choice of dose is worked out with. Money; every cost of a started tray is in exactly one of them. */
export interface DosePrices {
  kind: "dose-prices";
  /** what a product gram brings after fees, packing, sending and every cost counted per gram, drying among them; may be below 0 */
  perGram: number;
  /** liquid culture, per mL injected */
  perMillilitre: number;
  /** what a good tray adds: picking, weighing */
  perGoodTray: number;
  /** lines per day of shelf, rent among them where it is counted so */
  perShelfDay: number;
  /** everything else, of every started tray */
  perStartedTray: number;
  /** got back for a lost tray */
  recoveredPerLostTray: number;
  /** how a gram is sold, and what it brings so */
  sold: NetPrice;
}

/**
 * Prices for choosing a dose, from the book's own sheets: income (1 - p)(perGram x grams - perGoodTray) + p x
 * recoveredPerLostTray, less dose x perMillilitre, days x perShelfDay and perStartedTray. At the book's own means this is
 * what its trays earned with all their losses.
 * @param weight the weight that is sold
 * @returns the reason where no product made of that weight has a price, or nothing was good
 */
export function dosePrices(trial: Trial, prices: BookPrices, weight: "fresh" | "dried"): DosePrices | CannotTell {
  const net = meanNetPrice(prices, trial, weight);
  if (net.kind === "cannot-tell") return net;
  const parts = trayCostParts(prices.costs, "full", weight, net.driedShare);
  if (parts.kind === "cannot-tell") return parts;
  return {
    kind: "dose-prices",
    perGram: net.perGram - parts.perGram,
    perMillilitre: parts.perMillilitre,
    perGoodTray: parts.perGoodTray,
    perShelfDay: parts.perShelfDay,
    perStartedTray: parts.perStartedTray,
    recoveredPerLostTray: prices.costs.settings.recoveredPerLostTray,
    sold: net,
  };
}
