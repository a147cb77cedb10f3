import { expect, test } from "vitest";
import { openSheet } from "../../src/csv/open-sheet.ts";
import reference from "../reference/csv-python.json" with { type: "json" };
import { sourceOf } from "./source-of.ts";

test.each(reference.cases)("$name, written by Python's csv module, reads cell for cell", async ({ text, rows }) => {
  for (const chunkSize of [5, 1 << 16]) {
    const { tables, issues, leftOut } = await openSheet(sourceOf(text, "sheet.csv", chunkSize));
    expect(issues).toEqual([]);
    expect(leftOut).toEqual([]);
    expect(tables[0]!.header).toEqual(rows[0]);
    const found: string[][] = [];
    tables[0]!.forEachRow((cells, row) => {
      found.push(cells);
      // a line break inside quotes does not advance the row number
      expect(row).toBe(found.length + 1);
    });
    expect(found).toEqual(rows.slice(1));
  }
});
