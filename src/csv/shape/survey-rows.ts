import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { sheetIssue } from "../sheet-issue.ts";
import type { VisitRecord } from "../text/read-records.ts";
import type { FoundHeader, LooksLikeHeader } from "./find-header.ts";
import { isBlank, isTotalsRow, repeatsHeader } from "./row-role.ts";
import { isLabelLike } from "./value-like.ts";

/** Reads all records of a sheet from the start; can be called again. */
export type ForEachRecord = (visit: VisitRecord) => void;

/** What a whole sheet holds besides its data rows. */
export interface Survey {
  issues: Issue[];
  leftOut: LeftOutRow[];
  /** first and last row number of each stretch that is not data, in order */
  notData: [first: number, last: number][];
  /** cells of a data row: the header's, and unnamed ones after it that most rows have */
  width: number;
  /** per column, whether any data row has something in it; named columns count as used */
  used: boolean[];
  dataRows: number;
  /** row number where another table begins, with other names; the survey ends above it */
  nextTable?: number;
}

/** Entries of one rule in one file; what is beyond is counted in a last one, so that the log stays readable. */
const mostEntries = 1000;
const shortened = (text: string): string => (text.length > 300 ? `${text.slice(0, 299)}…` : text);

/** Whether a row below a blank one is the header of another table: known names, and not those of this one. */
function namesColumns(cells: string[], header: FoundHeader, known: LooksLikeHeader): boolean {
  const some = cells.map((cell) => cell.trim()).filter((cell) => cell !== "");
  return (
    some.length >= 2 &&
    some.every(isLabelLike) &&
    !header.lines.some((line) => repeatsHeader(cells, line)) &&
    known(cells) >= 0.6
  );
}

/** Looks at every record of a sheet once: what is data, what is left out and why, and which rows are ragged. */
export function surveyRows(
  file: string,
  forEachRecord: ForEachRecord,
  header: FoundHeader,
  known?: LooksLikeHeader,
): Survey {
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  const notData: [number, number][] = [];
  const named = header.names.length;
  const used = header.names.map((name) => name !== "");
  const unnamed = [...used.keys()].filter((column) => !used[column]);
  const longRows: { row: number; extra: string[] }[] = [];
  let longCount = 0;
  let widest = named;
  let dataRows = 0;
  let shortRows = 0;
  let firstShort = 0;
  let blankFrom = 0;
  let blankTo = 0;
  let afterSummary = false;
  let afterBlank = false;
  let nextTable: number | undefined;

  function leave(cells: string[], row: number, rule: string, reason: string): void {
    const last = notData.at(-1);
    if (last !== undefined && last[1] === row - 1) last[1] = row;
    else notData.push([row, row]);
    if (rule !== "") leftOut.push({ file, row, cells, rule, reason });
  }

  function endBlanks(isEndOfSheet: boolean): void {
    if (blankFrom === 0) return;
    const count = blankTo - blankFrom + 1;
    const reason =
      count === 1
        ? "the row is blank"
        : `rows ${blankFrom} to ${blankTo} are blank${isEndOfSheet ? ", to the end" : ""}`;
    leftOut.push({ file, row: blankFrom, cells: [], rule: "blank-row", reason });
    blankFrom = 0;
  }

  forEachRecord((cells, row, unclosedQuote) => {
    if (unclosedQuote) {
      issues.push(
        sheetIssue({
          file,
          row,
          rule: "unclosed-quote",
          severity: "warning",
          raw: shortened(cells.find((cell) => cell.includes('"')) ?? ""),
          reason: "a cell starts with a quotation mark that is never closed; the line was read as it stands",
          expected: "a closing quotation mark at the end of the cell, or none at its start",
          action: "Look at the row in a text editor and close or remove the quotation mark",
        }),
      );
    }
    if (isBlank(cells)) {
      leave(cells, row, "", "");
      if (blankFrom === 0) blankFrom = row;
      blankTo = row;
      afterSummary = true;
      afterBlank = true;
      return true;
    }
    if (afterBlank && row > header.lastRow && known !== undefined && namesColumns(cells, header, known)) {
      nextTable = row;
      return false;
    }
    afterBlank = false;
    endBlanks(false);
    if (row < header.firstRow) {
      leave(cells, row, "title-line", "it stands above the header");
      return true;
    }
    if (row <= header.lastRow) {
      leave(cells, row, "", "");
      return true;
    }
    if (header.lines.some((line) => repeatsHeader(cells, line))) {
      leave(cells, row, "repeated-header", "it repeats the header");
      return true;
    }
    if (isTotalsRow(cells, afterSummary)) {
      leave(cells, row, "totals-row", "it sums up other rows");
      afterSummary = true;
      return true;
    }
    afterSummary = false;
    dataRows++;
    for (let index = unnamed.length - 1; index >= 0; index--) {
      const column = unnamed[index]!;
      if ((cells[column] ?? "").trim() !== "") {
        used[column] = true;
        unnamed.splice(index, 1);
      }
    }
    if (cells.length < named) {
      shortRows++;
      if (firstShort === 0) firstShort = row;
    } else if (cells.length > named) {
      let end = cells.length;
      while (end > named && cells[end - 1]!.trim() === "") end--;
      if (end > named) {
        longCount++;
        widest = Math.max(widest, end);
        if (longRows.length < mostEntries) longRows.push({ row, extra: cells.slice(named, end) });
      }
    }
    return true;
  });
  endBlanks(true);

  // most rows have it: then it is a column whose name is missing, not a slip
  const widen = longCount >= 2 && longCount > dataRows / 2;
  if (!widen && longCount > 0) {
    const expected = `${named} cells, as many as the header has`;
    const action =
      "Put cells that hold the separator into quotation marks, and see whether cells of this row stand in the wrong column";
    for (const { row, extra } of longRows) {
      issues.push(
        sheetIssue({
          file,
          row,
          rule: "long-row",
          severity: "warning",
          raw: shortened(extra.join(" | ")),
          reason: "the row has more cells than the header; what is beyond the last column was left out",
          expected,
          action,
        }),
      );
    }
    if (longCount > longRows.length) {
      issues.push(
        sheetIssue({
          file,
          rule: "long-row",
          severity: "warning",
          reason: `${longCount - longRows.length} further rows have more cells than the header`,
          expected,
          action,
        }),
      );
    }
  }
  if (shortRows > 0) {
    issues.push(
      sheetIssue({
        file,
        row: firstShort,
        rule: "short-row",
        severity: "note",
        reason: `${shortRows === 1 ? "one row has" : `${shortRows} rows have`} fewer cells than the header; the missing ones are taken as blank`,
      }),
    );
  }
  issues.sort((a, b) => a.row - b.row);
  const width = widen ? widest : named;
  return {
    issues,
    leftOut,
    notData,
    width,
    used: Array.from({ length: width }, (_, column) => used[column] ?? true),
    dataRows,
    ...(nextTable === undefined ? {} : { nextTable }),
  };
}
