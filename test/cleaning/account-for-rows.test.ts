import { expect, test } from "vitest";
import { accountForRows } from "../../src/cleaning/account-for-rows.ts";
import { openBookSheets } from "../../src/cleaning/open-book-sheets.ts";
import { readTrays } from "../../src/cleaning/trays/read-trays.ts";
import { checkLines } from "../../src/cli/check-lines.ts";
import type { RawTable } from "../../src/records/sheet.ts";
import { bookOf, sheet } from "./book-of.ts";

const plain = "Tray,Dose mL,Fresh g,Outcome\nA1,5,200,good\nA2,10,210,good\nA3,5,,contam\nA4,10,190,good\n";

// Layouts of docs/reading.md; what a row is follows from how each was typed.
test.each([
  ["plain", plain, [5, 1, 4, 0]],
  ["blank rows, a total and a source under it", `${plain}\n,,\nTotal,,600,\n\nSource: my book\n`, [7, 1, 4, 2]],
  ["a title above", `Spring trays\n\n${plain}`, [6, 1, 4, 1]],
  ["the header again", `${plain}Tray,Dose mL,Fresh g,Outcome\nA5,5,201,good\n`, [7, 1, 5, 1]],
  ["flushes", "Tray,Dose mL,Flush,Fresh g\nA1,5,1,200\nA1,5,2,90\nA2,10,1,210\n", [4, 1, 3, 0]],
  [
    "one thing a row",
    "Tray,What,Value\nA1,Dose mL,5\nA1,Fresh g,200\nA2,Dose mL,10\nA2,Fresh g,210\nA3,Dose mL,5\nA3,Fresh g,190\n",
    [7, 1, 6, 0],
  ],
  [
    "side by side",
    "Tray,Dose mL,Fresh g,,Tray,Dose mL,Fresh g\nA1,5,200,,B1,5,200\nA2,10,210,,B2,10,220\nA3,5,205,,,,\n",
    [4, 1, 3, 0],
  ],
  ["two tables", `${plain}\nTray,Strain,Dry g\nB1,Blue,20\nB2,Blue,21\nB3,Pink,22\n`, [9, 2, 7, 0]],
])("the rows of a sheet add up: %s", async (_, text, [filled, headers, trays, aside]) => {
  const book = await bookOf({ "trays.csv": text });
  expect(book.account).toEqual({ filled, headers, trays, aside, lost: 0 });
  expect(checkLines(book).at(-1)).toMatch(new RegExp(`^${filled} rows = ${headers} of headers \\+ ${trays} of trays`));
});

test("what is set aside is counted by its reasons, and a line of costs left out is none of them", async () => {
  const book = await bookOf({
    "trays.csv": `${plain}Total,,600,\n`,
    "costs.csv": "item,pack_price,pack_size,pack_unit,amount,unit,per\nrye,?,25,kg,350,g,tray\n",
  });
  expect(book.leftOut.length).toBeGreaterThan(1);
  expect(checkLines(book).at(-1)).toBe("6 rows = 1 of headers + 4 of trays + 1 set aside (1 totals row)");
});

test("a row dropped on purpose is an error and stands in the last line of check", async () => {
  const { tables, settings, leftOut } = await openBookSheets([sheet("trays.csv", plain)]);
  const [whole] = tables.harvest;
  const dropping: RawTable = {
    ...whole!,
    forEachRow: (visit) => whole!.forEachRow((cells, row) => (row === 3 ? undefined : visit(cells, row))),
  };
  const { trays } = readTrays([dropping], () => settings, [], []);
  expect(trays).toHaveLength(3);
  const { account, issues } = accountForRows([dropping], trays, leftOut);
  expect(account).toEqual({ filled: 5, headers: 1, trays: 3, aside: 0, lost: 1 });
  expect(issues).toMatchObject([{ file: "trays.csv", rule: "rows-lost", severity: "error", raw: "1" }]);
  const book = await bookOf({ "trays.csv": plain });
  expect(checkLines({ ...book, account }).at(-1)).toBe("5 rows = 1 of headers + 3 of trays + 0 set aside + 1 LOST");
});
