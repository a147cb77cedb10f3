import type { RawTable } from "../../records/sheet.ts";
import { type CellClass, cellClass } from "./cell-class.ts";
import type { ColumnProfile } from "./match-columns.ts";

const memoLimit = 20_000;

/** Counts what the cells of some columns look like, in one pass over the table. */
export function profileColumns(table: RawTable, indexes: ReadonlyArray<number>): ReadonlyMap<number, ColumnProfile> {
  const counts = new Map(indexes.map((index) => [index, {} as Partial<Record<CellClass, number>>]));
  const memo = new Map<string, CellClass>();
  table.forEachRow((cells) => {
    for (const [index, count] of counts) {
      const text = cells[index] ?? "";
      let seen = memo.get(text);
      if (seen === undefined) {
        seen = cellClass(text);
        if (memo.size < memoLimit) memo.set(text, seen);
      }
      count[seen] = (count[seen] ?? 0) + 1;
    }
  });
  return counts;
}
