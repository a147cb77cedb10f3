import { expect, test } from "vitest";
import { harvestWords } from "../../../src/cleaning/columns/harvest-words.ts";
import { openSheet } from "../../../src/csv/open-sheet.ts";
import { openShape } from "../../../src/csv/shape/sheet-words.ts";
import { sourceOf } from "../source-of.ts";

const names = ["Tray", "LC ml", "Fresh g"];

/** Tables of two trays side by side, apart by a blank column or by their names alone. */
function sideBySide(tables: number, apart: string): string {
  const line = (of: (table: number) => string[]): string =>
    Array.from({ length: tables }, (_, table) => of(table).join(",")).join(apart);
  const row = (k: number): string => line((table) => [`T${table}-${k}`, String(5 * k), String(200 + table)]);
  return [line(() => names), row(1), row(2)].join("\n");
}

/** Opens a sheet and counts how often its file is gone through. */
async function opened(text: string): Promise<{ passes: number; trays: number }> {
  const source = sourceOf(text);
  let passes = 0;
  const counted = {
    ...source,
    chunks: () => {
      passes++;
      return source.chunks();
    },
  };
  const { tables } = await openSheet(counted, { words: harvestWords(), shapeOf: () => openShape });
  let trays = 0;
  for (const { forEachRow } of tables) forEachRow(() => void trays++);
  return { passes, trays };
}

// common practice, no source: the time a sheet takes grows with its size, not with its size times its tables
test.each([
  ["a blank column", ",,"],
  ["their names", ","],
])("a sheet of many tables, apart by %s, is gone through as often as one of few", async (_, apart) => {
  const [few, many] = [await opened(sideBySide(5, apart)), await opened(sideBySide(60, apart))];
  expect([few.trays, many.trays]).toEqual([10, 120]);
  expect(many.passes).toBe(few.passes);
});
