import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Tray } from "../../records/tray.ts";
import { daysFrom } from "./days.ts";
import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

/** Days from the middle of a book's dates beyond which a date is more likely a slip in its year: three years. */
const farAway = 1096;

const dates: ReadonlyArray<readonly [HarvestFieldKey, keyof Tray & `${string}On`]> = [
  ["inoculated_on", "inoculatedOn"],
  ["colonised_on", "colonisedOn"],
  ["fruiting_on", "fruitingOn"],
  ["harvested_on", "harvestedOn"],
  ["dried_on", "driedOn"],
];

/** A date years away from all others of the book. */
export const dateFarOff: PlausibilityRule = {
  code: "date-far-off",
  settings: [],
  check(tray, { middleDay }) {
    if (middleDay === undefined) return nothingFound;
    let found: Finding[] | undefined;
    for (const [field, property] of dates) {
      const away = daysFrom(middleDay, tray[property]);
      if (away === undefined || Math.abs(away) <= farAway) continue;
      found ??= [];
      found.push({
        field,
        raw: tray[property]!,
        reason: `years ${away > 0 ? "later" : "earlier"} than the book's other dates`,
        expected: `a date near ${middleDay.slice(0, 4)}`,
        action: "Check the year",
      });
    }
    return found ?? nothingFound;
  },
};
