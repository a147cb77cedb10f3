import { nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

/** Nothing weighs more dry than it did fresh. */
export const dryAboveFresh: PlausibilityRule = {
  code: "dry-above-fresh",
  impossible: true,
  check({ freshGrams, dryGrams, flushes }) {
    const pairs = flushes.length > 1 ? flushes : [{ freshGrams, dryGrams }];
    const heavier = pairs.find(
      (pair) => pair.freshGrams !== undefined && pair.dryGrams !== undefined && pair.dryGrams > pair.freshGrams,
    );
    if (heavier === undefined) return nothingFound;
    return [
      {
        field: "dry_g",
        raw: `${heavier.dryGrams} dry, ${heavier.freshGrams} fresh`,
        reason: "it weighs more dry than fresh: swapped columns, a wrong unit, or a container on the scale",
        expected: "a dry weight below the fresh one",
        action: "Correct the wrong weight",
      },
    ];
  },
};
