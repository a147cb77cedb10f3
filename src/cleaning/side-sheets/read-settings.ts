import { appendAll } from "../../records/append-all.ts";
import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { SettingDefinition, Settings } from "../../records/setting.ts";
import { defaultSettings } from "../../records/setting-definitions.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { speaksOfPay } from "../../records/words/money-words.ts";
import { checkSettingPairs } from "./check-setting-pairs.ts";
import { currencyMark } from "./currency-mark.ts";
import { definitionOf, isSettingName } from "./find-setting.ts";
import { matchColumns } from "./match-side-columns.ts";
import { readSettingValue, type StatedSetting } from "./read-setting-value.ts";

const columns = [
  { key: "key", names: "setting|name|option|what|item|parameter|property|settings" },
  { key: "value", names: "answer|setting value|val|choice|is|set to" },
  { key: "unit", names: "units|in|uom" },
  { key: "sheet", names: "file|for|for sheet|applies to|tab" },
  { key: "note", names: "notes|meaning|comment|comments|remark|remarks|description|default|choices|explanation" },
] as const;

/** Settings of one sheet, named by its path, its last part, or a workbook's tab. */
export interface SheetSettings {
  sheet: string;
  settings: Partial<Settings>;
}

/** A book's settings, those of single sheets, and what had to be said of them. */
export interface SettingsRead {
  settings: Settings;
  /** the settings that the book's sheet states */
  stated: ReadonlySet<keyof Settings>;
  sheets: SheetSettings[];
  /** settings that decide what things cost and cannot be read, so that their default counts */
  unread: UnreadMoney[];
  issues: Issue[];
}

/** Settings that may differ from sheet to sheet: how trays lie in it, what it is for, and when it was. */
const sheetProperties: ReadonlyArray<keyof Settings> = [
  "layout",
  "tables",
  "sectionTitles",
  "fillDown",
  "summaryRows",
  "joinedCells",
  "sheetRole",
  "firstYear",
];

/** Settings that are not money and decide what things cost. */
const costSettings: ReadonlyArray<keyof Settings> = ["jarMillilitres", "traysPerLoad", "shelfPlaces", "normalLossRate"];

/** A rate that counts as 0 is missing; a size, and what lost trays bring in, are there by their default and doubtful. */
const unreadSetting = (
  { key, property, kind, default: byDefault }: SettingDefinition,
  file: string,
  row: number,
): UnreadMoney => ({
  sheet: "settings",
  name: key,
  reason: byDefault === "" ? "it cannot be read" : `it cannot be read, and its default of ${byDefault} counts`,
  source: { file, row },
  inUse: kind !== "money" || property === "recoveredPerLostTray",
});

/** The lines of a settings sheet, whether or not it has a header: one setting a row, or one a column. */
function statedIn(table: RawTable, issues: Issue[]): StatedSetting[] {
  const stated: StatedSetting[] = [];
  const add = (row: number, ...cells: (string | undefined)[]) => {
    const [first = "", second = "", unit = "", sheet = ""] = cells.map((cell) => cell?.trim());
    // "trays per load: 8" in one cell
    const [, named = first, stood = second] = (second === "" && /^([^:]{2,60}):\s*(\S.*)$/.exec(first)) || [];
    const [key, value] = [named, stood];
    if (key === "") return;
    const line = { row, key, value, unit };
    stated.push(sheet === "" || sheet === "*" ? line : { ...line, sheet });
  };
  const { found, issues: headerIssues } = matchColumns(table, columns);
  const at = { key: found.get("key")?.index, value: found.get("value")?.index, unit: found.get("unit")?.index };
  if (at.key !== undefined && at.value !== undefined) {
    appendAll(issues, headerIssues);
    const { key, value, unit } = at as { key: number; value: number; unit?: number };
    const sheet = found.get("sheet")?.index ?? -1;
    table.forEachRow((cells, row) => add(row, cells[key], cells[value], cells[unit ?? -1], cells[sheet]));
    return stated;
  }
  const known = table.header.filter((name) => isSettingName(name)).length;
  if (known >= 2 || (known === 1 && table.header.length === 1)) {
    let first = true;
    table.forEachRow((cells, row) => {
      if (first) for (const [index, name] of table.header.entries()) add(row, name, cells[index]);
      first = false;
    });
    return stated;
  }
  // no header: what was taken for one is the first setting
  add(table.headerRow, table.header[0], table.header[1], table.header[2]);
  table.forEachRow((cells, row) => add(row, cells[0], cells[1], cells[2]));
  return stated;
}

type Chosen = Map<keyof Settings, { definition: SettingDefinition; line: StatedSetting }>;

/** Says so where a setting is given a second value, which counts. */
function noteSetTwice(
  before: StatedSetting,
  line: StatedSetting,
  definition: SettingDefinition,
  file: string,
  issues: Issue[],
): UnreadMoney[] {
  if (before.value === line.value) return [];
  const { key } = definition;
  const reason = "it is set twice, differently; the last one counts";
  issues.push(
    logEntry({
      file,
      row: line.row,
      column: "value",
      raw: line.value,
      result: line.value,
      rule: "setting-twice",
      severity: "warning",
      reason: `${key}: ${reason}`,
      expected: "each setting once",
      action: `Remove one of the lines; the other is in row ${before.row}`,
      setting: key,
    }),
  );
  const source = { file, row: line.row };
  return decidesCosts(definition) ? [{ sheet: "settings", name: key, reason, source, inUse: true }] : [];
}

const decidesCosts = ({ kind, property }: SettingDefinition): boolean =>
  kind === "money" || costSettings.includes(property);

/** Reads the chosen lines into the settings; returns those that decide what things cost and cannot be read. */
function readChosen(chosen: Chosen, settings: Settings, file: string, issues: Issue[]): UnreadMoney[] {
  const unread: UnreadMoney[] = [];
  // what decides how other values are read comes first
  const first: ReadonlyArray<keyof Settings> = ["decimalMark", "percentStyle", "dateOrder", "currency"];
  const inOrder = [...chosen.values()].sort(
    (a, b) => Number(first.includes(b.definition.property)) - Number(first.includes(a.definition.property)),
  );
  for (const { definition, line } of inOrder) {
    const value = readSettingValue(definition, line, settings, file, issues);
    if (value !== undefined) Object.assign(settings, { [definition.property]: value });
    else if (decidesCosts(definition)) {
      unread.push(unreadSetting(definition, file, line.row));
    }
  }
  if (!chosen.has("currencyDecimals")) settings.currencyDecimals = decimalsOf(settings.currency);
  return unread;
}

/** The currency that money among the settings is marked in, where none states it: that of the book. */
function markedIn(chosen: Chosen, file: string, issues: Issue[]): string | undefined {
  if (chosen.has("currency")) return undefined;
  for (const { definition, line } of chosen.values()) {
    const [currency] = definition.kind === "money" ? currencyMark(line.value).currencies : [];
    if (currency === undefined || currency === defaultSettings.currency) continue;
    issues.push(
      logEntry({
        ...{ file, row: line.row, column: "value", raw: line.value, result: currency, rule: "currency-from-sheets" },
        severity: "warning",
        reason: `the settings state no currency, and ${definition.key} is marked in ${currency}`,
        expected: "",
        action: `Set currency in settings.csv to ${currency}, or to the one that is meant`,
        setting: "currency",
      }),
    );
    return currency;
  }
  return undefined;
}

/**
 * Reads settings.csv: one setting a row, `key,value,unit,note` in any order, keys by meaning and with small misspellings.
 * An empty value keeps the default; a value that cannot be read or is out of range is flagged and the default kept.
 * @param table undefined when the book has no settings
 * @param file the sheet's path, for messages
 * @returns settings with every default filled in; the decimals of the currency follow the currency unless stated
 */
export function readSettings(table: RawTable | undefined, file: string): SettingsRead {
  const issues: Issue[] = [];
  const settings: Settings = { ...defaultSettings };
  const sheets: SheetSettings[] = [];
  if (table === undefined) return { settings, stated: new Set(), sheets, unread: [], issues };
  const chosen: Chosen = new Map();
  const unread: UnreadMoney[] = [];
  for (const line of statedIn(table, issues)) {
    const definition = definitionOf(line, file, issues);
    // "rent, 60" among settings is a cost that no sheet of costs has
    if (definition === undefined && /[1-9]/.test(line.value) && speaksOfPay(line.key)) {
      const reason = "it stands among the settings, where no cost is read";
      unread.push({ sheet: "settings", name: line.key, reason, source: { file, row: line.row }, inUse: false });
    }
    if (definition === undefined || line.value === "") continue;
    if (line.sheet !== undefined) {
      appendAll(sheets, forOneSheet(definition, { ...line, sheet: line.sheet }, settings, file, issues));
      continue;
    }
    const before = chosen.get(definition.property);
    if (before !== undefined) appendAll(unread, noteSetTwice(before.line, line, definition, file, issues));
    chosen.set(definition.property, { definition, line });
  }
  const marked = markedIn(chosen, file, issues);
  if (marked !== undefined) settings.currency = marked;
  appendAll(unread, readChosen(chosen, settings, file, issues));
  checkSettingPairs(settings, file, issues);
  issues.sort((a, b) => a.row - b.row);
  const stated = new Set(chosen.keys());
  if (marked !== undefined) stated.add("currency");
  return { settings, stated, sheets, unread, issues };
}

/** A setting of one sheet, which only the settings of its shape can be. */
function forOneSheet(
  definition: SettingDefinition,
  line: StatedSetting & { sheet: string },
  settings: Settings,
  file: string,
  issues: Issue[],
): SheetSettings[] {
  const { property, key } = definition;
  if (!sheetProperties.includes(property)) {
    issues.push(
      logEntry({
        file,
        row: line.row,
        column: "sheet",
        raw: line.sheet,
        rule: "setting-for-one-sheet",
        severity: "warning",
        reason: `${key} holds for the whole book and cannot be set for one sheet; the line was not read`,
        expected: "an empty cell",
        action: "Empty the cell to set it for the book",
      }),
    );
    return [];
  }
  const value = readSettingValue(definition, line, settings, file, issues);
  return value === undefined ? [] : [{ sheet: line.sheet, settings: { [property]: value } as Partial<Settings> }];
}

/** Decimals of a currency's smallest coin. @example decimalsOf("JPY") // 0 */
export const decimalsOf = (currency: string): number =>
  new Intl.NumberFormat("en", { style: "currency", currency }).resolvedOptions().maximumFractionDigits ?? 2;
