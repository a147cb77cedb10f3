import { readSettings } from "../cleaning/side-sheets/read-settings.ts";
import { settingNames } from "../cleaning/side-sheets/setting-words.ts";
import { roleByHeader, roleByName } from "../cleaning/sort-sources.ts";
import { openSheet } from "../csv/open-sheet.ts";
import { writeCsv } from "../csv/write-csv.ts";
import type { Issue } from "../records/issue.ts";
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

type Answers = ReadonlyArray<readonly [key: string, value: string]>;

/** A book's sheets with answers in them. */
export interface AnsweredSheets {
  sources: SheetSource[];
  /** the text of the settings sheet among them */
  settingsCsv: string;
  /** the texts of columns.csv and cells.csv, where answers went into them */
  answered: { columns?: string; cells?: string };
  /** whether the settings state how numbers are written */
  statesLocale: boolean;
}

const columnKey = /^column:(?:(.*)\t)?(.+)$/s;

/** The key by which an answer says what a column of a sheet holds. @example columnAnswerKey("a.csv", "Yield") // "column:a.csv\tYield" */
export const columnAnswerKey = (file: string, header: string): string =>
  `column:${file === "" ? "" : `${file}\t`}${header}`;

/** The key by which an answer gives a setting for one sheet. @example sheetAnswerKey("sheet_role", "b.csv") // "sheet_role\tb.csv" */
export const sheetAnswerKey = (setting: string, file: string): string => `${setting}\t${file}`;

const cellKey = /^cell:(.*)\t(\d+)\t(.*)\t(.+)$/s;

/** The key by which an answer says what stands in one cell. @example cellAnswerKey({ file: "a.csv", row: 3, tray: "T2", column: "Fresh" }) // "cell:a.csv\t3\tT2\tFresh" */
export const cellAnswerKey = ({
  file,
  row,
  tray = "",
  column,
}: Pick<Issue, "file" | "row" | "tray" | "column">): string => ["cell:".concat(file), row, tray, column].join("\t");

/** A sheet of answers: its lines have a place, by which a new answer takes the stead of an old one. */
interface AnswerSheet {
  role: "columns" | "cells";
  header: ReadonlyArray<string>;
  /** the line of an answer, undefined for one that belongs elsewhere */
  line(key: string, value: string): string[] | undefined;
  place(line: ReadonlyArray<string>): string;
}

const answerSheets: ReadonlyArray<AnswerSheet> = [
  {
    role: "columns",
    header: ["file", "header", "field", "unit", "note"],
    line(key, value) {
      const match = columnKey.exec(key);
      return match === null ? undefined : [match[1] ?? "", match[2]!, value, "", "answered"];
    },
    place: ([, header]) => plain(header!),
  },
  {
    role: "cells",
    header: ["file", "row", "tray", "column", "value", "note"],
    line(key, value) {
      const match = cellKey.exec(key);
      return match === null ? undefined : [...match.slice(1, 5), value, "answered"];
    },
    place: ([file, row, tray, column]) => [file, row, tray, column].join("\t").toLowerCase(),
  },
];

/** The sheets with answers as the first lines of columns.csv or cells.csv, and the text of that sheet where there are any. */
async function withAnswerLines(
  sources: ReadonlyArray<SheetSource>,
  answers: Answers,
  { role, header, line, place }: AnswerSheet,
): Promise<{ sources: SheetSource[]; text: string | undefined }> {
  const lines = answers.map(([key, value]) => line(key, value)).filter((made) => made !== undefined);
  if (lines.length === 0) return { sources: [...sources], text: undefined };
  const answered = new Set(lines.map(place));
  const others: SheetSource[] = [];
  const kept: string[][] = [];
  for (const source of sources) {
    if (roleByName(source) !== role) {
      others.push(source);
      continue;
    }
    for (const table of (await openSheet(source)).tables) {
      const at = header.map((name) => table.header.map(plain).indexOf(name));
      table.forEachRow((cells) => {
        const own = at.map((index) => cells[index] ?? "");
        if (!answered.has(place(own))) kept.push(own);
      });
    }
  }
  const text = writeCsv([header, ...lines, ...kept], { guard: true });
  const bytes = new TextEncoder().encode(text);
  return { sources: [...others, { path: `${role}.csv`, size: bytes.length, chunks: () => [bytes] }], text };
}

/**
 * A book's sheets with the reader's answers put into its settings sheet, or into a new one where there is none; what
 * columns hold goes into columns.csv likewise, what single cells hold into cells.csv.
 * @param answers by the keys of settings.csv, a line of the sheet with the same key gives way; by `sheetAnswerKey` for one
 * sheet; "column:HEADER", or
 * "column:FILE" tab "HEADER", with a harvest column, factor or unread;
 * cells by `cellAnswerKey`
 */
export async function withAnsweredSettings(
  allSources: ReadonlyArray<SheetSource>,
  allAnswers: Answers,
): Promise<AnsweredSheets> {
  const answers = allAnswers.filter(([key]) => !columnKey.test(key) && !cellKey.test(key));
  let sources: ReadonlyArray<SheetSource> = allSources;
  const answered: AnsweredSheets["answered"] = {};
  for (const sheet of answerSheets) {
    const made = await withAnswerLines(sources, allAnswers, sheet);
    sources = made.sources;
    if (made.text !== undefined) answered[sheet.role] = made.text;
  }
  const found = await findSettings(sources);
  const keys = new Set(answers.map(([key]) => key));
  const kept = found?.table === undefined ? [] : linesOf(found.table, found.source.path);
  const rows = [
    ["key", "value", "unit", "note", "sheet"],
    ...kept.filter(
      ([key, , , , sheet = ""]) => !keys.has(sheet === "" ? plain(key!) : sheetAnswerKey(plain(key!), sheet)),
    ),
    ...answers.map(([answer, value]) => {
      const [key, sheet = ""] = answer.split("\t");
      const unit = settingDefinitions.find((definition) => definition.key === key)?.unit ?? "";
      return [key!, value, unit, "answered", ...(sheet === "" ? [] : [sheet])];
    }),
  ];
  const settingsCsv = writeCsv(rows, { guard: true });
  const statesLocale = rows.some(([key, value]) => localeNames.has(plain(key!)) && value?.trim() !== "");
  // a sheet nobody answered is read as it was typed
  if (answers.length === 0) return { sources: [...sources], settingsCsv, answered, statesLocale };
  const bytes = new TextEncoder().encode(settingsCsv);
  const path = found === undefined ? "settings.csv" : found.source.path.replace(ending, ".csv");
  const others = sources.filter((source) => source !== found?.source);
  return {
    sources: [...others, { path, size: bytes.length, chunks: () => [bytes] }],
    settingsCsv,
    answered,
    statesLocale,
  };
}
