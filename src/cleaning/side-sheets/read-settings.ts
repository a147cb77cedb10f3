import { sheetIssue } from "../../csv/sheet-issue.ts";
import { appendAll } from "../../records/append-all.ts";
import type { Issue } from "../../records/issue.ts";
import type { SettingDefinition, Settings } from "../../records/setting.ts";
import { defaultSettings, retiredSettings, settingDefinitions } from "../../records/setting-definitions.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";
import { closestAmong } from "../../records/words/closest-word.ts";
import { checkSettingPairs } from "./check-setting-pairs.ts";
import { matchColumns, plainName } from "./match-side-columns.ts";
import { readSettingValue, type StatedSetting } from "./read-setting-value.ts";
import { settingNames } from "./setting-words.ts";

const columns = [
  { key: "key", names: "setting|name|option|what|item|parameter|property|settings" },
  { key: "value", names: "answer|setting value|val|choice|is|set to" },
  { key: "unit", names: "units|in|uom" },
  { key: "sheet", names: "file|for|for sheet|applies to|tab" },
  { key: "note", names: "notes|meaning|comment|comments|remark|remarks|description|default|choices|explanation" },
] as const;

const byName = new Map<string, SettingDefinition>();
for (const definition of settingDefinitions) {
  for (const name of settingNames[definition.property]?.split("|") ?? []) byName.set(plainName(name), definition);
}
for (const definition of settingDefinitions) {
  byName.set(plainName(definition.key), definition);
  byName.set(definition.property.toLowerCase(), definition);
}
const places = new Map([...byName.keys()].map((name, place) => [name, place]));
/** The names in which a word of three letters or more stands. */
const namesWith = new Map<string, string[]>();
for (const name of byName.keys()) {
  for (const word of new Set(name.split(" ")))
    if (word.length > 2) namesWith.set(word, [...(namesWith.get(word) ?? []), name]);
}
const retiredByName = new Map(Object.entries(retiredSettings).map(([key, reason]) => [plainName(key), reason]));
const closestName = closestAmong([...byName.keys()], (name) => byName.get(name)!.key);

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
    const [key = "", value = "", unit = "", sheet = ""] = cells.map((cell) => cell?.trim());
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
  const known = table.header.filter((name) => byName.has(plainName(name))).length;
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

/** The setting a line names, by meaning or with a small misspelling; what cannot be found, or is no more, is reported. */
function definitionOf(line: StatedSetting, file: string, issues: Issue[]): SettingDefinition | undefined {
  const plain = plainName(line.key);
  const near = byName.has(plain) ? plain : closestName(plain);
  const definition = near === undefined ? undefined : byName.get(near);
  const about = { file, row: line.row, column: "key", raw: line.key };
  const retired = retiredByName.get(plain);
  if (retired !== undefined) {
    issues.push(
      sheetIssue({
        ...about,
        rule: "retired-setting",
        severity: "note",
        reason: retired,
        expected: "",
        action: "Nothing needs to change; the line may be removed",
      }),
    );
    return undefined;
  }
  if (definition === undefined) {
    const nearest = nearestKey(plain);
    issues.push(
      sheetIssue({
        ...about,
        rule: "unknown-setting",
        severity: "warning",
        reason: "there is no setting of this name; the line was not read",
        expected: nearest === undefined ? "a key of the settings reference" : `perhaps ${nearest}`,
        action: "Correct the key, or remove the line",
      }),
    );
    return undefined;
  }
  if (near !== plain) {
    issues.push(
      sheetIssue({
        ...about,
        result: definition.key,
        rule: "setting-spelling",
        severity: "change",
        reason: "near enough to the name of a setting",
      }),
    );
  }
  return definition;
}

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
    sheetIssue({
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
    if (definition === undefined || line.value === "") continue;
    if (line.sheet !== undefined) {
      appendAll(sheets, forOneSheet(definition, { ...line, sheet: line.sheet }, settings, file, issues));
      continue;
    }
    const before = chosen.get(definition.property);
    if (before !== undefined) appendAll(unread, noteSetTwice(before.line, line, definition, file, issues));
    chosen.set(definition.property, { definition, line });
  }
  appendAll(unread, readChosen(chosen, settings, file, issues));
  checkSettingPairs(settings, file, issues);
  issues.sort((a, b) => a.row - b.row);
  return { settings, stated: new Set(chosen.keys()), sheets, unread, issues };
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
      sheetIssue({
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

/** The key that shares most of its words with an unknown one, for a message. */
function nearestKey(plain: string): string | undefined {
  const shared = new Map<string, number>();
  for (const word of plain.split(" "))
    for (const name of namesWith.get(word) ?? []) shared.set(name, (shared.get(name) ?? 0) + 1);
  let [best, most] = ["", 0];
  for (const [name, count] of shared) {
    if (count > most || (count === most && places.get(name)! < places.get(best)!)) [best, most] = [name, count];
  }
  return byName.get(best)?.key;
}

/** Decimals of a currency's smallest coin. @example decimalsOf("JPY") // 0 */
export const decimalsOf = (currency: string): number =>
  new Intl.NumberFormat("en", { style: "currency", currency }).resolvedOptions().maximumFractionDigits ?? 2;
