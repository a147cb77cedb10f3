import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";
import { stages } from "./stage-days.ts";

/** A tray is inoculated, colonised, fruited, harvested and dried in that order. */
export const stagesBackwards: PlausibilityRule = {
  code: "stages-backwards",
  settings: [],
  impossible: true,
  check(tray, { days }, at) {
    let found: Finding[] | undefined;
    let before = -1;
    for (let stage = 0; stage < days.length; stage++) {
      const day = days[stage]![at]!;
      if (Number.isNaN(day)) continue;
      if (before >= 0 && day < days[before]![at]!) {
        const { field, property, label } = stages[stage]!;
        const earlier = stages[before]!.label;
        found ??= [];
        found.push({
          field,
          raw: tray[property]!,
          reason: `${label} before it was ${earlier}`,
          expected: `a date on or after the day it was ${earlier}`,
          action: "Correct the wrong one of the two dates",
        });
      } else before = stage;
    }
    return found ?? nothingFound;
  },
};
