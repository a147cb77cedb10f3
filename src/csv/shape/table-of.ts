import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { RawTable } from "../../records/sheet.ts";
import { notASheet } from "../not-a-sheet.ts";
import { sheetIssue } from "../sheet-issue.ts";
import { findHeader, type LooksLikeHeader, type SheetRow } from "./find-header.ts";
import { isBlank } from "./row-role.ts";
import { type ForEachRecord, type Survey, surveyRows } from "./survey-rows.ts";

/** A file read as a sheet: its tables, what is to be said about it, and the rows that are no data. */
export interface OpenedSheet {
  tables: RawTable[];
  issues: Issue[];
  leftOut: LeftOutRow[];
}

const sampleRows = 60;

function firstRows(forEachRecord: ForEachRecord): SheetRow[] {
  const rows: SheetRow[] = [];
  forEachRecord((cells, row) => {
    if (!isBlank(cells)) rows.push({ cells, row });
    return rows.length < sampleRows;
  });
  return rows;
}

/** Data rows only, every one as wide as the header. */
function dataRowsOf(forEachRecord: ForEachRecord, { notData }: Survey, width: number): RawTable["forEachRow"] {
  return (visit) => {
    let next = 0;
    forEachRecord((cells, row) => {
      const stretch = notData[next];
      if (stretch !== undefined && row >= stretch[0]) {
        if (row === stretch[1]) next++;
        return true;
      }
      if (cells.length > width) cells.length = width;
      while (cells.length < width) cells.push("");
      visit(cells, row);
      return true;
    });
  };
}

/** The records above a row; all of them where there is none such. */
const upTo =
  (forEachRecord: ForEachRecord, end: number | undefined): ForEachRecord =>
  (visit) =>
    forEachRecord((cells, row, unclosed) => (row === end ? false : visit(cells, row, unclosed)));

/** The records from a row on. */
const startingAt =
  (forEachRecord: ForEachRecord, start: number): ForEachRecord =>
  (visit) =>
    forEachRecord((cells, row, unclosed) => (row < start ? true : visit(cells, row, unclosed)));

/** Names of columns, the second and later ones of a name numbered; one entry of the log for each. */
function namesApart(
  file: string,
  names: ReadonlyArray<string>,
  headerRow: number,
): { names: string[]; issues: Issue[] } {
  const taken = new Set<string>(names.map((name) => name.toLowerCase()));
  const seen = new Set<string>();
  const issues: Issue[] = [];
  const apart = names.map((name) => {
    const key = name.toLowerCase();
    if (name === "" || !seen.has(key)) {
      seen.add(key);
      return name;
    }
    let number = 2;
    while (taken.has(`${key} (${number})`)) number++;
    const renamed = `${name} (${number})`;
    taken.add(renamed.toLowerCase());
    issues.push(
      sheetIssue({
        file,
        row: headerRow,
        column: name,
        raw: name,
        result: renamed,
        rule: "column-used-twice",
        severity: "warning",
        reason: "two columns have the same name; both are kept, the later one under a numbered name",
        expected: "a name of its own for every column",
        action: "Rename one of the columns, or remove the one that is not needed",
      }),
    );
    return renamed;
  });
  return { names: apart, issues };
}

/**
 * Makes a table of a sheet's records: finds the header, tells data from the rest, and evens out ragged rows.
 * @param file the source's path, for messages
 * @param forEachRecord reads the records from the start each time it is called
 * @param known needed to see that another table begins further down
 * @param mostFurther tables looked for below the first; rows of more than these stay rows of the last one
 */
export function tableOf(
  file: string,
  forEachRecord: ForEachRecord,
  known?: LooksLikeHeader,
  mostFurther = 20,
): OpenedSheet {
  const sample = firstRows(forEachRecord);
  if (sample.length === 0) return { tables: [], issues: [notASheet(file, "empty")], leftOut: [] };
  const header = findHeader(sample, known);
  if (header === undefined) {
    const issue = sheetIssue({
      file,
      row: sample[0]!.row,
      rule: "no-header",
      severity: "error",
      raw: sample[0]!.cells.slice(0, 12).join(" | ").slice(0, 300),
      reason: "no row reads like a header: a row of column names above the data is missing",
      expected: "column names in the first row",
      action: "Insert a row above the data and name each column in it",
    });
    return { tables: [], issues: [issue], leftOut: [] };
  }
  const survey = surveyRows(file, forEachRecord, header, mostFurther > 0 ? known : undefined);
  const names = Array.from({ length: survey.width }, (_, column) => header.names[column] ?? "");
  let width = survey.width;
  while (width > 0 && !survey.used[width - 1]) width--;
  const dropped = survey.width - width;
  const { names: apart, issues: twice } = namesApart(file, names.slice(0, width), header.lastRow);
  const issues: Issue[] = [...twice];
  if (dropped > 0) {
    issues.push(
      sheetIssue({
        file,
        rule: "empty-columns",
        severity: "note",
        reason: `${dropped === 1 ? "a column" : `${dropped} columns`} at the right end without a name and without data left out`,
      }),
    );
  }
  if (survey.dataRows === 0) {
    issues.push(
      sheetIssue({ file, rule: "header-only", severity: "note", reason: "the sheet has a header and no rows of data" }),
    );
  }
  issues.push(...survey.issues);
  const table: RawTable = {
    file,
    header: apart,
    headerRow: header.lastRow,
    forEachRow: dataRowsOf(upTo(forEachRecord, survey.nextTable), survey, width),
  };
  const opened: OpenedSheet = { tables: [table], issues, leftOut: survey.leftOut };
  if (survey.nextTable === undefined) return opened;
  const next = tableOf(file, startingAt(forEachRecord, survey.nextTable), known, mostFurther - 1);
  const note = sheetIssue({
    file,
    row: survey.nextTable,
    rule: "further-table",
    severity: "note",
    reason: "another table with other columns begins below a blank row; it was read as one of its own",
  });
  return {
    tables: [...opened.tables, ...next.tables],
    issues: [...issues, note, ...next.issues],
    leftOut: [...survey.leftOut, ...next.leftOut],
  };
}
