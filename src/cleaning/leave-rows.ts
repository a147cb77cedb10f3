import type { LeftOutRow } from "../records/issue.ts";
import type { RawTable } from "../records/sheet.ts";

/** Rows of sheets left out that are listed, all sheets together. */
const mostListed = 1000;

/** A line of text at the head of others, which is no row of names. */
const isText = ({ header }: RawTable): boolean => header.some((name) => name.trim().split(/\s+/).length > 2);

const leftFor = ({ file }: RawTable, reason: string) => ({ file, rule: "no-harvest-sheet", reason });

/** Lists the rows of a table that is left out, since nothing says that they are trays. @param leftOut takes them */
export function leaveRows(table: RawTable, reason: string, leftOut: LeftOutRow[]): void {
  const left = leftFor(table, reason);
  table.forEachRow((cells, row) => {
    if (leftOut.length < mostListed) leftOut.push({ ...left, row, cells });
  });
}

/** Lists all of a table beside those of trays, the first line too where it is text. @param leftOut takes the rows */
export function leaveList(table: RawTable, reason: string, leftOut: LeftOutRow[]): void {
  if (isText(table)) leftOut.push({ ...leftFor(table, reason), row: table.headerRow, cells: table.header });
  leaveRows(table, reason, leftOut);
}
