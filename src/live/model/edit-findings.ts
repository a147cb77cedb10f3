import type { Issue } from "../../records/issue.ts";
import { type CellFinding, findingOf } from "../sheet/cell-finding.ts";
import type { EditedSheet } from "./edited-sheet.ts";
import { cellKey } from "./live-sheet.ts";

const isBad = ({ severity }: Issue): boolean => severity === "error" || severity === "warning";

/** What is said of the changed cells of a book, by `cellKey`. */
export interface EditFindings {
  findings: Map<string, CellFinding>;
  /** those that were read well, as they would be written */
  written: Map<string, string>;
}

/**
 * Notes what the cleaning says of each changed cell: the worst first. What is wrong with a row at a cell nobody changed is
 * noted at the first changed one.
 * @param issues rows are places in the sheet, from 1
 * @param rows rows that were read well, as they would be written
 */
export function noteFindings(
  { findings, written }: EditFindings,
  { sheet, changed }: EditedSheet,
  issues: ReadonlyArray<Issue>,
  rows?: ReadonlyMap<number, string[]>,
): void {
  const { name, columns } = sheet;
  for (const { row, typed, cells } of changed) {
    // "3 jars" under what a use is for moves the amount too: such a cell stays as typed, or its row would say something else
    const texts = rows?.get(row);
    const isOwn = texts?.every((text, column) => typed.has(column) || text === (cells[column] ?? ""));
    const about = issues.filter((issue) => issue.row === row);
    for (const column of typed.keys()) {
      const key = cellKey(name, row - 1, column);
      const own = about.filter(
        (issue) => issue.column === columns[column]!.key || (name === "settings" && column === 1),
      );
      const worst =
        own.find(({ severity }) => severity === "error") ??
        own.find(({ severity }) => severity === "warning") ??
        own[0];
      if (worst !== undefined) findings.set(key, findingOf(worst));
      const text = texts?.[column];
      if (isOwn && (worst === undefined || !isBad(worst)) && text !== undefined) written.set(key, text);
    }
    const [first] = typed.keys();
    const elsewhere = about.find(
      (issue) => isBad(issue) && ![...typed.keys()].some((index) => columns[index]!.key === issue.column),
    );
    if (elsewhere !== undefined && first !== undefined) {
      const key = cellKey(name, row - 1, first);
      if (!findings.has(key)) findings.set(key, findingOf(elsewhere));
    }
  }
}
