import type { LeftOutRow } from "../../records/issue.ts";
import { visibleText } from "../visible-text.ts";
import { SheetTable } from "./sheet-table.tsx";

const mostRows = 500;
const mostCells = 16;

/** A row's cells in one line, as they stood in the sheet. */
function rowText(cells: ReadonlyArray<string>): string {
  const shown = cells.slice(0, mostCells).map((cell) => visibleText(cell, 40));
  return cells.length > mostCells
    ? `${shown.join(" | ")} | … ${cells.length - mostCells} more cells`
    : shown.join(" | ");
}

/** Rows of the sheets that are in no answer, and why. */
export function LeftOutRows({ rows }: { rows: ReadonlyArray<LeftOutRow> }) {
  return (
    <>
      {rows.length === 0 ? (
        <p>No row was left out.</p>
      ) : (
        <SheetTable
          id="left-out-rows"
          caption="Rows that are in no answer"
          columns={[
            { label: "Row", numeric: true },
            { label: "File" },
            { label: "Why", wide: true },
            { label: "The row as it stood", wide: true },
          ]}
          rows={rows
            .slice(0, mostRows)
            .map(({ file, row, cells, reason }) => [String(row), file, reason, rowText(cells)])}
          note={rows.length > mostRows ? `The first ${mostRows} of ${rows.length} rows are shown.` : undefined}
        />
      )}
    </>
  );
}
