import { numberIn } from "./shown-cell.ts";

/** How a grid's rows are laid out for looking at; the sheet itself keeps its order. */
export interface RowView {
  sort: { column: number; isDown: boolean } | undefined;
  /** what a column's cells must hold, by column */
  filters: ReadonlyMap<number, string>;
}

/** Whether a cell passes a filter: `> 5`, `< 5`, `5 to 10`, `empty`, or a text that stands in it. */
export function passes(cell: string, filter: string): boolean {
  const wanted = filter.trim().toLowerCase();
  if (wanted === "") return true;
  if (wanted === "empty") return cell === "";
  const limit = /^([<>])\s*(-?[\d.]+)$/.exec(wanted);
  const between = /^(-?[\d.]+)\s+to\s+(-?[\d.]+)$/.exec(wanted);
  const number = numberIn(cell);
  if (limit !== null)
    return number !== undefined && (limit[1] === ">" ? number > Number(limit[2]) : number < Number(limit[2]));
  if (between !== null) return number !== undefined && number >= Number(between[1]) && number <= Number(between[2]);
  return cell.toLowerCase().includes(wanted);
}

/**
 * Rows that pass every filter, in the order asked for. Empty cells come last; equal ones keep the sheet's order.
 * @param count rows of the sheet's own; added ones are not among them
 */
export function rowsInView(
  count: number,
  textAt: (row: number, column: number) => string,
  { sort, filters }: RowView,
  isNumber: (column: number) => boolean,
): number[] {
  const rows = Array.from({ length: count }, (_, row) => row).filter((row) =>
    [...filters].every(([column, filter]) => passes(textAt(row, column), filter)),
  );
  if (sort === undefined) return rows;
  const { column, isDown } = sort;
  const numeric = isNumber(column);
  const sign = isDown ? -1 : 1;
  const keys = new Map(rows.map((row) => [row, textAt(row, column)]));
  return rows.sort((a, b) => {
    const [one, other] = [keys.get(a)!, keys.get(b)!];
    const [first, second] = numeric ? [numberIn(one), numberIn(other)] : [one || undefined, other || undefined];
    if (first === undefined || second === undefined)
      return Number(first === undefined) - Number(second === undefined) || a - b;
    if (typeof first === "number" && typeof second === "number") return sign * (first - second) || a - b;
    return sign * String(first).localeCompare(String(second), "en", { numeric: true }) || a - b;
  });
}
