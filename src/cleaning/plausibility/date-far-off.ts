import { isoOfDay } from "../dates/calendar.ts";
import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";
import { stages } from "./stage-days.ts";

/** Days from the middle of a book's dates beyond which a date is more likely a slip in its year: three years. */
const farAway = 1096;

/** A date years away from all others of the book. */
export const dateFarOff: PlausibilityRule = {
  code: "date-far-off",
  settings: [],
  check(tray, { middleDay, days }, at) {
    if (middleDay === undefined) return nothingFound;
    let found: Finding[] | undefined;
    for (let stage = 0; stage < days.length; stage++) {
      const away = days[stage]![at]! - middleDay;
      if (Number.isNaN(away) || Math.abs(away) <= farAway) continue;
      const { field, property } = stages[stage]!;
      found ??= [];
      found.push({
        field,
        raw: tray[property]!,
        reason: `years ${away > 0 ? "later" : "earlier"} than the book's other dates`,
        expected: `a date near ${isoOfDay(middleDay).slice(0, 4)}`,
        action: "Check the year",
      });
    }
    return found ?? nothingFound;
  },
};
