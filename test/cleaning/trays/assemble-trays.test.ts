import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/records/tray.ts";
import { allFacts, bookOf, harvestOf, rulesOf, trayOf } from "../book-of.ts";

const header = "tray_id,inoculum_ml,inoculated_on,flush,harvested_on,outcome,fresh_g,dry_g,note\n";

describe("rows put together to trays", () => {
  test("flush rows add up to a tray", async () => {
    // grey oyster flush means and their sum: Advances in Agriculture 2019:6853627, table 3 (33.3 + 22.0 + 8.0 + 5.0 = 68.3)
    const book = await harvestOf(
      `${header}A,10,2026-01-01,1,2026-02-20,good,33.3,3,\nA,,,2,2026-03-01,good,22.0,2,\nA,,,4,2026-03-20,good,5.0,0.5,\nA,,,3,2026-03-10,good,8.0,1,\n`,
    );
    expect(book.trays).toHaveLength(1);
    const tray = trayOf(book, "A");
    expect(tray).toMatchObject({
      freshGrams: 68.3,
      dryGrams: 6.5,
      harvestedOn: "2026-02-20",
      inoculumMillilitres: 10,
      outcome: "good",
    });
    expect(tray.flushes?.map(({ number, freshGrams }) => [number, freshGrams])).toEqual([
      [1, 33.3],
      [2, 22],
      [3, 8],
      [4, 5],
    ]);
    expect(sourcesOf(tray).map(({ row }) => row)).toEqual([2, 3, 4, 5]);
    expect(tray.flags).toEqual([]);
  });

  test("flushes in columns side by side are the same as flushes in rows", async () => {
    const wide = await harvestOf("tray_id,outcome,Flush 1 (g),Flush 2 (g),Dry wt (g)\nA,good,200,50,25\n");
    expect(trayOf(wide, "A")).toMatchObject({ freshGrams: 250, dryGrams: 25 });
    const tall = await harvestOf("tray_id,outcome,flush,fresh_g,dry_g\nA,good,1,200,\nA,good,2,50,\nA,good,,,25\n");
    expect(allFacts(tall)).toEqual(allFacts(wide));
  });

  test("a flush without a weight leaves the total open below", async () => {
    const book = await harvestOf(`${header}A,10,,1,,good,200,20,\nA,10,,2,2026-03-01,good,50,,\n`);
    const tray = trayOf(book, "A");
    expect(tray.freshGrams).toBe(250);
    expect(tray.dryGrams).toBeUndefined();
    expect(tray.bounds.dry_g).toEqual({ low: 20 });
    expect(tray.flags).toContain("flush-without-weight");
  });

  test("a later flush that was lost leaves what was picked", async () => {
    const book = await harvestOf(`${header}A,10,,1,,good,200,20,\nA,10,,2,,contam,,,\n`);
    expect(trayOf(book, "A")).toMatchObject({ outcome: "good", freshGrams: 200, flags: [] });
    expect(rulesOf(book)).toContain("later-flush-lost");
  });

  test("the same facts in two files are one tray; facts that complete each other are joined", async () => {
    const row = "A,10,2026-01-01,,2026-02-20,good,200,20,";
    const same = await bookOf({ "harvests/a.csv": `${header}${row}\n`, "harvests/b.csv": `${header}${row}\n` });
    expect(same.trays).toHaveLength(1);
    expect(trayOf(same, "A")).toMatchObject({ freshGrams: 200, flags: [] });
    expect(sourcesOf(trayOf(same, "A"))).toHaveLength(2);
    expect(rulesOf(same)).toContain("repeated-row");
    const joined = await bookOf({
      "harvests/a.csv": "tray_id,inoculum_ml,outcome\nA,10,growing\n",
      "harvests/b.csv": "tray_id,fresh_g,outcome\nA,200,good\n",
    });
    expect(trayOf(joined, "A")).toMatchObject({ inoculumMillilitres: 10, freshGrams: 200, outcome: "good", flags: [] });
  });

  test("different facts are a conflict: left out, both in the log", async () => {
    const book = await bookOf({
      "harvests/a.csv": `${header}A,10,2026-01-01,,,good,200,20,\n`,
      "harvests/b.csv": `${header}A,10,2026-01-01,,,good,210,20,\n`,
    });
    const tray = trayOf(book, "A");
    expect(tray.freshGrams).toBeUndefined();
    expect(tray).toMatchObject({ dryGrams: 20, inoculatedOn: "2026-01-01", outcome: "good", flags: ["conflict"] });
    const shown = book.issues.filter(({ rule }) => rule === "conflict");
    expect(shown.map(({ file, column, raw, result }) => [file, column, raw, result])).toEqual([
      ["harvests/a.csv", "fresh_g", "200", ""],
      ["harvests/b.csv", "fresh_g", "210", ""],
    ]);
  });

  test("a name used twice in one file is reported the same way", async () => {
    const book = await harvestOf(`${header}A,10,,,,good,200,20,\nA,10,,,,good,150,20,\n`);
    expect(book.trays).toHaveLength(1);
    expect(trayOf(book, "A").freshGrams).toBeUndefined();
    expect(book.issues.find(({ rule }) => rule === "conflict")?.action).toContain(
      "Number the pickings in a flush column",
    );
  });

  test("good in one row and contaminated in another is asked about", async () => {
    const book = await harvestOf(`${header}A,10,,,,good,,,\nA,10,,,,contaminated,,,\n`);
    expect(trayOf(book, "A")).toMatchObject({ outcome: "asked", flags: ["conflict"] });
  });

  test("rows without a name are trays of their own, called by row and file", async () => {
    const book = await harvestOf(`${header},10,,,,good,200,20,\n,15,,,,good,210,20,\n`);
    expect(book.trays.map(({ trayId }) => trayId)).toEqual(["row 2 of harvests/one.csv", "row 3 of harvests/one.csv"]);
    expect(rulesOf(book)).toContain("made-up-name");
  });

  test("names that differ only in case, spaces or hyphens are one level", async () => {
    const book = await harvestOf(
      "tray_id,supplement_grade,Lid colour,fresh_g\nA,Fine,red,1\nB,fine,Red,2\nC,fine,red,3\n",
    );
    expect(book.trays.map(({ supplementGrade }) => supplementGrade)).toEqual(["fine", "fine", "fine"]);
    expect(book.trays.map(({ factors }) => factors["Lid colour"])).toEqual(["red", "red", "red"]);
    expect(book.issues.filter(({ rule }) => rule === "spelling-unified")).toHaveLength(2);
  });
});

describe("outcomes", () => {
  test.each([
    ["A,10,,,,,200,20,", "good"],
    ["A,10,,,2026-03-01,,,,", "good"],
    ["A,10,,,,,0,,", "failed"],
    ["A,10,2026-01-01,,,,,,", "growing"],
    ["A,10,,,not yet,,,,", "growing"],
    ["A,10,,,,ok,contam,,", "asked"],
    ["A,10,,,,tossed,,,", "discarded"],
    ["A,10,,,,no pins,,,", "failed"],
    ["A,10,,,,no contamination,200,,", "good"],
    ["A,10,,,,still growing,,,", "growing"],
    ["A,10,,,,contaminted,,,", "contaminated"],
    ["A,10,,,,purple,200,,", "asked"],
  ])("%s is %s", async (row, outcome) => {
    const book = await harvestOf(`${header}${row}\n`);
    expect(trayOf(book, "A").outcome).toBe(outcome);
    expect(book.issues.some(({ tray }) => tray === "A")).toBe(true);
  });

  test("a header that asks a question takes yes for its answer", async () => {
    const book = await harvestOf("tray_id,Contaminated?,fresh_g\nA,yes,\nB,no,200\nC,n,\nD,Y,\n");
    expect(book.trays.map(({ outcome }) => outcome)).toEqual(["contaminated", "good", "growing", "contaminated"]);
  });

  test("a lost tray stays in the count with no saleable weight", async () => {
    const book = await harvestOf(`${header}A,10,,,2026-02-20,contaminated,120,0,\nB,10,,,,good,200,20,\n`);
    expect(book.trays).toHaveLength(2);
    const tray = trayOf(book, "A");
    expect([tray.freshGrams, tray.dryGrams]).toEqual([undefined, undefined]);
    expect(tray.flags).toEqual(["weight-of-lost-tray"]);
    expect(
      book.issues.filter(({ rule }) => rule === "weight-of-lost-tray").map(({ raw, severity }) => [raw, severity]),
    ).toEqual([
      ["120", "warning"],
      ["0", "change"],
    ]);
  });

  test("a pool keeps its weight and the number of its trays", async () => {
    const book = await harvestOf("tray_id,fresh_g,trays_in_pool\nA,2 trays 310g,\nB,400 g,3\nC,2 trays 310g,3\n");
    expect(book.trays.map(({ freshGrams, traysInPool }) => [freshGrams, traysInPool])).toEqual([
      [310, 2],
      [400, 3],
      [310, 2],
    ]);
    expect(trayOf(book, "C").flags).toContain("pool-contradiction");
  });
});
