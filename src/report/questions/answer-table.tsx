import type { Table } from "../../analysis.ts";
import { asHead, columnFormat, withUnit } from "../column-format.ts";
import type { NumberSettings } from "../format-quantity.ts";
import { SheetTable } from "../sheets/sheet-table.tsx";

/** rows of one table of an answer that the page shows */
const mostRows = 500;

/** A column whose cells hold at least one number and whose unit, if any, is a unit. */
const numbersOf = (table: Table, index: number): number[] =>
  table.rows.map((row) => row[index]).filter((cell) => typeof cell === "number");

/** The numbers of a column; those of a value and the ends of its range together, as they have the same decimals. */
function numbersOfRange(table: Table, index: number): number[] {
  const { columns } = table;
  const unitAt = (at: number) => columns[at]?.unit;
  const isEnd = (at: number) =>
    /^(from|to)$/.test(columns[at]?.label ?? "") && unitAt(at) !== undefined && unitAt(at) === unitAt(at - 1);
  let [first, last] = [index, index];
  while (isEnd(first)) first--;
  while (isEnd(last + 1)) last++;
  return columns.slice(first, last + 1).flatMap((_, place) => numbersOf(table, first + place));
}

/** The columns and cells of an answer's table as they are shown. */
function shownTable(table: Table, settings: NumberSettings) {
  const formats = table.columns.map((column, index) => columnFormat(column, numbersOfRange(table, index), settings));
  const columns = table.columns.map(({ label, unit }, index) => {
    const head = formats[index]!.unit;
    const numeric = unit !== undefined || numbersOf(table, index).length > 0;
    return {
      label: label === "" ? "–" : asHead(label),
      numeric,
      wide: !numeric,
      ...(withUnit(label, head) === label ? {} : { unit: head }),
    };
  });
  const rows = table.rows.map((row) =>
    row.map((cell, index) => (typeof cell === "number" ? formats[index]!.write(cell) : cell)),
  );
  return { columns, rows };
}

/** A table of an answer. A very long one keeps its first rows and its totals, and says so. */
export function AnswerTable({ id, table, settings }: { id: string; table: Table; settings: NumberSettings }) {
  const { columns, rows } = shownTable(table, settings);
  const totals = table.totalRows ?? 0;
  const body = rows.slice(0, rows.length - totals);
  const shown = [...body.slice(0, mostRows), ...rows.slice(rows.length - totals)];
  const cut = body.length > mostRows ? `The first ${mostRows} of ${body.length} rows are shown.` : "";
  const note = [table.note ?? "", cut].filter((part) => part !== "").join(" ");
  return <SheetTable id={id} caption={table.caption} columns={columns} rows={shown} totalRows={totals} note={note} />;
}
