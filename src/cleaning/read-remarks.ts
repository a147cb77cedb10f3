import { fileStem } from "../records/file-stem.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import { known } from "../records/known.ts";
import { logEntry } from "../records/log-entry.ts";
import type { RawTable } from "../records/sheet.ts";
import { isLoss } from "../records/tray.ts";
import { fold } from "../records/words/fold.ts";
import { phrasesOf } from "../records/words/languages.ts";
import { meaningOfColour } from "./colour-legend.ts";
import { doubtRemark } from "./doubt-remarks.ts";
import { isLostWord } from "./values/outcome-phrases.ts";
import { readOutcome } from "./values/outcome-words.ts";
import { weightRemark } from "./weight-remarks.ts";

/** Trays by number: "2 trays lost to mold", "T7 and T8 binned". A legend ("C = contaminated") speaks of none. */
const countsTrays = /\d/;
const legend = /[=:]/;
/** "lost: 3 and 5" */
const listed = /^([^:=]{3,40}):(?=.*\d)/;

/** Whether a text tells of a loss beyond doubt. */
export const tellsLoss = (text: string): boolean => {
  const found = readOutcome(text);
  return (
    found !== undefined && isLoss(found.says) && !found.contradictory && !found.perhaps && (found.sure || found.whole)
  );
};

/** The day a line begins with: "14 Feb tray 5 green - out". */
const day = new RegExp(
  `^\\d{1,2}\\.? (?:${phrasesOf(({ months }) => months.replaceAll(",", "|")).join("|")})\\b\\.?`,
  "iu",
);

/** A line without the day it begins with. */
export const withoutDay = (line: string): string => line.replace(day, "");

/** The names a table stands under: its tab, its file. */
const namesOf = (file: string): string[] => file.split(" > ").map((name) => fileStem(name).replace(/[_-]+/g, " "));

/**
 * What beside the rows of a table tells of losses: a line above, between or under them, or the name of its tab or file. A
 * tray of that table of which nothing else tells is then asked about. A title above all rows has to speak of nothing else:
 * "Contamination trial" names what was tried.
 * @returns the words, as typed
 */
function lossBesideRows({ file, remarks = [] }: Pick<RawTable, "file" | "remarks">): string | undefined {
  const lines = remarks.flatMap(({ cells, rule }) => {
    const text = cells.join(" ").replace(/\s*[:=]$/, "");
    const isTitle = rule === "title-line" && !countsTrays.test(text) && readOutcome(text)?.whole !== true;
    const isLegend = legend.test(text) && !tellsLoss(listed.exec(text)?.[1] ?? "");
    return text.length > 200 || isLegend || isTitle ? [] : [text.replace(":", "")];
  });
  const ofColours = remarks.map(({ cells }) => cells.join(" "));
  const coloured = ofColours.find((line) => {
    const meaning = meaningOfColour(line) ?? "";
    return tellsLoss(meaning) || fold(meaning).split(" ").some(isLostWord);
  });
  const isOfLosses = (name: string): boolean => tellsLoss(name) || fold(name).split(" ").some(isLostWord);
  return coloured ?? lines.find((line) => tellsLoss(withoutDay(line))) ?? namesOf(file).find(isOfLosses);
}

/** Gives tables what lines beside their rows, and the names they stand under, say of all their rows. */
export const withRemarksRead = (tables: ReadonlyArray<RawTable>): RawTable[] =>
  tables.map((table) => {
    const { remarks } = table;
    const weights = weightRemark(remarks);
    const doubt = weights === undefined ? doubtRemark(remarks) : undefined;
    const remarksSay = known({ weights, doubt, losses: lossBesideRows(table) });
    return Object.keys(remarksSay).length === 0 ? table : { ...table, remarksSay };
  });

/** Says where a remark above or under a table speaks of lost trays, which no row stands for. */
export function remarksOfLoss(leftOut: ReadonlyArray<LeftOutRow>): Issue[] {
  return leftOut.flatMap(({ file, row, cells, rule }): Issue[] => {
    if (rule !== "footnote" && rule !== "title-line") return [];
    const text = cells
      .map((cell) => cell.trim())
      .filter((cell) => cell !== "")
      .join(" ");
    if (text.length > 200 || !countsTrays.test(text) || legend.test(text)) return [];
    // "cooked 4 Jan" is the day of the cook
    const found = readOutcome(text.replace(/\bcooked\b/gi, ""));
    if (found === undefined || !isLoss(found.says) || found.contradictory) return [];
    return [
      logEntry({
        file,
        row,
        raw: text,
        rule: "loss-in-remark",
        severity: "warning",
        reason: "a remark beside the rows may speak of lost trays: trays without a row are not counted",
        expected: "a row for each tray that was started",
        action: "Give each lost tray a row with its outcome; if it has one, take the numbers out of the remark",
      }),
    ];
  });
}
