import { describe, expect, test } from "vitest";
import { readRows } from "../../../src/cleaning/rows/read-rows.ts";
import type { Book } from "../../../src/records/book.ts";
import { bookOf, factsOf, harvestOf, inShort, trayOf } from "../book-of.ts";

const entries = ({ issues }: Book): string[] =>
  issues
    .filter(({ severity }) => severity !== "note")
    .map(
      ({ row, column, rule, severity, raw, result }) =>
        `${row} ${column || "*"} ${rule} ${severity} ${raw} -> ${result}`,
    );

describe("the cells of one row", () => {
  test("give the trays of a pool: by the weight's cell, else the count, else the name", async () => {
    const book = await harvestOf(
      "tray_id,inoculum_ml,fresh_g,trays_in_pool\nA,10,310 g for 2 trays,\nB,10,310 g for 2 trays,2\nC,10,310 g for 2 trays,3\nD1-D3,10,600,\nE1-E3,10,600,2\nF,10,600,1\n",
    );
    expect(book.trays.map(({ trayId, traysInPool }) => `${trayId} ${traysInPool}`)).toEqual([
      "A 2",
      "B 2",
      "C 2",
      "D1-D3 3",
      "E1-E3 2",
      "F 1",
    ]);
    expect(entries(book).filter((entry) => entry.includes("pool-contradiction"))).toEqual([
      "4 * pool-contradiction warning  -> 2",
      "6 * pool-contradiction warning  -> 2",
    ]);
  });

  test("that name more trays than one weight can be of, or one that another row names, use no weight and say so", async () => {
    const book = await harvestOf("tray_id,inoculum_ml,fresh_g\nT1-T61,10,900\nA1-A3,10,600\nA2,10,200\nB1-B3,10,630\n");
    expect(inShort(book)).toEqual(["A1-A3: asked", "A2: good 200/", "B1-B3: good 630/ x3", "T1-T61: asked"]);
    expect(entries(book).filter((entry) => entry.includes("tray_id"))).toEqual([
      "2 tray_id range-too-long error T1-T61 -> ",
      "3 tray_id several-or-one error A1-A3 -> ",
    ]);
  });

  test("say that a weight is of each tray of a pool", async () => {
    const book = await harvestOf(
      "tray_id,inoculum_ml,fresh_g each,dry_g,trays_in_pool,note\nA,10,100,20,3,\nB,10,100,,1,\nC,10,100,20,2,each\n",
    );
    expect(book.trays.map(({ freshGrams, dryGrams, note }) => [freshGrams, dryGrams, note])).toEqual([
      [300, 20, undefined],
      [100, undefined, undefined],
      [200, 40, undefined],
    ]);
    expect(entries(book).filter((entry) => entry.includes("* "))).toEqual(
      ["2 * each-tray change 100 -> 300", "4 * each-tray change each -> 200", "4 * each-tray change each -> 40"].map(
        (entry) => expect.stringMatching(new RegExp(entry.replaceAll("*", "\\*").replace("each-tray", "\\S+"))),
      ),
    );
  });

  test("without a count that can be read use no weight, and it is known that there was one", async () => {
    const book = await harvestOf(
      "tray_id,inoculum_ml,fresh_g,dry_g,trays_in_pool\nA,10,300,30,many\nB,10,310 g for 2 trays,,many\nC,10,,,many\nD,10,200,20,\n",
    );
    expect(book.trays.map(({ freshGrams, dryGrams, outcome }) => [freshGrams, dryGrams, outcome])).toEqual([
      [undefined, undefined, "asked"],
      [310, undefined, "good"],
      [undefined, undefined, "growing"],
      [200, 20, "good"],
    ]);
    const sides = await harvestOf(
      "tray_id,inoculum_ml,Flush 1 (g),Flush 2 (g),trays_in_pool\nA,10,200,50,many\nB,10,200,50,2\n",
    );
    expect(sides.trays.map(({ freshGrams, outcome }) => [freshGrams, outcome])).toEqual([
      [undefined, "asked"],
      [250, "good"],
    ]);
  });

  test("that contradict each other of the tray's end are asked about", async () => {
    const book = await harvestOf(
      "tray_id,inoculum_ml,outcome,fresh_g,harvested_on\nA,10,good,contaminated,\nB,10,failed,contaminated,\nC,10,,contaminated,\nD,10,good,205,not yet\n",
    );
    expect(book.trays.map(({ outcome }) => outcome)).toEqual(["asked", "contaminated", "contaminated", "good"]);
    expect(entries(book).filter((entry) => entry.includes("outcome-contradiction"))).toEqual([
      "2 * outcome-contradiction warning  -> asked",
    ]);
  });

  test("are flagged once for a rule, warnings and errors only", async () => {
    const rows = "A,~10,~205,~20,18\nB,10,abc,x,18 C\nC,~10,abc,20,18\n";
    const book = await harvestOf(`tray_id,inoculum_ml,fresh_g,dry_g,fruiting_c\n${rows}`);
    expect(trayOf(book, "A").flags).toEqual(["approximate"]);
    expect(trayOf(book, "C").flags).toEqual(["approximate", "not-a-number"]);
    expect(trayOf(book, "B").flags.filter((flag) => flag === "not-a-number")).toHaveLength(1);
    expect(trayOf(book, "B").flags).not.toContain("unit-in-cell");
  });

  test("that state several remarks, limits and free facts keep them all", async () => {
    const book = await harvestOf(
      "tray_id,inoculum_ml,Lid colour,Bag make,note,Remarks,fresh_g,dry_g\nA,10,red,Acme,left,right,>100,>10\nB,10,,,left,left,205,20\n",
    );
    expect(factsOf(trayOf(book, "A"))).toMatchObject({
      factors: { "Lid colour": "red", "Bag make": "Acme" },
      note: "left | right",
      bounds: { fresh_g: { low: 100 }, dry_g: { low: 10 } },
    });
    expect(factsOf(trayOf(book, "B"))).toMatchObject({ factors: {}, note: "left", bounds: {} });
  });

  test("of a numbered row that tells of a flush with columns of its own: those come first", async () => {
    const book = await harvestOf(
      "tray_id,inoculum_ml,flush,fresh_g,dry_g,Flush 2 (g)\nA,10,2,60,6,50\nB,10,1,200,20,50\nC,10,,200,20,50\n",
    );
    expect(book.trays.map(({ flushes }) => flushes)).toEqual([
      [{ number: 2, freshGrams: 50, dryGrams: 6 }],
      [
        { number: 1, freshGrams: 200, dryGrams: 20 },
        { number: 2, freshGrams: 50 },
      ],
      [
        { number: 1, freshGrams: 200, dryGrams: 20 },
        { number: 2, freshGrams: 50 },
      ],
    ]);
  });

  test("with days of flushes side by side have the first as their harvest", async () => {
    const book = await harvestOf(
      "tray_id,inoculum_ml,Flush 1 (g),Flush 1 date,Flush 2 (g),Flush 2 date\nA,10,200,2026-02-20,50,2026-03-05\n",
    );
    expect(trayOf(book, "A")).toMatchObject({
      freshGrams: 250,
      harvestedOn: "2026-02-20",
      flushes: [
        { number: 1, freshGrams: 200, harvestedOn: "2026-02-20" },
        { number: 2, freshGrams: 50, harvestedOn: "2026-03-05" },
      ],
    });
  });
});

describe("what a cell tells besides its value", () => {
  test.each<[string, string, string]>([
    ["a weight that cannot be read beside growing", "fresh_g,outcome\nA,10,abc,growing", "A: asked"],
    ["a dry weight that cannot be read", "dry_g,outcome\nA,10,abc,", "A: asked"],
    ["a day of harvest that cannot be read", "harvested_on,outcome\nA,10,soon,growing", "A: asked"],
    ["a day of harvest either way round", "harvested_on,outcome\nA,10,3/4/26,", "A: good"],
    ["a day of drying either way round", "dried_on,outcome\nA,10,3/4/26,", "A: good"],
    ["a day of colonisation either way round", "colonised_on,outcome\nA,10,3/4/26,", "A: growing"],
    ["a loss with a doubt in a weight", "fresh_g,dry_g\nA,10,contaminated?,20", "A: asked /20"],
    ["a word for drying in a weight", "fresh_g,dry_g\nA,10,,drying", "A: good"],
    ["a word asked about in a day", "harvested_on,outcome\nA,10,not yet,good", "A: good"],
    ["limits of a weight", "fresh_g,outcome\nA,10,>14,", "A: good"],
    ["a dose that cannot be read", "inoculum_ml,fresh_g\nA,10,abc,205", "A: good 205/"],
  ])("%s", async (_, text, tray) => {
    const columns = text.startsWith("inoculum_ml") ? "tray_id,shelf" : "tray_id,inoculum_ml";
    const book = await harvestOf(`${columns},${text}\nZ,15,${",".repeat(1)}\n`);
    expect(inShort(book)).toContain(tray);
  });

  test("a remark stays where it is not the remark that says so", async () => {
    const book = await harvestOf(
      "tray_id,inoculum_ml,fresh_g each,trays_in_pool,note\nA,10,100,3,left\nB,10,100,3,per tray\n",
    );
    expect(book.trays.map(({ freshGrams, note }) => [freshGrams, note])).toEqual([
      [300, "left"],
      [300, undefined],
    ]);
  });
});

test("a total of 0 beside blank flushes is nothing weighed; beside weighed ones it is a total that is wrong", async () => {
  const book = await harvestOf("Tray,LC ml,Fresh g,Flush 1 g,Flush 2 g\nA,5,0,150,60\nB,5,210,150,60\nC,10,0,,\n");
  expect(entries(book).filter((entry) => /total/.test(entry))).toEqual([
    "2 Fresh g flush-total-disagrees warning 0 -> 210",
    "4 * empty-total change 0 -> ",
  ]);
  expect(trayOf(book, "C").outcome).toBe("growing");
});

describe("dates without a year", () => {
  const days = async (text: string, settings?: string) => {
    const book = await harvestOf(text, settings);
    return {
      days: book.trays.map(({ inoculatedOn, harvestedOn }) => [inoculatedOn, harvestedOn]),
      said: entries(book),
    };
  };
  const header = "tray_id,inoculum_ml,inoculated_on,harvested_on,fresh_g\n";
  test("are completed by the full dates of their column, and told as a change", async () => {
    const found = await days(`${header}A,10,2026-01-05,2026-02-20,200\nB,10,2026-01-06,21 Feb,210\n`);
    expect(found.days[1]).toEqual(["2026-01-06", "2026-02-21"]);
    expect(found.said).toContain("3 harvested_on no-year change 21 Feb -> 2026-02-21");
  });
  test("are counted on from a stated year", async () => {
    const found = await days(`${header}A,10,20 Dec,25 Jan,200\nB,10,28 Dec,2 Feb,210\n`, "first_year,2025");
    expect(found.days).toEqual([
      ["2025-12-20", "2026-01-25"],
      ["2025-12-28", "2026-02-02"],
    ]);
    expect(found.said.filter((entry) => entry.includes("no-year change"))).toHaveLength(4);
  });
  test("are asked about otherwise, and a harvest day so typed is a harvest", async () => {
    const { trays, issues } = await harvestOf(`${header}A,10,5 Jan,20 Feb,\nB,10,6 Jan,,\n`);
    expect(trays.map(({ outcome, inoculatedOn, harvestedOn }) => [outcome, inoculatedOn, harvestedOn])).toEqual([
      ["good", undefined, undefined],
      ["growing", undefined, undefined],
    ]);
    expect(
      issues.filter(({ rule }) => rule === "no-year").map(({ row, severity, setting }) => [row, severity, setting]),
    ).toEqual([
      [2, "warning", "first_year"],
      [2, "warning", "first_year"],
      [3, "warning", "first_year"],
    ]);
  });
});

describe("what is concluded of a whole sheet", () => {
  const of = async (text: string, rule: string) =>
    (await harvestOf(text)).issues
      .filter((issue) => issue.rule === rule)
      .map(({ row, column, result, severity, setting }) => [row, column, result, severity, setting]);
  test("units, orders of dates and systems of day counts are told once for each column", async () => {
    expect(
      await of(
        "tray_id,inoculum_ml,harvested_on,fresh_g\nA,10,3/4/26,200\nB,10,25/4/26,210\n",
        "date-order-by-evidence",
      ),
    ).toEqual([[0, "harvested_on", "day first", "note", "date_order"]]);
    expect(await of("tray_id,inoculum_ml,Weight\nA,10,200\nB,10,210\nC,10,220\n", "unit-by-evidence")).toEqual([
      [0, "Weight", "g", "note", "mass_unit"],
    ]);
  });
  test("what dates are read as is told as such, and a sheet that cannot be read to its end is not taken as read", async () => {
    const reasons = async (days: string, rule: string) =>
      (await harvestOf(`tray_id,inoculum_ml,harvested_on,fresh_g\n${days}`)).issues
        .filter((issue) => issue.rule === rule)
        .map(({ reason }) => reason);
    expect(await reasons("A,10,3/4/26,200\nB,10,25/4/26,210\n", "date-order-by-evidence")).toEqual([
      expect.stringMatching(/^dates that could be either are read day first: ./),
    ]);
    expect(await reasons("A,10,46085,200\nB,10,2026-03-05,210\n", "serial-dates-by-evidence")).toEqual([
      expect.stringMatching(/^day counts are read in the 1900 system: ./),
    ]);
    const table = {
      file: "a.csv",
      header: ["tray_id"],
      headerRow: 1,
      forEachRow: () => {
        throw new TypeError("the disk is gone");
      },
    };
    expect(() => readRows(table, [], { spans: undefined, firstYear: 0, stopWhenOpen: true })).toThrow(
      "the disk is gone",
    );
  });
  test("a missing column of names or outcomes is noted", async () => {
    expect(await of("inoculum_ml,fresh_g\n10,200\n15,210\n", "no-tray-column")).toHaveLength(1);
    expect(await of("inoculum_ml,fresh_g\n10,200\n15,210\n", "no-outcome-column")).toHaveLength(1);
    expect(await of("tray_id,inoculum_ml,fresh_g,outcome\nA,10,200,good\nB,15,210,good\n", "no-tray-column")).toEqual(
      [],
    );
    expect(
      await of("tray_id,inoculum_ml,fresh_g,outcome\nA,10,200,good\nB,15,210,good\n", "no-outcome-column"),
    ).toEqual([]);
    expect(
      (await harvestOf("inoculum_ml,fresh_g\n10,200\n15,210\n")).issues.filter(({ rule }) => rule === "made-up-name"),
    ).toEqual([]);
  });
  test("its columns are told with their unit and first cell", async () => {
    const { columns } = await harvestOf(
      "tray_id,inoculum_ml,days_to_harvest,light_hours,harvested_on,Lid,fresh_oz\n,,,,,,\nA, 10 ,36,12,2026-02-20,red,7\nB,15,37,12,2026-02-20,red,8\n",
    );
    expect(columns.map(({ header, field, unit, example }) => [header, field, unit, example])).toEqual([
      ["tray_id", "tray_id", "", "A"],
      ["inoculum_ml", "inoculum_ml", "mL", "10"],
      ["days_to_harvest", "days_to_harvest", "days", "36"],
      ["light_hours", "light_hours", "hours", "12"],
      ["harvested_on", "harvested_on", "", "2026-02-20"],
      ["Lid", "factor", "", "red"],
      ["fresh_oz", "fresh_g", "oz", "7"],
    ]);
  });
});

test("letters at the end of names that look like flushes are part of them where the grower says that they are names", async () => {
  const text = "Tray,inoculum_ml,fresh_g\nT1 F1,10,200\nT1 F2,10,50\n";
  const names = async (pins?: string) =>
    (
      await bookOf({ "a.csv": text, ...(pins === undefined ? {} : { "columns.csv": `header,field\n${pins}\n` }) })
    ).trays.map(({ trayId, freshGrams }) => `${trayId} ${freshGrams}`);
  expect(await names()).toEqual(["T1 250"]);
  expect(await names("Tray,tray_id")).toEqual(["T1 F1 200", "T1 F2 50"]);
});

describe("sheets of one book", () => {
  const sheets = {
    a: "tray_id,inoculum_ml,inoculated_on,harvested_on,fresh_g\nA,10,2026-01-05,2026-02-20,200\nC,15,2026-01-05,2026-02-22,205\n",
  };
  test("complete each other's dates without a year, and those of an earlier and a later sheet alike", async () => {
    const b = "tray_id,inoculum_ml,inoculated_on,harvested_on,fresh_g\nB,10,6 Jan,21 Feb,210\nD,15,7 Jan,23 Feb,200\n";
    for (const names of [
      ["x.csv", "y.csv"],
      ["y.csv", "x.csv"],
    ] as const) {
      const book = await bookOf({ [names[0]]: sheets.a, [names[1]]: b });
      expect(trayOf(book, "B")).toMatchObject({ inoculatedOn: "2026-01-06", harvestedOn: "2026-02-21" });
    }
  });
  test("leave out what nothing says is of trays, row by row", async () => {
    const book = await bookOf({ "harvests/a.csv": sheets.a, "harvests/b.csv": "Colour,Size\nred,1\nblue,2\n" });
    expect(book.trays.map(({ trayId }) => trayId)).toEqual(["A", "C"]);
    expect(book.leftOut.map(({ file, row, rule, cells }) => [file, row, rule, cells])).toEqual([
      ["harvests/b.csv", 2, "no-harvest-sheet", ["red", "1"]],
      ["harvests/b.csv", 3, "no-harvest-sheet", ["blue", "2"]],
    ]);
  });
  test("planned and not started are kept apart: no day filled in, or one still to come", async () => {
    const plan = "tray_id,inoculum_ml,inoculated_on,outcome,fresh_g\nP1,10,,,\nP2,15,,,\n";
    const book = await bookOf({ "a.csv": sheets.a, "plan.csv": plan });
    expect(book.trays.map(({ trayId }) => trayId)).toEqual(["A", "C"]);
    expect(book.planned?.map(({ trayId }) => trayId)).toEqual(["P1", "P2"]);
    expect(book.leftOut.map(({ row, rule, cells }) => [row, rule, cells])).toEqual([
      [2, "planned-not-started", ["P1"]],
      [3, "planned-not-started", ["P2"]],
    ]);
    const said = book.issues.filter(({ file, rule }) => file === "plan.csv" && rule === "planned-not-started");
    expect(said).toMatchObject([
      { row: 2, severity: "note", reason: "2 trays are planned and not started: no date is filled in yet" },
    ]);
    expect(book.issues.filter(({ file, row, column }) => file === "plan.csv" && row > 0 && column !== "")).toEqual([]);
    // a note, a result or a day says that it was started
    for (const started of ["P1,10,2026-01-09,,", "P1,10,,growing,", "P1,10,,,200"]) {
      const own = await bookOf({ "a.csv": sheets.a, "plan.csv": plan.replace("P1,10,,,", started) });
      expect(own.planned).toBeUndefined();
    }
  });
});
