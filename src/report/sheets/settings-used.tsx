import type { SettingDefinition, Settings } from "../../records/setting.ts";
import { defaultSettings, settingDefinitions } from "../../records/setting-definitions.ts";
import { fallbackLocale, knownLocale, writeNumber } from "../write-number.ts";
import { SheetTable } from "./sheet-table.tsx";

/** A setting's value as it would be typed in the sheet. */
function valueText({ property, kind }: SettingDefinition, settings: Settings): string {
  const value = settings[property];
  if (value === undefined || value === "") return "";
  if (typeof value === "string") return value;
  const shown = kind === "percent" ? Number((value * 100).toPrecision(12)) : value;
  const decimals = Math.min(8, (String(shown).split(".")[1] ?? "").length);
  return property === "seed"
    ? String(value)
    : writeNumber(shown, { decimals, style: "plain", signed: false, settings });
}

/** Every setting with the value used. */
export function SettingsAsUsed({ settings }: { settings: Settings }) {
  const rows = settingDefinitions.map((definition) => [
    definition.key,
    valueText(definition, settings),
    definition.unit,
    settings[definition.property] === defaultSettings[definition.property] ? "" : "not the default",
    definition.meaning,
  ]);
  return (
    <>
      {knownLocale(settings.locale) === settings.locale ? null : (
        <p>
          The locale <q>{settings.locale}</q> is not known here; numbers are written as in {fallbackLocale}.
        </p>
      )}
      <SheetTable
        id="settings-table"
        caption="Settings of this report"
        columns={[
          { label: "Setting" },
          { label: "Value", numeric: true },
          { label: "Unit" },
          { label: "Changed" },
          { label: "What it means", wide: true },
        ]}
        rows={rows}
        note="An empty value lets the sheet decide, or is not used."
      />
    </>
  );
}
