import type { Trial } from "../../src/analysis.ts";
import type { Factor } from "../../src/design/factor.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";

/** A result of a tray that arms are compared on. */
export interface TrayResponse {
  /** "dry yield per good tray" */
  label: string;
  unit: string;
  /** undefined when the tray has no such result */
  of(tray: Tray): number | undefined;
}

/** Which weight the book's yields are reported in: dry when most good trays have one, else fresh. */
export type YieldWeight = "dry" | "fresh";

/** Whether every product is plain fresh mushrooms, as far as products.csv could be read. */
const isSoldFresh = ({ products = [], unread = [] }: Pick<Trial, "products" | "unread">): boolean =>
  products.length > 0 &&
  products.every(({ form, madeOf = form }) => madeOf === "fresh") &&
  !unread.some(({ sheet, inUse }) => sheet === "products" && !inUse);

/**
 * Chooses the weight most good trays have; dry wins a draw, because it does not depend on how wet the pick was. Where
 * nothing but fresh mushrooms is sold, dry weights are a check, and yield is what is sold.
 */
export function yieldWeightOf(trial: Pick<Trial, "trays" | "products" | "unread">): YieldWeight | undefined {
  let [dry, fresh] = [0, 0];
  for (const { outcome, dryGrams, freshGrams } of trial.trays) {
    if (outcome !== "good") continue;
    if (dryGrams !== undefined) dry++;
    if (freshGrams !== undefined) fresh++;
  }
  if (dry === 0 && fresh === 0) return undefined;
  if (dry < fresh / 2) return "fresh";
  return fresh >= dry / 2 && isSoldFresh(trial) ? "fresh" : "dry";
}

const weightOf = (tray: Tray, weight: YieldWeight): number | undefined =>
  weight === "dry" ? tray.dryGrams : tray.freshGrams;

/** Weight of one good tray; lost and unfinished trays have none. A pool gives its mean per tray. */
export const yieldPerGoodTray = (weight: YieldWeight): TrayResponse => ({
  label: `${weight} yield per good tray`,
  unit: "g",
  of: (tray) => {
    const grams = weightOf(tray, weight);
    return tray.outcome === "good" && grams !== undefined ? grams / tray.traysInPool : undefined;
  },
});

/** Saleable weight of one started tray: nothing for a lost tray, unknown for one still growing. */
export const yieldPerStartedTray = (weight: YieldWeight): TrayResponse => ({
  label: `${weight} yield per started tray`,
  unit: "g",
  of: (tray) => {
    if (isLost(tray)) return 0;
    const grams = weightOf(tray, weight);
    return tray.outcome === "good" && grams !== undefined ? grams / tray.traysInPool : undefined;
  },
});

/** One tray's result in one arm. */
export interface Observation {
  tray: Tray;
  arm: string;
  value: number;
}

/**
 * The results of trays under a treatment, of those whose level and result are known. Trays weighed together are left out:
 * their mean has no spread of its own.
 */
export const observe = (trays: ReadonlyArray<Tray>, treatment: Factor, response: TrayResponse): Observation[] =>
  trays.flatMap((tray) => {
    const arm = treatment.level(tray);
    const value = response.of(tray);
    const isOut = tray.outcome === "asked" || tray.traysInPool > 1;
    return isOut || arm === undefined || value === undefined ? [] : [{ tray, arm, value }];
  });
