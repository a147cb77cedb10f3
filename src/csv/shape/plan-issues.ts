import type { Issue } from "../../records/issue.ts";
import type { ReadingPlan } from "../../records/reading-plan.ts";
import { sheetIssue } from "../sheet-issue.ts";

/** The entries of the log that say how a table was taken, each with the setting that undoes it. */
export const planIssues = ({ file, assumptions }: ReadingPlan): Issue[] =>
  assumptions.map(({ rule, says, columns, row, example, undo }) =>
    sheetIssue({
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
