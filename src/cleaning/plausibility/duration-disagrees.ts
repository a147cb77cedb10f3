import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";
import { daysTo } from "./stage-days.ts";

/** Days typed beside two dates that make another number; a day either way is a matter of how one counts. */
export const durationDisagrees: PlausibilityRule = {
  code: "duration-disagrees",
  settings: [],
  check({ daysToColonise, daysToHarvest }, { days }, at) {
    if (daysToColonise === undefined && daysToHarvest === undefined) return nothingFound;
    const found: Finding[] = [];
    for (const [field, typed, counted] of [
      ["days_to_colonise", daysToColonise, daysTo("colonised", days, at)],
      ["days_to_harvest", daysToHarvest, daysTo("harvested", days, at)],
    ] as const) {
      if (typed === undefined || Number.isNaN(counted) || Math.abs(typed - counted) <= 1) continue;
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
