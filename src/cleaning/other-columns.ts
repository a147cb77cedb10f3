import type { Issue } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { RawTable } from "../records/sheet.ts";
import { withRows } from "../records/with-rows.ts";

/** Columns of a table as its cells say they are. */
export interface OtherColumns {
  rule: string;
  /** the place of the column that says so */
  column: number;
  result: string;
  reason: string;
  header: string[];
  /** changes the cells of a row to those of the header */
  change(cells: string[]): void;
}

/** Tables with their columns as their cells say they are, each with its entry of the log. */
export function withOtherColumns(
  tables: ReadonlyArray<RawTable>,
  find: (table: RawTable) => OtherColumns | undefined,
): { tables: RawTable[]; issues: Issue[] } {
  const issues: Issue[] = [];
  const read = tables.map((table): RawTable => {
    const found = find(table);
    if (found === undefined) return table;
    const { rule, column, result, reason, header, change } = found;
    issues.push(
      logEntry({
        ...{ file: table.file, column: table.header[column]!, rule, severity: "note", result, reason },
        action: "State joined_cells = ignore in settings.csv if that is wrong",
        setting: "joined_cells",
      }),
    );
    return withRows(table, header, (cells) => {
      change(cells);
      return cells;
    });
  });
  return { tables: read, issues };
}
