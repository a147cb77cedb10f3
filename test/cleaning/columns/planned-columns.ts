import type { ColumnPin } from "../../../src/cleaning/columns/column-plan.ts";
import { planColumns } from "../../../src/cleaning/columns/plan-columns.ts";
import { profileColumns } from "../../../src/cleaning/columns/profile-columns.ts";
import type { Issue } from "../../../src/records/issue.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { tableOf } from "../side-sheets/table-of-text.ts";

function plansOf(text: string, pins: ReadonlyArray<ColumnPin>, file: string): ReturnType<typeof planColumns> {
  const [header = [], ...rows] = text.split("|").map((row) => row.split(","));
  const table = tableOf(file, header, rows);
  return planColumns(file, header, defaultSettings, pins, (indexes) => profileColumns(table, indexes));
}

/** The columns of a table whose numbers follow the canonical form. */
export const canonicalColumns = (text: string, pins: ReadonlyArray<ColumnPin> = []): string =>
  plansOf(text, pins, "a.csv")
    .plans.filter(({ canonical }) => canonical)
    .map(({ header }) => header)
    .join(", ");

/** A table of columns and cells as typed in a test, "Tray,Dose|1,5|2,10": the header, then rows. */
export function planned(
  text: string,
  pins: ReadonlyArray<ColumnPin> = [],
  file = "a.csv",
): { columns: string; log: string[]; issues: Issue[] } {
  const { plans, issues } = plansOf(text, pins, file);
  return {
    columns: plans
      .map(({ field, flush, conventions: { bareUnit }, mayBe }) =>
        [
          field + (flush === undefined ? "" : ` ${flush}`),
          ...(bareUnit === "" ? [] : [`(${bareUnit})`]),
          ...(mayBe === undefined ? [] : [`? ${mayBe.join(" or ")}`]),
        ].join(" "),
      )
      .join(", "),
    log: issues.map(({ rule, column, result }) => [rule, column, ...(result === undefined ? [] : [result])].join(": ")),
    issues,
  };
}
