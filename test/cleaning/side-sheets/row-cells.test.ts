import { describe, expect, test } from "vitest";
import { type NumberRange, RowCells } from "../../../src/cleaning/side-sheets/row-cells.ts";
import { plainConventions, type QuantityKind } from "../../../src/cleaning/values/quantity-reading.ts";
import type { Issue } from "../../../src/records/issue.ts";

function rowOf(cell: string, header = "Cell", unit = "") {
  const issues: Issue[] = [];
  const columns = new Map([["cell", { index: 1, header, unit }]]);
  return { row: new RowCells("a.csv", 7, ["x", cell], columns, plainConventions, issues), issues };
}

describe("a cell of a side sheet as text", () => {
  test.each(["", " ", "-", "--", "–", "—", "n/a", "N/A", "na"])("%j says that there is nothing", (cell) => {
    const { row } = rowOf(cell);
    expect([row.text("cell"), row.has("cell")]).toEqual(["", false]);
  });
  test.each([
    ["0", "0"],
    [" a b ", "a b"],
    ["-1", "-1"],
    ["n/a yet", "n/a yet"],
    ["in a", "in a"],
    ["a-", "a-"],
  ])("%j says %j", (cell, text) => {
    const { row } = rowOf(cell);
    expect([row.text("cell"), row.has("cell")]).toEqual([text, true]);
  });
  test("of a column that the sheet has not is nothing", () => {
    const issues: Issue[] = [];
    const row = new RowCells<string>("a.csv", 7, ["x"], new Map(), plainConventions, issues);
    expect([row.text("cell"), row.headerText("cell"), row.headerUnit("cell")]).toEqual(["", "", ""]);
    expect([row.number("cell", {}, "n"), row.share("cell", {}, "a share"), row.money("cell", "a price")]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
    expect(row.date("cell", { order: "", epoch: "" })).toBeUndefined();
    expect([row.failed, issues]).toEqual([false, []]);
    row.say("cell", { rule: "missing", reason: "it is missing", expected: "one" });
    expect(issues).toMatchObject([{ column: "cell", severity: "error", row: 7, file: "a.csv" }]);
  });
  test("keeps the header and its unit", () => {
    const { row } = rowOf("x", "Price (€)", "€");
    expect([row.headerText("cell"), row.headerUnit("cell")]).toEqual(["Price (€)", "€"]);
  });
});

test("only an error makes a row fail", () => {
  const { row, issues } = rowOf("x");
  row.say("cell", { rule: "a", reason: "b", expected: "", severity: "warning" }, "y");
  expect(row.failed).toBe(false);
  row.say("cell", { rule: "a", reason: "b", expected: "c", action: "d", setting: "e" });
  expect(row.failed).toBe(true);
  const about = { file: "a.csv", row: 7, column: "Cell", raw: "x", rule: "a", reason: "b" };
  expect(issues).toEqual([
    { ...about, result: "y", expected: "", action: "", severity: "warning" },
    { ...about, result: "", expected: "c", action: "d", severity: "error", setting: "e" },
  ]);
});

test.each<[number, NumberRange, string | undefined, string?, string?]>([
  [5, {}, undefined],
  [-5, {}, undefined],
  [0, { least: 0 }, undefined],
  [-1, { least: 0 }, "negative", "it is below 0", "it, at least 0"],
  [0, { least: 0, above: true }, "zero", "it is 0", "it, above 0"],
  [0.1, { least: 0, above: true }, undefined],
  [1, { least: 1 }, undefined],
  [1, { least: 1, above: true }, "out-of-range", "it is out of its range", "it, above 1"],
  [0, { least: 1 }, "zero", "it is 0", "it, at least 1"],
  [0.5, { least: 1 }, "out-of-range", "it is out of its range", "it, at least 1"],
  [-1, { least: -5 }, undefined],
  [-9, { least: -5 }, "negative", "it is below 0", "it, at least -5"],
  [2, { most: 2 }, undefined],
  [2.1, { most: 2 }, "out-of-range", "it is out of its range", "it, at most 2"],
  [-1, { most: -2 }, "out-of-range", "it is out of its range", "it, at most -2"],
  [0, { most: -2 }, "zero", "it is 0", "it, at most -2"],
  [2, { least: 0, most: 2 }, undefined],
  [3, { least: 0, most: 2 }, "out-of-range", "it is out of its range", "it, at least 0, at most 2"],
])("%d within %j: %s", (value, range, rule, reason, expected) => {
  const { row, issues } = rowOf("x");
  expect(row.within("cell", value, range, "it")).toBe(rule === undefined ? value : undefined);
  expect(row.failed).toBe(rule !== undefined);
  expect(issues).toMatchObject(rule === undefined ? [] : [{ rule, reason, expected, severity: "error" }]);
});

test("nothing is within every range", () => {
  const { row, issues } = rowOf("x");
  expect(row.within("cell", undefined, { least: 0 }, "it")).toBeUndefined();
  expect([row.failed, issues]).toEqual([false, []]);
});

test.each<[string, QuantityKind, number | undefined, Partial<Issue>[]]>([
  ["12", "number", 12, []],
  ["", "number", undefined, []],
  ["?", "number", undefined, []],
  ["12,5", "number", 12.5, [{ rule: "decimal-comma", severity: "change", result: "12.5" }]],
  ["~12", "number", 12, [{ rule: "approximate", severity: "warning", result: "12" }]],
  ["2 kg", "mass", 2000, [{ severity: "change", result: "2000 g" }]],
  [
    "1,234",
    "number",
    undefined,
    [
      {
        rule: "decimal-or-thousands",
        severity: "error",
        setting: "decimal_mark",
        action: "Type it as expected, or answer decimal_mark in settings.csv",
      },
    ],
  ],
  [
    ">5",
    "number",
    undefined,
    [{ severity: "error", reason: "the cell gives bounds, not a number", expected: "a plain number" }],
  ],
  [
    "contaminated",
    "number",
    undefined,
    [{ severity: "error", reason: "the cell holds a word where a number should be" }],
  ],
  ["2 trays 310 g", "mass", undefined, [{ severity: "error", reason: "the cell speaks of several trays" }]],
  ["abc", "number", undefined, [{ rule: "not-a-number", severity: "error", action: "Type a number" }]],
])("%j as a %s is %s", (cell, kind, value, said) => {
  const { row, issues } = rowOf(cell);
  expect(row.quantity("cell", cell, kind)).toBe(value);
  expect(issues).toMatchObject(said);
  expect(row.failed).toBe(said.some(({ severity }) => severity === "error"));
  for (const { reason, expected, severity } of issues) {
    expect(reason).not.toBe("");
    expect(expected === "").toBe(severity !== "error");
  }
});

test.each([
  ["50 %", "Share", 0.5],
  ["0.5", "Share of one", 0.5],
  ["0.5", "share of 1", 0.5],
  ["0.5", "Fraction", 0.5],
  ["0.5", "Share", undefined],
  ["12", "Share", 0.12],
  ["100 %", "Share", 1],
  ["101 %", "Share", undefined],
  ["-1 %", "Share", undefined],
])("%s under “%s” is the share %s", (cell, header, share) => {
  const { row, issues } = rowOf(cell, header);
  expect(row.share("cell", { least: 0, most: 1 }, "the share")).toBe(share);
  expect(issues.some(({ severity }) => severity === "error")).toBe(share === undefined);
});

test.each<[string, number | undefined, string?]>([
  ["€ 12,90", 12.9],
  ["0", 0],
  ["-1", undefined, "negative"],
  ["dear", undefined, "not-a-number"],
  ["12.90 ex", undefined, "price-without-tax"],
  ["12.90 excl.", undefined, "price-without-tax"],
  ["12,90 netto", undefined, "price-without-tax"],
])("%s is money of %s", (cell, money, rule) => {
  const { row, issues } = rowOf(cell);
  expect(row.money("cell", "the price")).toBe(money);
  expect(issues.find(({ severity }) => severity === "error")?.rule).toBe(rule);
});

test("a number is held to its range, under what it is called", () => {
  const { row, issues } = rowOf("-1");
  expect(row.number("cell", { least: 0 }, "the count")).toBeUndefined();
  expect(rowOf("-1").row.number("cell", {}, "the count")).toBe(-1);
  expect(issues).toMatchObject([{ expected: "the count, at least 0" }]);
});

test.each<[string, string | undefined, Partial<Issue>[]]>([
  ["2026-03-04", "2026-03-04", []],
  ["4 March 2026", "2026-03-04", [{ severity: "change", result: "2026-03-04" }]],
  ["~2026-03-04", "2026-03-04", [{ severity: "warning", result: "2026-03-04" }]],
  ["", undefined, []],
  [
    "3/4/26",
    undefined,
    [
      {
        severity: "error",
        setting: "date_order",
        action: "Type it as year-month-day, or answer date_order in settings.csv",
      },
    ],
  ],
  [
    "46085",
    undefined,
    [
      {
        severity: "error",
        setting: "serial_dates",
        action: "Type it as year-month-day, or answer serial_dates in settings.csv",
      },
    ],
  ],
  ["soon", undefined, [{ rule: "not-a-date", severity: "error", action: "Type it as year-month-day" }]],
  ["4 March", undefined, [{ severity: "error" }]],
  ["contaminated", undefined, [{ severity: "error" }]],
])("%j is the day %s", (cell, day, said) => {
  const { row, issues } = rowOf(cell);
  expect(row.date("cell", { order: "", epoch: "" })).toBe(day);
  expect(issues).toMatchObject(said);
  expect(row.failed).toBe(said.some(({ severity }) => severity === "error"));
  for (const { reason, expected, severity } of issues) {
    expect(reason).not.toBe("");
    expect(expected).toBe(severity === "error" ? "a date such as 2026-03-04" : "");
  }
});

test("a row is left out for the last error that is said of it", () => {
  const { row, issues } = rowOf("x");
  const left = { file: "a.csv", row: 7, cells: ["x", "x"] };
  expect(row.leftOut()).toEqual({ ...left, rule: "unusable-row", reason: "a cell it needs cannot be read" });
  row.say("cell", { rule: "first", reason: "one", expected: "" });
  row.say("cell", { rule: "second", reason: "two", expected: "" });
  row.say("cell", { rule: "third", reason: "three", expected: "", severity: "warning" });
  issues.push({ ...issues[0]!, rule: "other row", row: 8 }, { ...issues[0]!, rule: "other file", file: "b.csv" });
  expect(row.leftOut()).toEqual({ ...left, rule: "second", reason: "two" });
});
