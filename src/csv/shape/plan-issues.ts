import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { ReadingPlan } from "../../records/reading-plan.ts";
import type { FoundHeader } from "./find-header.ts";
import type { SheetRow } from "./grid.ts";
import type { Survey } from "./survey-rows.ts";
import { isValueLike } from "./value-like.ts";

/** The entries of the log that say how a table was taken, each with the setting that undoes it. */
export const planIssues = ({ file, assumptions }: ReadingPlan): Issue[] =>
  assumptions.map(({ rule, says, columns, row, example, undo }) =>
    logEntry({
      file,
      row,
      column: columns.join(", "),
      raw: example,
      rule,
      severity: "note",
      reason: says,
      action: undo === undefined ? "" : `State ${undo.key} = ${undo.value} in settings.csv if that is wrong`,
      ...(undo === undefined ? {} : { setting: undo.key }),
    }),
  );

/** No row reads like a header: none of them is read. @param sample the first rows, which are shown as left out */
export function withoutHeader(
  file: string,
  sample: ReadonlyArray<SheetRow>,
): { issues: Issue[]; leftOut: LeftOutRow[] } {
  const reason = "no row reads like a header: a row of column names above the data is missing";
  const leftOut = sample.map(({ row, cells }) => ({ file, row, cells, rule: "no-header", reason }));
  const issue = logEntry({
    file,
    row: sample[0]!.row,
    rule: "no-header",
    severity: "error",
    raw: sample[0]!.cells.slice(0, 12).join(" | ").slice(0, 300),
    reason,
    expected: "column names in the first row",
    action:
      "Insert a row above the data and name each column in it, for instance tray_id,inoculum_ml,outcome,fresh_g,dry_g",
  });
  return { issues: [issue], leftOut };
}

/** Columns are named by amounts, of which nobody says what they are. */
export const valuesInHeader = (file: string, { lastRow }: FoundHeader, values: ReadonlyArray<string>): Issue =>
  logEntry({
    file,
    row: lastRow,
    rule: "values-as-names",
    severity: "error",
    raw: values.join(" | "),
    reason:
      "columns are named by amounts, so that it is not said what their numbers are (fresh weight, dry weight, days)",
    expected: "one row for each tray, with a column for the amount and one for what was weighed",
    action:
      "State layout = cells in settings.csv if each cell is a tray’s weight, or put one tray in a row: tray_id, inoculum_ml, fresh_g",
    setting: "layout",
  });

/** Columns headed by days, or that come again to the right, are read as flushes. */
export const readAsFlushes = (
  file: string,
  { lastRow }: FoundHeader,
  [raw, result]: readonly [ReadonlyArray<string>, ReadonlyArray<string>],
  what: string,
): Issue =>
  logEntry({
    file,
    row: lastRow,
    rule: "read-as-flushes",
    severity: "note",
    raw: raw.join(" | "),
    result: result.join(" | "),
    reason: `${what}: read as flushes in their order`,
    action: "State layout = rows in settings.csv if they hold something else",
    setting: "layout",
  });

/** A first column of codes without a name. */
export const namelessIssue = (file: string, { lastRow }: FoundHeader): Issue =>
  logEntry({
    file,
    row: lastRow,
    rule: "nameless-trays",
    severity: "note",
    result: "tray_id",
    reason: "the first column has no name and holds different codes: read as the trays’ names",
    action: "Name the column if it holds something else",
  });

/** What a table lacks: columns at its end, or all its rows; rows that stand above their names are an error. */
export function sayEmpty(file: string, dropped: number, { dataRows }: Survey, above: ReadonlyArray<SheetRow>): Issue[] {
  const issues: Issue[] = [];
  if (dropped > 0) {
    const what = dropped === 1 ? "a column" : `${dropped} columns`;
    const reason = `${what} at the right end without a name and without data left out`;
    issues.push(logEntry({ file, rule: "empty-columns", severity: "note", reason }));
  }
  const values = above.filter(({ cells }) => cells.filter(isValueLike).length >= 2);
  if (dataRows === 0 && values.length >= 2) {
    const action = "Move the row of names to the top of the sheet";
    const raw = values[0]!.cells.slice(0, 12).join(" | ").slice(0, 300);
    const reason = `${values.length} rows of values stand above the row of names, and none below: they are not read`;
    issues.push(
      logEntry({
        file,
        row: values[0]!.row,
        rule: "rows-above-names",
        severity: "error",
        raw,
        reason,
        expected: "column names in the first row",
        action,
      }),
    );
  } else if (dataRows === 0) {
    const reason = "the sheet has a header and no rows of data";
    issues.push(logEntry({ file, rule: "header-only", severity: "note", reason }));
  }
  return issues;
}
