import type { Trial } from "../../src/analysis.ts";
import { type RatioOverCooks, ratioOverCooks } from "./ratio-over-cooks.ts";

/** A drying ratio and how many trays it is from. */
export type DryingRatio = RatioOverCooks & { trays: number };

/** The book's drying ratio, fresh over dried, over good trays weighed both ways; undefined where there is none. */
export const bookDryingRatio = (trial: Trial): DryingRatio | undefined =>
  trial.memo.once([trial.trays, trial.settings], "drying ratio", () => {
    const pairs = trial.trays.flatMap((tray) => {
      const { outcome, freshGrams = 0, dryGrams = 0 } = tray;
      return outcome === "good" && freshGrams > 0 && dryGrams > 0
        ? [{ tray, numerator: freshGrams, denominator: dryGrams }]
        : [];
    });
    if (pairs.length === 0) return undefined;
    return {
      ...ratioOverCooks(pairs, trial.settings.intervalLevel),
      trays: pairs.reduce((sum, { tray }) => sum + tray.traysInPool, 0),
    };
  });
