import { farFromUsual } from "./far-from-usual.ts";
import { nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";
import { daysOfTray } from "./stage-days.ts";

/** Trays are looked at twice a week. Common practice, no source. */
const daysBetweenLooks = 4;

/** Days to colonise far from those of other trays of the same dose, after allowing for a quick or a slow cook. */
export const colonisedUnusual: PlausibilityRule = {
  code: "colonised-unusual",
  settings: ["outlierZ"],
  check(tray, { colonised, days, settings }, at) {
    const z = farFromUsual(colonised, at, daysBetweenLooks, settings.outlierZ);
    if (z === 0) return nothingFound;
    return [
      {
        field: tray.colonisedOn === undefined ? "days_to_colonise" : "colonised_on",
        raw: `${daysOfTray("colonised", tray, days, at)} days`,
        reason: `it colonised far ${z > 0 ? "later" : "sooner"} than other trays of its dose, its cook allowed for`,
        expected: `near ${colonised.usualOf(at).toPrecision(3)} days`,
        action: "Check the dates; nothing was changed",
        setting: "outlier_z",
      },
    ];
  },
};
