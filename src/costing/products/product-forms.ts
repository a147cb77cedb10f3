import {
  requireFinite,
  requireNotNegative,
  requirePositive,
  requireShare,
  requireShareBelowOne,
} from "../../measures/require-amounts.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";

/** One way to sell a kilogram of fresh mushrooms. Money after fees, packing and sending. */
export interface FormOffer {
  name: string;
  /** money for one kg of the product as sold */
  netPricePerKg: number;
  /** kg of fresh that one kg takes before the processing loss: 1 for fresh, the drying ratio for dried and powder */
  freshPerKg: number;
  /** share lost in cutting, milling, packing */
  processingLoss: number;
  /** money to process one kg of fresh */
  processingCostPerKgFresh: number;
  /** share of what is made that is sold */
  sellThrough: number;
}

/**
 * What a kilogram of fresh mushrooms brings in each form, best first.
 * @returns net money per kg of fresh
 * @throws RangeError if a number lies outside its range
 * @source net price x (1 - loss)/(fresh per kg) x sold share - processing; arithmetic
 * @example rankForms([{ name: "dried", netPricePerKg: 260, freshPerKg: 9, processingLoss: 0, processingCostPerKgFresh: 1.2, sellThrough: 1 }])[0].perKgFresh // 27.688...
 */
export function rankForms(offers: ReadonlyArray<FormOffer>): { name: string; perKgFresh: number }[] {
  const ranked = offers.map((offer) => {
    requireFinite("rankForms", "netPricePerKg", offer.netPricePerKg);
    requirePositive("rankForms", "freshPerKg", offer.freshPerKg);
    requireShareBelowOne("rankForms", "processingLoss", offer.processingLoss);
    requireNotNegative("rankForms", "processingCostPerKgFresh", offer.processingCostPerKgFresh);
    requireShare("rankForms", "sellThrough", offer.sellThrough);
    const sold = ((1 - offer.processingLoss) / offer.freshPerKg) * offer.sellThrough;
    return { name: offer.name, perKgFresh: offer.netPricePerKg * sold - offer.processingCostPerKgFresh };
  });
  return ranked.sort((a, b) => b.perKgFresh - a.perKgFresh);
}

/** Fresh against dried, per kg of fresh mushrooms. */
export interface FreshOrDried {
  kind: "fresh-or-dried";
  fresh: number;
  dried: number;
  better: "fresh" | "dried" | "equal";
  /** drying pays below this ratio */
  breakEvenRatio: { kind: "ratio"; ratio: number } | CannotTell;
  /** fresh pays above this share sold; above 1 it never does at these prices */
  breakEvenSellThrough: { kind: "share"; share: number } | CannotTell;
}

/**
 * Whether to sell fresh or dry, and where the answer turns. Unsold fresh brings `unsoldFreshPerKg`.
 * @param input net money per kg of each product; fresh per dried; money to dry a kg of fresh; shares sold, 1 unless given
 * @throws RangeError if a number lies outside its range
 * @source trade arithmetic: fresh net price against dried net price over the drying ratio less drying
 * @example freshOrDried({ freshPerKg: 30, driedPerKg: 260, dryingRatio: 9, dryingCostPerKgFresh: 1.2 }).better // "fresh"
 */
export function freshOrDried(input: {
  freshPerKg: number;
  driedPerKg: number;
  dryingRatio: number;
  dryingCostPerKgFresh: number;
  freshSellThrough?: number;
  driedSellThrough?: number;
  unsoldFreshPerKg?: number;
}): FreshOrDried {
  const { freshPerKg, driedPerKg, dryingRatio, dryingCostPerKgFresh } = input;
  const { freshSellThrough = 1, driedSellThrough = 1, unsoldFreshPerKg = 0 } = input;
  requireFinite("freshOrDried", "freshPerKg", freshPerKg);
  requireFinite("freshOrDried", "driedPerKg", driedPerKg);
  requireFinite("freshOrDried", "unsoldFreshPerKg", unsoldFreshPerKg);
  requirePositive("freshOrDried", "dryingRatio", dryingRatio);
  requireNotNegative("freshOrDried", "dryingCostPerKgFresh", dryingCostPerKgFresh);
  requireShare("freshOrDried", "freshSellThrough", freshSellThrough);
  requireShare("freshOrDried", "driedSellThrough", driedSellThrough);
  const fresh = freshPerKg * freshSellThrough + unsoldFreshPerKg * (1 - freshSellThrough);
  const driedSold = driedPerKg * driedSellThrough;
  const dried = driedSold / dryingRatio - dryingCostPerKgFresh;
  const toBeat = fresh + dryingCostPerKgFresh;
  const gain = freshPerKg - unsoldFreshPerKg;
  return {
    kind: "fresh-or-dried",
    fresh,
    dried,
    better:
      Math.abs(fresh - dried) <= 1e-9 * Math.max(1, Math.abs(fresh)) ? "equal" : fresh > dried ? "fresh" : "dried",
    breakEvenRatio:
      toBeat > 0 && driedSold > 0
        ? { kind: "ratio", ratio: driedSold / toBeat }
        : cannotTell(driedSold > 0 ? "fresh brings so little that drying pays at any ratio" : "dried brings nothing"),
    breakEvenSellThrough:
      gain > 0
        ? { kind: "share", share: Math.max(0, (dried - unsoldFreshPerKg) / gain) }
        : cannotTell("sold fresh brings no more than unsold fresh, so the share sold does not matter"),
  };
}
