import type { RawTable } from "../../records/sheet.ts";
import { type CellClass, cellClass } from "./cell-class.ts";
import type { ColumnProfile } from "./match-columns.ts";

const textsCounted = 20_000;

/**
 * Counts what the different texts in some columns look like, in one pass over the table. A text counts once however often
 * it stands there, so that repeating a row (one for each flush of a tray) never turns the verdict.
 */
export function profileColumns(table: RawTable, indexes: ReadonlyArray<number>): ReadonlyMap<number, ColumnProfile> {
  const columns = indexes.map((index) => ({
    index,
    seen: new Set<string>(),
    count: {} as Partial<Record<CellClass, number>>,
    filled: 0,
  }));
  table.forEachRow((cells) => {
    for (const column of columns) {
      const { index, seen, count } = column;
      const text = (cells[index] ?? "").trim();
      if (text !== "" && seen.size < textsCounted) column.filled++;
      if (seen.has(text)) continue;
      // a column with more different texts than this has its verdict already
      if (seen.size < textsCounted) {
        seen.add(text);
        const look = cellClass(text);
        count[look] = (count[look] ?? 0) + 1;
      }
    }
  });
  return new Map(
    columns.map(({ index, seen, count, filled }) => [
      index,
      { counts: count, filled, distinct: seen.size - (seen.has("") ? 1 : 0) },
    ]),
  );
}
