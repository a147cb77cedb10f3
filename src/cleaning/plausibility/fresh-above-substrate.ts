import { isComparable } from "./book-measures.ts";
import { nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

/** More mushrooms than wet substrate: most of a mushroom is water that was in the tray. */
export const freshAboveSubstrate: PlausibilityRule = {
  code: "fresh-above-substrate",
  settings: [],
  check(tray) {
    const { freshGrams, substrateWetGrams } = tray;
    if (freshGrams === undefined || substrateWetGrams === undefined || !isComparable(tray)) return nothingFound;
    if (freshGrams <= substrateWetGrams || substrateWetGrams <= 0) return nothingFound;
    return [
      {
        field: "fresh_g",
        raw: `${freshGrams} fresh, ${substrateWetGrams} substrate`,
        reason: "the mushrooms weigh more than the wet substrate they grew on",
        expected: "a fresh weight below that of the wet substrate",
        action: "Check both weights and their units",
      },
    ];
  },
};
