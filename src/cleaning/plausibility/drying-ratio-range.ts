import { ratioOf } from "./book-measures.ts";
import { nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

/** Fresh over dry outside what the trade calls usual. */
export const dryingRatioRange: PlausibilityRule = {
  code: "drying-ratio-range",
  settings: ["dryingRatioLow", "dryingRatioHigh"],
  check(tray, { settings: { dryingRatioLow, dryingRatioHigh }, freshContainer, dryContainer }) {
    const ratio = ratioOf(tray);
    if (ratio === undefined || ratio < 1) return nothingFound;
    const isLow = ratio < dryingRatioLow;
    if (!isLow && ratio <= dryingRatioHigh) return nothingFound;
    const container = isLow ? dryContainer : freshContainer;
    const weight = isLow ? "dry" : "fresh";
    return [
      {
        field: isLow ? "dry_g" : "fresh_g",
        raw: `${tray.freshGrams} fresh, ${tray.dryGrams} dry`,
        reason:
          container === undefined
            ? `fresh over dry is ${isLow ? `below ${dryingRatioLow}` : `above ${dryingRatioHigh}`}`
            : `fresh over dry is ${isLow ? `below ${dryingRatioLow}` : `above ${dryingRatioHigh}`}, and several ${weight} weights are too heavy by much the same: was a container weighed too?`,
        expected: `a ratio between ${dryingRatioLow} and ${dryingRatioHigh}`,
        action:
          "Weigh again or correct the wrong weight; if such ratios are usual here, widen the range in settings.csv",
        setting: isLow ? "drying_ratio_low" : "drying_ratio_high",
      },
    ];
  },
};
