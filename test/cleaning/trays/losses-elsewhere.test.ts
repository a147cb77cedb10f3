import { describe, expect, test } from "vitest";
import { bookOf, harvestOf, inShort, rulesOf } from "../book-of.ts";

/** A loss typed in a column that is none of outcomes or notes: what a careful reader takes it for. Common practice, no source. */
const sheets: ReadonlyArray<readonly [what: string, text: string, trays: string[]]> = [
  [
    "in a column of brands",
    "Tray,LC ml,Fresh g,Brand\nT1,10,205,Acme\nT2,10,198,Bolt\nT3,15,231,Acme\nT4,15,,contam - tossed\nT5,15,,\n",
    ["T4: asked", "T5: growing"],
  ],
  [
    "in Dutch, where most words of the column are outcomes",
    "Bak,LC ml,Vers g,Merk\nT1,10,205,\nT2,10,198,\nT4,15,,schimmel\nT5,15,,weggegooid\n",
    ["T4: asked", "T5: asked"],
  ],
  [
    "beside a column of outcomes that is blank there",
    "Tray,LC ml,Fresh g,Bench,Outcome\nT1,10,205,left,good\nT2,10,198,right,good\nT4,15,,trich,\nT5,15,,left,\n",
    ["T4: asked", "T5: growing"],
  ],
  [
    "under a canonical name",
    "tray_id,inoculum_ml,fresh_g,strain\nT1,10,205,Blue\nT2,10,198,Blue\nT4,15,,thrown out\nT5,15,,Blue\n",
    ["T4: asked", "T5: growing"],
  ],
  [
    "with a day of harvest, which a discarded tray may have",
    "Tray,LC ml,Harvested,Fresh g,Brand\nT1,10,2026-03-02,205,Acme\nT2,15,2026-03-02,231,Bolt\nT4,15,2026-03-04,,moldy\n",
    ["T4: asked"],
  ],
  [
    "by a word that may be a name, which no weighed tray bears",
    "Tray,LC ml,Fresh g,Bench code\nT1,10,205,A\nT2,10,198,B\nT4,15,,lost\n",
    ["T4: asked"],
  ],
  [
    "not by a name of a thing put in that weighed trays bear too",
    "Tray,LC ml,Fresh g,Base,Rack\nT1,10,205,compost,bin 1\nT2,10,198,straw,bin 2\nT4,15,,compost,bin 3\nT5,15,,straw,bin 1\n",
    ["T4: growing", "T5: growing"],
  ],
  [
    "not in a weight of substrate where the name of one stands",
    "Tray,LC ml,Fresh g,Substrate\nT1,10,205,compost\nT2,10,198,straw\nT4,15,,compost\n",
    ["T1: good 205/", "T4: growing"],
  ],
];

test.each(sheets.map(([what, text, trays]) => ({ what, text, trays })))("a loss $what", async ({ text, trays }) => {
  expect(inShort(await harvestOf(text))).toEqual(expect.arrayContaining(trays));
});

test("a column that the grower has pinned is taken at its word", async () => {
  const text = "Tray,LC ml,Fresh g,Brand\nT1,10,205,Tossed Oats\nT2,10,198,Acme\nT4,15,,Tossed Oats\n";
  const pinned = await bookOf({ "a.csv": text, "columns.csv": "file,header,field\na.csv,Brand,supplement_grade\n" });
  expect(inShort(pinned)).toContain("T4: growing");
  expect(inShort(await bookOf({ "a.csv": text }))).toContain("T4: asked");
});

describe("a row that has only the number of a flush", () => {
  const says = async (text: string) => {
    const { issues } = await harvestOf(text);
    return issues.filter(({ rule }) => rule === "flush-not-picked").map(({ row, tray }) => `${row} ${tray}`);
  };
  test("is said to add nothing", async () => {
    const text =
      "Tray,Flush,LC ml,Fresh g\nT1,1,10,205\nT1,2,10,\nT2,1,15,\nT2,2,15,231\nT3,2,15,\nT4,1,10,\nT5,1,10,200\nT5,2,10,abc\n";
    expect(await says(text)).toEqual(["3 T1", "4 T2", "6 T3"]);
  });
  test("and nothing is said of one with an outcome", async () => {
    expect(await says("Tray,Flush,LC ml,Fresh g,Outcome\nT1,1,10,205,good\nT1,2,10,,contam\n")).toEqual([]);
  });
});

describe("a weight that cannot be is asked about in its own cell", () => {
  const place = async (text: string, rule: string) => {
    const { issues } = await harvestOf(text);
    return issues
      .filter((issue) => issue.rule === rule)
      .map(({ row, column, action }) => [row, column, action] as const);
  };
  test("of flushes side by side in the column of the flush", async () => {
    const text = "Tray,LC ml,Flush1_g,Flush2_g\nT1,10,205,60\nT2,10,198,7000\nT3,15,210,50\n";
    const [[row, column, action]] = (await place(text, "weight-out-of-reach")) as [readonly [number, string, string]];
    expect([row, column]).toEqual([3, "Flush2_g"]);
    expect(action).toContain("harvests/one.csv,Flush2_g,fresh_g");
  });
  test("of flushes one below the other in the row of the flush", async () => {
    const text = "Tray,Flush,LC ml,Fresh g,Dry g\nT1,1,10,205,20\nT1,2,10,60,70\nT2,1,10,210,21\nT2,2,10,7000,70\n";
    expect((await place(text, "weight-out-of-reach")).map(([row]) => row)).toEqual([5]);
    expect((await place(text, "dry-above-fresh")).map(([row]) => row)).toEqual([3]);
  });
  test("a slip among many trays likewise", async () => {
    const others = [3, 4, 5, 6, 7, 8].map((tray) => `T${tray},10,20${tray},50`).join("\n");
    const text = `Tray,LC ml,Flush1_g,Flush2_g\nT1,10,205,60\nT2,10,198,3000\n${others}\n`;
    expect((await place(text, "weight-slip")).map(([row, column]) => [row, column])).toEqual([[3, "Flush2_g"]]);
  });
});

describe("a backslash before a separator", () => {
  test.each([
    ["in a name", "Tray\\,no,LC ml,Fresh g\nT1,10,205\nT2,15,231\n", ["T1: good 205/ @10", "T2: good 231/ @15"]],
    [
      "in every row",
      "Tray\\,no,LC ml,Fresh g\nA\\,1,10,205\nA\\,2,15,231\n",
      ["A,1: good 205/ @10", "A,2: good 231/ @15"],
    ],
    [
      "of semicolons",
      "Tray;LC ml;Shelf\\;rack;Fresh g\nT1;10;3;205\nT2;15;4;231\n",
      ["T1: good 205/ @10", "T2: good 231/ @15"],
    ],
    [
      "in a note",
      "Tray,LC ml,Fresh g,Notes\nT1,10,205,good\\, dense\nT2,15,231,x\n",
      ["T1: good 205/ @10", "T2: good 231/ @15"],
    ],
  ])("%s makes it part of the cell", async (_, text, trays) => {
    const book = await harvestOf(text);
    expect(inShort(book, true)).toEqual(trays);
    expect(rulesOf(book)).toContain("escaped-separator");
  });
  test("at the end of a path is a backslash", async () => {
    const book = await harvestOf("Tray,LC ml,Photos,Fresh g\nT1,10,C:\\a\\,205\nT2,15,none,231\nT3,15,C:\\,240\n");
    expect(inShort(book)).toEqual(["T1: good 205/", "T2: good 231/", "T3: good 240/"]);
    expect(book.trays[0]!.factors.Photos).toBe("C:\\a\\");
  });
});
