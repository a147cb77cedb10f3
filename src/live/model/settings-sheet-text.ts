import type { SettingDefinition, Settings } from "../../records/setting.ts";
import { settingDefinitions } from "../../records/setting-definitions.ts";
import type { LiveColumn, LiveSheet } from "./live-sheet.ts";

const columns: LiveColumn[] = [
  { key: "key", label: "Setting", unit: "", isNumber: false, fixed: "a setting's name is fixed" },
  { key: "value", label: "Value", unit: "", isNumber: true },
  { key: "unit", label: "Unit", unit: "", isNumber: false, fixed: "a setting's unit is fixed" },
  { key: "meaning", label: "What it means", unit: "", isNumber: false, fixed: "for reading only", isExtra: true },
];

/** A setting's value as it is typed in settings.csv. */
export function settingText({ property, kind }: SettingDefinition, settings: Settings): string {
  const value = settings[property];
  if (value === undefined) return "";
  return kind === "percent" && typeof value === "number"
    ? String(Number((value * 100).toPrecision(14)))
    : String(value);
}

/** Every setting of a book with the value used. */
export function settingsSheet(settings: Settings): LiveSheet {
  const rows = settingDefinitions.map((definition) => [
    definition.key,
    settingText(definition, settings),
    definition.unit,
    definition.meaning,
  ]);
  return { name: "settings", title: "Settings", columns, rows };
}
