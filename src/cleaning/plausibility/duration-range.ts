import { daysFrom } from "./days.ts";
import type { Finding, PlausibilityRule } from "./plausibility-rule.ts";

/** Days to colonise or to harvest outside what the trade calls usual. */
export const durationRange: PlausibilityRule = {
  code: "duration-range",
  check(tray, { settings }) {
    const { colonisationDaysLow, colonisationDaysHigh, harvestDaysLow, harvestDaysHigh } = settings;
    const found: Finding[] = [];
    for (const [field, typed, days, low, high, what, settingLow, settingHigh] of [
      [
        "colonised_on",
        "days_to_colonise",
        daysFrom(tray.inoculatedOn, tray.colonisedOn) ?? tray.daysToColonise,
        colonisationDaysLow,
        colonisationDaysHigh,
        "colonised",
        "colonisation_days_low",
        "colonisation_days_high",
      ],
      [
        "harvested_on",
        "days_to_harvest",
        daysFrom(tray.inoculatedOn, tray.harvestedOn) ?? tray.daysToHarvest,
        harvestDaysLow,
        harvestDaysHigh,
        "harvested",
        "harvest_days_low",
        "harvest_days_high",
      ],
    ] as const) {
      if (days === undefined || days < 0 || (days >= low && days <= high)) continue;
      const dated = field === "colonised_on" ? tray.colonisedOn : tray.harvestedOn;
      found.push({
        field: dated === undefined ? typed : field,
        raw: `${days} days`,
        reason:
          days < low
            ? `${what} sooner than ${low} days after inoculation`
            : `${what} later than ${high} days after inoculation`,
        expected: `${low} to ${high} days`,
        action: "Check the dates; if such times are usual here, widen the range in settings.csv",
        setting: days < low ? settingLow : settingHigh,
      });
    }
    return found;
  },
};
