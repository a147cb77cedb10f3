import { readSettings } from "../cleaning/side-sheets/read-settings.ts";
import { settingNames } from "../cleaning/side-sheets/setting-words.ts";
import { roleByHeader, roleByName } from "../cleaning/sort-sources.ts";
import { openSheet } from "../csv/open-sheet.ts";
import { writeCsv } from "../csv/write-csv.ts";
import { defaultSettings, settingDefinitions } from "../records/setting-definitions.ts";
import type { RawTable, SheetSource } from "../records/sheet.ts";

/** a settings sheet is short; larger files are not opened to look whether they are one */
const largestSettings = 1 << 18;

const plain = (name: string): string =>
  name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s-]+/g, "_");

const localeNames = new Set(["locale", ...settingNames.locale!.split("|").map(plain)]);

const ending = /\.[^.]+$/;

/** The settings sheet of a book: the first by its name, otherwise the first by its columns. */
async function findSettings(
  sources: ReadonlyArray<SheetSource>,
): Promise<{ source: SheetSource; table: RawTable | undefined } | undefined> {
  const inOrder = [...sources].sort((a, b) => (a.path < b.path ? -1 : 1));
  for (const source of inOrder) {
    const named = roleByName(source);
    if (named !== "settings" && (named !== undefined || source.size > largestSettings)) continue;
    const [table] = (await openSheet(source)).tables;
    if (named === "settings" || (table !== undefined && roleByHeader(table) === "settings")) return { source, table };
  }
  return undefined;
}

/** The lines of a settings sheet as `key,value,unit,note,sheet`. A sheet of another shape gives what it was understood to say. */
function linesOf(table: RawTable, file: string): string[][] {
  const header = table.header.map(plain);
  const at = ["key", "value", "unit", "note", "sheet"].map((name) => header.indexOf(name));
  const lines: string[][] = [];
  if (at[0]! >= 0 && at[1]! >= 0) {
    table.forEachRow((cells) => void lines.push(at.map((index) => cells[index] ?? "")));
    return lines;
  }
  const { settings } = readSettings(table, file);
  let hasLocale = table.header.some((name) => localeNames.has(plain(name)));
  table.forEachRow(([key = "", value = ""]) => {
    hasLocale ||= localeNames.has(plain(key)) && value.trim() !== "";
  });
  for (const { key, property, kind, unit } of settingDefinitions) {
    const value = settings[property];
    const isDefault = value === defaultSettings[property] && !(property === "locale" && hasLocale);
    if (value === undefined || isDefault) continue;
    const typed = kind === "percent" ? Number((Number(value) * 100).toPrecision(12)) : value;
    lines.push([key, String(typed), unit, ""]);
  }
  return lines;
}

const columnKey = /^column:(?:(.*)\t)?(.+)$/s;

/** The key by which an answer says what a column of a sheet holds. @example columnAnswerKey("a.csv", "Yield") // "column:a.csv\tYield" */
export const columnAnswerKey = (file: string, header: string): string =>
  `column:${file === "" ? "" : `${file}\t`}${header}`;

/** The sheets with answers about columns as the first lines of their pins. */
async function withAnsweredColumns(
  sources: ReadonlyArray<SheetSource>,
  answers: ReadonlyArray<readonly [key: string, value: string]>,
): Promise<SheetSource[]> {
  const pins = answers.flatMap(([key, value]) => {
    const match = columnKey.exec(key);
    return match === null ? [] : [[match[1] ?? "", match[2]!, value, "", "answered"]];
  });
  if (pins.length === 0) return [...sources];
  const answered = new Set(pins.map(([, header]) => header!.trim().toLowerCase()));
  const others: SheetSource[] = [];
  const kept: string[][] = [];
  for (const source of sources) {
    if (roleByName(source) !== "columns") {
      others.push(source);
      continue;
    }
    for (const table of (await openSheet(source)).tables) {
      const at = ["file", "header", "field", "unit", "note"].map((name) => table.header.map(plain).indexOf(name));
      table.forEachRow((cells) => {
        const line = at.map((index) => cells[index] ?? "");
        if (!answered.has(line[1]!.trim().toLowerCase())) kept.push(line);
      });
    }
  }
  const text = writeCsv([["file", "header", "field", "unit", "note"], ...pins, ...kept], { guard: true });
  const bytes = new TextEncoder().encode(text);
  return [...others, { path: "columns.csv", size: bytes.length, chunks: () => [bytes] }];
}

/**
 * A book's sheets with the reader's answers put into its settings sheet, or into a new one where there is none; what
 * columns hold goes into columns.csv likewise.
 * @param answers by the keys of settings.csv, a line of the sheet with the same key gives way; "column:HEADER", or
 * "column:FILE" tab "HEADER", with a harvest column, factor or unread
 * @returns the sheets, the text of the settings sheet among them, and whether it states how numbers are written
 */
export async function withAnsweredSettings(
  allSources: ReadonlyArray<SheetSource>,
  allAnswers: ReadonlyArray<readonly [key: string, value: string]>,
): Promise<{ sources: SheetSource[]; settingsCsv: string; statesLocale: boolean }> {
  const columnAnswers = allAnswers.filter(([key]) => columnKey.test(key));
  const answers = allAnswers.filter(([key]) => !columnKey.test(key));
  const sources = await withAnsweredColumns(allSources, columnAnswers);
  const found = await findSettings(sources);
  const answered = new Set(answers.map(([key]) => key));
  const kept = found?.table === undefined ? [] : linesOf(found.table, found.source.path);
  const rows = [
    ["key", "value", "unit", "note", "sheet"],
    ...kept.filter(([key, , , , sheet]) => !answered.has(plain(key!)) || (sheet ?? "") !== ""),
    ...answers.map(([key, value]) => {
      const unit = settingDefinitions.find((definition) => definition.key === key)?.unit ?? "";
      return [key, value, unit, "answered"];
    }),
  ];
  const settingsCsv = writeCsv(rows, { guard: true });
  const statesLocale = rows.some(([key, value]) => localeNames.has(plain(key!)) && value?.trim() !== "");
  // a sheet nobody answered is read as it was typed
  if (answers.length === 0) return { sources: [...sources], settingsCsv, statesLocale };
  const bytes = new TextEncoder().encode(settingsCsv);
  const path = found === undefined ? "settings.csv" : found.source.path.replace(ending, ".csv");
  const others = sources.filter((source) => source !== found?.source);
  return { sources: [...others, { path, size: bytes.length, chunks: () => [bytes] }], settingsCsv, statesLocale };
}
