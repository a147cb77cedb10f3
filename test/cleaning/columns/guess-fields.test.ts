import { expect, test } from "vitest";
import { guessFields } from "../../../src/cleaning/columns/guess-fields.ts";
import { tableOfText } from "../side-sheets/table-of-text.ts";

// columns whose header says nothing: what their cells alone make likely, for a question to the grower; common practice, no source
const guess = async (wanted: "varied" | "result", columns: Record<string, ReadonlyArray<string | number>>) => {
  const names = Object.keys(columns);
  const rows = columns[names[0]!]!.map((_, row) => names.map((name) => columns[name]![row]!).join(","));
  const table = await tableOfText([names.join(","), ...rows].join("\n"), "a.csv");
  return guessFields([table], new Map([["a.csv", new Set(names)]]), wanted).map(({ header, field }) => [header, field]);
};

test.each<[string, ReadonlyArray<string | number>, string | undefined]>([
  ["two amounts that recur", [5, 10, 5, 10], "inoculum_ml"],
  ["two names that recur", ["x", "y", "x", "y"], "strain"],
  ["names that differ in case only", ["x", "Y", "X", "y"], "strain"],
  ["amounts, and none", [5, "none", 5, "none"], "inoculum_ml"],
  ["the same throughout", [5, 5, 5, 5], undefined],
  ["more values than half the rows", [5, 10, 15, 5], undefined],
  ["names among numbers", [5, "x", 5, "x"], undefined],
  ["blanks beside two amounts", [5, 10, 5, 10, "", "-"], "inoculum_ml"],
])("what was varied: %s", async (_, cells, field) => {
  expect(await guess("varied", { q: cells })).toEqual(field === undefined ? [] : [["q", field]]);
});

test.each<[string, ReadonlyArray<string | number>, string | undefined]>([
  ["hundreds of grams", [210, 190, 205, 198], "fresh_g"],
  ["40 g", [40, 40, 40, 41], "fresh_g"],
  ["39 g", [39, 39, 39, 40], "dry_g"],
  ["2 g", [2, 2, 2, 1], "dry_g"],
  ["1 g", [1, 1, 1, 2], undefined],
  ["3 kg", [3000, 3000, 3000, 2900], "fresh_g"],
  ["more than a tray gives", [3001, 3001, 3001, 2900], undefined],
  ["decimal commas", ["21.5", "19.5", "20.5", "18.2"], "dry_g"],
  ["rows counted from 1 on", [1, 2, 3, 4], undefined],
  ["the middle of numbers in whatever order", [1, 300, 2, 310, 305], "fresh_g"],
  ["the middle of numbers in whatever order", [5, 100, 20, 30, 9], "dry_g"],
  ["day counts", [46068, 46069, 46070, 46071, "x"], "harvested_on"],
  ["half numbers", [210, 190, "x", "y"], "fresh_g"],
  ["fewer", [210, "z", "x", "y"], undefined],
  ["days", ["2026-03-01", "2026-03-02", "2026-03-03", "2026-03-04", "x"], "harvested_on"],
  ["days on fewer rows", ["2026-03-01", "2026-03-02", "2026-03-03", "x", "y"], undefined],
  ["words of outcomes", ["mould", "ok", "x", "y"], "outcome"],
  ["one such word", ["mould", "z", "x", "y"], undefined],
])("a result: %s", async (_, cells, field) => {
  expect(await guess("result", { q: cells })).toEqual(field === undefined ? [] : [["q", field]]);
});

test("of what was varied fewer values and amounts come first; 200 rows are looked at", async () => {
  const varied = {
    a: [5, 10, 5, 10, 5, 10, 5, 10],
    b: [5, 10, 15, 5, 10, 15, 5, 10],
    c: ["x", "y", "x", "y", "x", "y", "x", "y"],
  };
  expect((await guess("varied", varied)).map(([header]) => header)).toEqual(["a", "b", "c"]);
  const rows = (other: string) => [...Array.from({ length: 200 }, (_, at) => (at % 2 === 0 ? 5 : 10)), other];
  expect(await guess("varied", { q: rows("x") })).toEqual([["q", "inoculum_ml"]]);
  expect(await guess("varied", { q: rows("x").slice(1) })).toEqual([]);
});

test("the likeliest come first, three at most; columns that are known are not looked at", async () => {
  const result = {
    a: [210, 210, 190, 190, 205],
    b: [21, 22, 23, 24, 25],
    c: ["ok", "mould", "ok", "ok", "mould"],
    d: ["2026-03-01", "2026-03-02", "2026-03-03", "2026-03-04", "2026-03-05"],
    e: [211, 212, 213, 214, 215],
  };
  expect(await guess("result", result)).toEqual([
    ["e", "fresh_g"],
    ["c", "outcome"],
    ["b", "dry_g"],
  ]);
  const table = await tableOfText("q,r\n5,x\n10,y\n5,x\n10,y\n", "a.csv");
  expect(guessFields([table], new Map([["a.csv", new Set(["r"])]]), "varied").map(({ header }) => header)).toEqual([
    "r",
  ]);
  expect(guessFields([table], new Map([["b.csv", new Set(["r"])]]), "varied")).toEqual([]);
});

test("a result is guessed by what its name says, too, and the last of several days is that of the harvest", async () => {
  const columns = {
    "Zz LC ml": [25, 28, 31],
    "Zz fresh": [25, 28, 31.5],
    Ympad: ["2026-02-03", "2026-02-03", "2026-02-04"],
    Skördad: ["2026-03-28", "2026-03-29", "2026-03-30"],
  };
  expect(await guess("result", columns)).toEqual([
    ["Zz fresh", "fresh_g"],
    ["Skördad", "harvested_on"],
    ["Ympad", "harvested_on"],
  ]);
});
