import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";
import { daysOfTray } from "./stage-days.ts";

interface Stretch {
  field: HarvestFieldKey;
  what: string;
  days: number;
  low: number;
  high: number;
  settings: readonly [low: string, high: string];
}

const isUsual = (days: number, low: number, high: number): boolean => !(days >= 0 && (days < low || days > high));

function finding({ field, what, days, low, high, settings }: Stretch): Finding[] {
  if (isUsual(days, low, high)) return [];
  const isSoon = days < low;
  return [
    {
      field,
      raw: `${days} days`,
      reason: isSoon
        ? `${what} sooner than ${low} days after inoculation`
        : `${what} later than ${high} days after inoculation`,
      expected: `${low} to ${high} days`,
      action: "Check the dates; if such times are usual here, widen the range in settings.csv",
      setting: settings[isSoon ? 0 : 1],
    },
  ];
}

/** Days to colonise or to harvest outside what the trade calls usual. */
export const durationRange: PlausibilityRule = {
  code: "duration-range",
  settings: ["colonisationDaysLow", "colonisationDaysHigh", "harvestDaysLow", "harvestDaysHigh"],
  check(tray, { settings, days }, at) {
    const { colonisedOn, harvestedOn } = tray;
    const colonised = daysOfTray("colonised", tray, days, at);
    const harvested = daysOfTray("harvested", tray, days, at);
    const { colonisationDaysLow, colonisationDaysHigh, harvestDaysLow, harvestDaysHigh } = settings;
    if (
      isUsual(colonised, colonisationDaysLow, colonisationDaysHigh) &&
      isUsual(harvested, harvestDaysLow, harvestDaysHigh)
    ) {
      return nothingFound;
    }
    return [
      ...finding({
        field: colonisedOn === undefined ? "days_to_colonise" : "colonised_on",
        what: "colonised",
        days: colonised,
        low: colonisationDaysLow,
        high: colonisationDaysHigh,
        settings: ["colonisation_days_low", "colonisation_days_high"],
      }),
      ...finding({
        field: harvestedOn === undefined ? "days_to_harvest" : "harvested_on",
        what: "harvested",
        days: harvested,
        low: harvestDaysLow,
        high: harvestDaysHigh,
        settings: ["harvest_days_low", "harvest_days_high"],
      }),
    ];
  },
};
