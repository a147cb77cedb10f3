import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Tray } from "../../records/tray.ts";
import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

const stages: ReadonlyArray<readonly [field: HarvestFieldKey, property: keyof Tray & `${string}On`, label: string]> = [
  ["inoculated_on", "inoculatedOn", "inoculated"],
  ["colonised_on", "colonisedOn", "colonised"],
  ["fruiting_on", "fruitingOn", "moved to fruiting"],
  ["harvested_on", "harvestedOn", "harvested"],
  ["dried_on", "driedOn", "dried"],
];

/** A tray is inoculated, colonised, fruited, harvested and dried in that order. */
export const stagesBackwards: PlausibilityRule = {
  code: "stages-backwards",
  settings: [],
  impossible: true,
  check(tray) {
    let found: Finding[] | undefined;
    let before = "";
    let beforeLabel = "";
    for (const [field, property, label] of stages) {
      const iso = tray[property];
      if (iso === undefined) continue;
      if (iso < before) {
        found ??= [];
        found.push({
          field,
          raw: iso,
          reason: `${label} before it was ${beforeLabel}`,
          expected: `a date on or after the day it was ${beforeLabel}`,
          action: "Correct the wrong one of the two dates",
        });
      } else {
        before = iso;
        beforeLabel = label;
      }
    }
    return found ?? nothingFound;
  },
};
