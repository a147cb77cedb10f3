import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { Settings } from "../../records/setting.ts";
import { defaultSettings, settingDefinitions } from "../../records/setting-definitions.ts";

/** Low and high ends of the trade ranges, which must not be the wrong way round. */
const pairs = [
  ["dryingRatioLow", "dryingRatioHigh"],
  ["colonisationDaysLow", "colonisationDaysHigh"],
  ["harvestDaysLow", "harvestDaysHigh"],
  ["fruitingLowCelsius", "fruitingHighCelsius"],
] as const;

/** Keeps the defaults of a range whose low end is not below its high end, and says so. */
export function checkSettingPairs(settings: Settings, file: string, issues: Issue[]): void {
  for (const [low, high] of pairs) {
    if (settings[low] < settings[high]) continue;
    const key = settingDefinitions.find(({ property }) => property === low)!.key;
    issues.push(
      logEntry({
        file,
        column: "value",
        raw: `${settings[low]} to ${settings[high]}`,
        result: `${defaultSettings[low]} to ${defaultSettings[high]}`,
        rule: "setting-range-reversed",
        severity: "error",
        reason: "the low end of a range is not below its high end; the defaults were kept",
        expected: "a low end below the high end",
        action: `Correct ${key} or its high end`,
        setting: key,
      }),
    );
    settings[low] = defaultSettings[low];
    settings[high] = defaultSettings[high];
  }
}
