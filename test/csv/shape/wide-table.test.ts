import { describe, expect, test } from "vitest";
import { harvestOf } from "../../cleaning/book-of.ts";
import { tablesOf } from "./tables-of.ts";

// Wickham (2014), Tidy Data, Journal of Statistical Software 59(10): values that stand as names of columns.
describe("a tray in each cell", () => {
  const read: [kind: string, sheet: string, gives: string[]][] = [
    [
      "doses over columns",
      "Tray,3 mL,6 mL\n1,205,231\n2,198,226\n",
      ["tray|Dose (mL)|Weight", "1 (3 mL)|3 mL|205", "1 (6 mL)|6 mL|231", "2 (3 mL)|3 mL|198", "2 (6 mL)|6 mL|226"],
    ],
    [
      "a title that says what was weighed, cooks down the side, a row of means",
      "Dry weight (g),,\nCook,5 ml,10 ml\nA,20.5,23.1\nB,19.8,contam\nMean,20.2,23.1\n",
      [
        "tray|Cook|Dose (mL)|Dry weight (g)",
        "A (5 ml)|A|5 ml|20.5",
        "A (10 ml)|A|10 ml|23.1",
        "B (5 ml)|B|5 ml|19.8",
        "B (10 ml)|B|10 ml|contam",
      ],
    ],
    [
      "repeats beside doses",
      "LC ml,rep 1,rep 2\n5,205,198\n10,231,226\n",
      ["tray|LC ml|Weight", "5 (rep 1)|5|205", "5 (rep 2)|5|198", "10 (rep 1)|10|231", "10 (rep 2)|10|226"],
    ],
    [
      "cooks over columns, doses down the side",
      "Dose ml,Batch A,Batch B\n5,205,198\n10,231,226\n",
      [
        "tray|Dose ml|Batch|Weight",
        "5 (Batch A)|5|A|205",
        "5 (Batch B)|5|B|198",
        "10 (Batch A)|10|A|231",
        "10 (Batch B)|10|B|226",
      ],
    ],
    [
      "only doses over weights, one name of a row twice",
      "Batch,5 ml,10 ml\nA,205 g,231 g\nA,198 g,226 g\n",
      [
        "tray|Batch|Dose (mL)|Weight",
        "row 2 (5 ml)|A|5 ml|205 g",
        "row 2 (10 ml)|A|10 ml|231 g",
        "row 3 (5 ml)|A|5 ml|198 g",
        "row 3 (10 ml)|A|10 ml|226 g",
      ],
    ],
  ];

  test.each(read)("%s: read, said, and undone by one setting", async (_, sheet, gives) => {
    const { texts, issues } = await tablesOf(sheet);
    expect(texts).toEqual([gives]);
    expect(issues).toContainEqual(
      expect.objectContaining({ rule: "trays-as-cells", severity: "note", setting: "layout" }),
    );
    const undone = await tablesOf(sheet, { layout: "rows" });
    expect(undone.rules).not.toContain("trays-as-cells: note");
  });

  test.each([
    ["rows of flushes", "Flush,5 ml,10 ml\n1,205,231\n2,60,70\n"],
    ["rows of days", "Date,5 ml,10 ml\n3/14/2026,205,231\n3/20/2026,60,70\n"],
    ["temperatures over columns", "Tray,20 C,24 C\n1,205,231\n2,198,226\n"],
  ])("%s are asked about, and read as said", async (_, sheet) => {
    const asked = await tablesOf(sheet);
    expect(asked.tables).toEqual([]);
    expect(asked.issues).toMatchObject([{ rule: "values-as-names", severity: "error", setting: "layout" }]);
    expect((await tablesOf(sheet, { layout: "cells" })).texts[0]).toHaveLength(5);
  });

  test("weights beside amounts are no such table, nor are flushes, nor a sheet without names", async () => {
    for (const sheet of [
      "Tray,5 ml,10 ml,Fresh g\nT1,x,,205\nT2,,x,231\n",
      "Dose ml,Flush 1,Flush 2\n5,205,60\n10,231,70\n",
      "1,10 ml,200 ml,205 g\n2,10 ml,200 ml,198 g\n3,15 ml,200 ml,240 g\n",
    ])
      expect((await tablesOf(sheet)).rules).not.toContain("trays-as-cells: note");
  });

  test("a blank cell is pointed out, and no tray is made of it", async () => {
    const book = await harvestOf("Tray,3 mL,6 mL\n1,205,231\n2,198,\n3,210,mold\n4,,\n");
    expect(book.trays).toHaveLength(5);
    expect(book.account).toMatchObject({ filled: 5, headers: 1, trays: 3, aside: 1, lost: 0 });
    expect(book.issues).toContainEqual(
      expect.objectContaining({ rule: "blank-tray-cells", severity: "warning", row: 3 }),
    );
    expect(book.trays.find(({ trayId }) => trayId === "3 (6 mL)")).toMatchObject({
      inoculumMillilitres: 6,
      outcome: "contaminated",
    });
  });
});

test("pounds beside ounces and units beside numbers stay apart where the settings say so", async () => {
  const pounds = "Tray,LC ml,Fresh lb,Fresh oz\nT1,10,0,7.5\nT2,15,1,2\n";
  expect((await tablesOf(pounds)).texts[0]![0]).toBe("Tray|LC ml|Fresh");
  expect((await tablesOf(pounds, { joinedCells: "ignore" })).texts[0]![0]).toBe("Tray|LC ml|Fresh lb|Fresh oz");
});
