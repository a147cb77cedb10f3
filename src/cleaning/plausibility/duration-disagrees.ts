import { daysFrom } from "./days.ts";
import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

/** Days typed beside two dates that make another number; a day either way is a matter of how one counts. */
export const durationDisagrees: PlausibilityRule = {
  code: "duration-disagrees",
  settings: [],
  check({ inoculatedOn, colonisedOn, harvestedOn, daysToColonise, daysToHarvest }) {
    if (daysToColonise === undefined && daysToHarvest === undefined) return nothingFound;
    const found: Finding[] = [];
    for (const [field, typed, counted] of [
      ["days_to_colonise", daysToColonise, daysFrom(inoculatedOn, colonisedOn)],
      ["days_to_harvest", daysToHarvest, daysFrom(inoculatedOn, harvestedOn)],
    ] as const) {
      if (typed === undefined || counted === undefined || Math.abs(typed - counted) <= 1) continue;
      found.push({
        field,
        raw: `${typed} days typed, ${counted} by the dates`,
        reason: "the days typed are not those between the dates; the dates win",
        expected: "the days between the two dates, or an empty cell",
        action: "Correct the days or the wrong date",
      });
    }
    return found;
  },
};
