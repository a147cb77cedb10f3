import { expect, test } from "vitest";
import { harvestOf } from "../../cleaning/book-of.ts";

test("a second table whose header has come apart is refused, and each of its rows is set aside for it", async () => {
  const head = "Tray,LC ml,Fresh g,Dry g";
  const rows = (name: string): string =>
    [1, 2, 3, 4].map((at) => `${name}${at},${at % 2 === 0 ? 5 : 10},20${at},2${at}`).join("\n");
  const book = await harvestOf(`${head}\n${rows("A")}\nTray,LC, strange,Fresh g,Dry g\n${rows("B")}\n`);
  expect(book.trays.map(({ trayId }) => trayId)).toEqual(["A1", "A2", "A3", "A4"]);
  expect(book.issues.filter(({ severity }) => severity === "error").map(({ rule }) => rule)).toEqual([
    "all-rows-short",
  ]);
  expect(book.account).toMatchObject({ trays: 4, lost: 0 });
  expect(book.leftOut.filter(({ rule }) => rule === "all-rows-short").map(({ row }) => row)).toEqual([6, 7, 8, 9, 10]);
});
