import { nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

/** A fruiting temperature outside what the trade calls usual. */
export const fruitingTemperatureRange: PlausibilityRule = {
  code: "fruiting-temperature-range",
  settings: ["fruitingLowCelsius", "fruitingHighCelsius"],
  check({ fruitingCelsius }, { settings: { fruitingLowCelsius, fruitingHighCelsius } }) {
    if (fruitingCelsius === undefined) return nothingFound;
    const isLow = fruitingCelsius < fruitingLowCelsius;
    if (!isLow && fruitingCelsius <= fruitingHighCelsius) return nothingFound;
    return [
      {
        field: "fruiting_c",
        raw: `${fruitingCelsius} °C`,
        reason: isLow ? `cooler than ${fruitingLowCelsius} °C` : `warmer than ${fruitingHighCelsius} °C`,
        expected: `${fruitingLowCelsius} to ${fruitingHighCelsius} °C`,
        action: "Check the temperature and its unit; if it is usual here, widen the range in settings.csv",
        setting: isLow ? "fruiting_low_c" : "fruiting_high_c",
      },
    ];
  },
};
