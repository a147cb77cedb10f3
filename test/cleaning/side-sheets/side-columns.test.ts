import { describe, expect, test } from "vitest";
import { matchColumns, plainName, sideColumns } from "../../../src/cleaning/side-sheets/match-side-columns.ts";
import { readSideTable } from "../../../src/cleaning/side-sheets/read-side-table.ts";
import { readWord } from "../../../src/cleaning/side-sheets/read-word.ts";
import { RowCells } from "../../../src/cleaning/side-sheets/row-cells.ts";
import { unreadColumns } from "../../../src/cleaning/side-sheets/unread-columns.ts";
import { wordChoice } from "../../../src/cleaning/side-sheets/word-choice.ts";
import { plainConventions } from "../../../src/cleaning/values/quantity-reading.ts";
import type { Issue } from "../../../src/records/issue.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { tableOf } from "./table-of-text.ts";

const columns = sideColumns(["price", "size", "label"], {
  price: "cost|price paid",
  size: "pack|contents|size pct",
  label: "name|cost",
});

const table = (header: string[], ...rows: string[][]) => tableOf("a.csv", header, rows, 3);
const match = (...header: string[]) => {
  const { found, issues } = matchColumns(table(header), columns);
  return { found: Object.fromEntries([...found].map(([key, { header: typed }]) => [key, typed])), issues };
};

test.each([
  ["Prix d’Été", "prix d ete"],
  ["pack_size (%)", "pack size pct"],
  [" a.b ", "a b"],
  ["№ 5", "no 5"],
  ["", ""],
])("the plain name of %j is %j", (text, plain) => {
  expect(plainName(text)).toBe(plain);
});

test("a column is found by its own name before another one, and by that before one misspelt", () => {
  expect(match("Price", "Cost", "Prise")).toEqual({
    found: { price: "Price" },
    issues: [
      expect.objectContaining({
        rule: "column-spelling",
        column: "Prise",
        result: "price",
        severity: "change",
        row: 3,
        file: "a.csv",
      }),
      // what is not read is always said
      expect.objectContaining({ rule: "unread-column", column: "Cost", severity: "warning" }),
      expect.objectContaining({ rule: "unread-column", column: "Prise", severity: "note" }),
    ],
  });
  expect(match("Prise", "Cost").found).toEqual({ price: "Cost" });
  expect(match("Prise").found).toEqual({ price: "Prise" });
  // a name of two columns is the first one's
  expect(match("cost", "name").found).toEqual({ price: "cost", label: "name" });
});

test("two columns with an equal claim are both left", () => {
  const { found, issues } = match("cost", "size", "price paid");
  expect(found).toEqual({ size: "size" });
  expect(issues).toEqual([
    expect.objectContaining({
      rule: "two-columns-for-one",
      severity: "error",
      column: "cost",
      raw: "cost | price paid",
      row: 3,
      expected: "one column named price",
      action: "Name the right one price, and the other one differently",
    }),
  ]);
  const { found: byName, issues: others } = match("cost", "price paid", "price");
  expect(byName).toEqual({ price: "price" });
  expect(others.map(({ rule, column, severity }) => `${rule} ${column} ${severity}`)).toEqual([
    "unread-column cost warning",
    "unread-column price paid warning",
  ]);
});

test.each([
  ["Price (€)", "price", "€"],
  ["Price [ EUR ]", "price", "EUR"],
  ["Price {kg}", "price", "kg"],
  ["Size, g", "size", "g"],
  ["Size, in grams", "size", "grams"],
  ["Size, in pennyweights", "size", ""],
  ["Price €", "price", "€"],
  ["Price $", "price", "$"],
  ["Size (%)", "size", "%"],
  ["Price", "price", ""],
  ["(EUR) price", "price", "EUR"],
])("the header %j is %s in %j", (header, key, unit) => {
  const { found } = matchColumns(table([header]), columns);
  expect([...found].map(([name, column]) => [name, column])).toEqual(
    unit === "" && header.includes(",") ? [] : [[key, { index: 0, header, unit }]],
  );
});

test("a column that is none is said to be unread, as a warning where it may hold money; one without a header is none", () => {
  const { found, issues } = match("", "colour", "price incl VAT");
  expect(found).toEqual({});
  expect(issues.map(({ column, raw, severity, rule }) => [column, raw, severity, rule])).toEqual([
    ["colour", "colour", "note", "unread-column"],
    ["price incl VAT", "price incl VAT", "warning", "unread-column"],
  ]);
  expect(issues[0]!.action).toBe("Rename it if it was meant as one of: price, size, label");
  expect(unreadColumns("costs", [...issues, { ...issues[0]!, severity: "error", raw: "two" }])).toEqual(
    [issues[1]!, { ...issues[0]!, raw: "two" }].map(({ raw, reason }) => ({
      sheet: "costs",
      name: `column ${raw}`,
      reason,
      source: { file: "a.csv", row: 3 },
      inUse: true,
    })),
  );
});

describe("a word out of a list", () => {
  const choice = wordChoice({ tray: "bag|per thing", load: "run|bag", "1": "one", harvest: "harvests" });
  test.each([
    ["Tray", "tray", false],
    ["per tray", "tray", false],
    ["for each tray", "tray", false],
    ["the tray", "tray", false],
    ["per thing", "tray", false],
    ["pro tray", "tray", false],
    ["bag", "tray", false],
    ["run", "load", false],
    ["1", "1", false],
    ["harvset", "harvest", true],
    ["per harvset", "harvest", true],
  ])("%j is %s", (text, answer, misspelt) => {
    expect(choice.find(text)).toEqual({ answer, misspelt });
  });
  test.each(["-1", " − 1", "moon", "", "tray per"])("%j is none", (text) => {
    expect(choice.find(text)).toBeUndefined();
  });
  test("the answers in their order", () => {
    expect(wordChoice({ b: "", a: "" }).answers).toEqual(["b", "a"]);
    expect(wordChoice({ b: "", a: "" }).find("")).toBeUndefined();
  });
  test.each<[string, string | undefined, Partial<Issue>[]]>([
    ["run", "load", []],
    ["harvset", "harvest", [{ rule: "word-spelling", severity: "change", result: "harvest" }]],
    ["moon", undefined, [{ rule: "unknown-word", severity: "error", reason: "the word for cell is not a known one" }]],
    ["", undefined, [{ rule: "missing", severity: "error", reason: "the word for cell is missing" }]],
  ])("read from a cell of %j is %s", (cell, answer, said) => {
    const issues: Issue[] = [];
    const found = new Map([["cell", { index: 0, header: "Cell", unit: "" }]]);
    const row = new RowCells("a.csv", 2, [cell], found, plainConventions, issues);
    expect(readWord(row, "cell", choice)).toBe(answer);
    expect(issues).toMatchObject(said);
    for (const { expected } of issues) expect(expected).toBe("one of: 1, tray, load, harvest");
  });
});

describe("the rows of a side sheet", () => {
  const { found } = matchColumns(table(["price", "size", "label"]), columns);
  const read = (rows: string[][], missing: "size"[] = []) => {
    const some = new Map([...found].filter(([key]) => !(missing as string[]).includes(key)));
    return readSideTable(table(["price", "size", "label"], ...rows), some, defaultSettings, {
      needed: ["price", "size"],
      money: ["price"],
      text: ["label"],
      name: "label",
      readRow(row) {
        const price = row.money("price", "the price");
        const size = row.number("size", { least: 0 }, "the size");
        return { record: price === undefined || size === undefined ? undefined : { price, size }, draft: { price } };
      },
    });
  };
  const source = (row: number) => ({ file: "a.csv", row });

  test("are records, and nothing is said of good ones", () => {
    expect(
      read([
        ["5", "2", "x"],
        ["6,50", "3", ""],
      ]),
    ).toMatchObject({
      records: [
        { price: 5, size: 2 },
        { price: 6.5, size: 3 },
      ],
      doubtful: [],
      leftOut: [],
    });
  });

  test("a doubtful one is used, one with an error is left out, both with what is said of their cell", () => {
    const { records, doubtful, leftOut, issues } = read([
      ["~5", "2", "x"],
      ["5", "-2", ""],
      ["", "-2", "y"],
    ]);
    expect(records).toEqual([{ price: 5, size: 2 }]);
    expect(doubtful).toEqual([
      {
        name: "x",
        reason: expect.stringMatching(/^price “~5”: ./),
        source: source(4),
        inUse: true,
        draft: { price: 5 },
        isForeign: false,
      },
      {
        name: "row 5",
        reason: "size “-2”: the size is below 0",
        source: source(5),
        inUse: false,
        draft: { price: 5 },
        isForeign: false,
      },
      {
        name: "y",
        reason: "size “-2”: the size is below 0",
        source: source(6),
        inUse: false,
        draft: { price: undefined },
        isForeign: false,
      },
    ]);
    expect(leftOut.map(({ row, rule, cells }) => [row, rule, cells])).toEqual([
      [5, "negative", ["5", "-2", ""]],
      [6, "negative", ["", "-2", "y"]],
    ]);
    expect(issues.map(({ row, severity }) => [row, severity])).toEqual([
      [4, "warning"],
      [5, "error"],
      [6, "error"],
    ]);
  });

  test("one that says what it needs is not known is an error in that cell", () => {
    const { issues, doubtful, leftOut } = read([
      ["5", "?", "x"],
      ["", "", "y"],
      [" ", "tbd", "z"],
      ["~5", "?", "w"],
    ]);
    expect(issues.filter(({ rule }) => rule === "not-known")).toEqual([
      expect.objectContaining({ row: 4, column: "size", raw: "?", rule: "not-known", severity: "error" }),
      expect.objectContaining({ row: 5, column: "", raw: "y", rule: "not-known", severity: "error" }),
      expect.objectContaining({ row: 6, column: "size", raw: "tbd", severity: "error" }),
      expect.objectContaining({ row: 7, column: "size", raw: "?", severity: "error" }),
    ]);
    expect(doubtful.map(({ name, reason }) => [name, reason])).toEqual([
      ["x", expect.stringMatching(/^size “\?”: /)],
      ["y", "a cell it needs says that it is not known"],
      ["z", expect.stringMatching(/^size “tbd”: /)],
      ["w", expect.stringMatching(/^size “\?”: /)],
    ]);
    expect(leftOut.map(({ row }) => row)).toEqual([4, 5, 6, 7]);
  });

  test("one in another currency is left out and known as such", () => {
    const { doubtful, records } = read([
      ["$5", "2", "x"],
      ["5", "2", "y"],
    ]);
    expect(records).toEqual([{ price: 5, size: 2 }]);
    expect(doubtful).toMatchObject([{ name: "x", inUse: false, isForeign: true, draft: { price: 5 } }]);
  });

  test("a remark behind a # alone in its row is none", () => {
    const { leftOut, issues, records } = read([
      [" # of March", "", " "],
      ["# 5", "2", "x"],
      ["# 5", "", "x"],
    ]);
    expect(leftOut[0]).toEqual({
      file: "a.csv",
      row: 4,
      cells: [" # of March", "", " "],
      rule: "comment-line",
      reason: "a remark between the rows",
    });
    expect([records, issues.map(({ row }) => row)]).toEqual([[], [5, 6]]);
  });

  test("without a column they need are all left out, with one error", () => {
    const { leftOut, issues, doubtful, records } = read(
      [
        ["5", "2", "x"],
        ["6", "3", " "],
      ],
      ["size"],
    );
    expect(records).toEqual([]);
    expect(issues).toEqual([
      expect.objectContaining({
        file: "a.csv",
        row: 3,
        rule: "missing-column",
        severity: "error",
        raw: "price, size, label",
        reason: "the sheet has no column size; none of its rows can be used",
        expected: "columns named price, size",
      }),
    ]);
    expect(leftOut.map(({ row, rule, cells }) => [row, rule, cells.length])).toEqual([
      [4, "missing-column", 3],
      [5, "missing-column", 3],
    ]);
    expect(doubtful).toEqual(
      ["x", "row 5"].map((name, at) => ({
        name,
        reason: "a column the sheet needs is missing",
        source: source(at + 4),
        inUse: false,
        isForeign: false,
      })),
    );
  });

  test("a decimal mark is agreed on by numbers, not by texts", () => {
    expect(read([["1,5", "1.234", "x"]]).records).toEqual([{ price: 1.5, size: 1234 }]);
    expect(read([["15", "1.234", "0,5"]]).records).toEqual([]);
  });
});
