import { expect, test } from "vitest";
import { readCellAnswers, withCellAnswers } from "../../../src/cleaning/side-sheets/read-cell-answers.ts";
import { readColumnPins } from "../../../src/cleaning/side-sheets/read-column-pins.ts";
import { harvestFields } from "../../../src/records/harvest-field.ts";
import { tableOf } from "./table-of-text.ts";

const table = (file: string, header: string, ...lines: string[]) =>
  tableOf(
    file,
    header.split("|"),
    lines.map((line) => line.split("|")),
  );

const pins = (...lines: string[]) => readColumnPins([table("columns.csv", "file|header|field|unit|note", ...lines)]);

test.each([
  ["|Wt|fresh_g||", { file: "", header: "Wt", field: "fresh_g", unit: "" }, []],
  ["*|Wt|fresh_g|oz|", { file: "", header: "Wt", field: "fresh_g", unit: "oz" }, []],
  ["a.csv|My   Wt|Fresh_G|grams|x", { file: "a.csv", header: "My Wt", field: "fresh_g", unit: "g" }, ["Fresh_G"]],
  ["|Wt|dry weigth||", { file: "", header: "Wt", field: "dry_g", unit: "" }, ["dry weigth"]],
  ["|Brand|factor||", { file: "", header: "Brand", field: "factor", unit: "" }, []],
  ["|Brand|keep||", { file: "", header: "Brand", field: "factor", unit: "" }, ["keep"]],
  ["|Brand|unread||", { file: "", header: "Brand", field: "unread", unit: "" }, []],
  ["|Brand|leave out||", { file: "", header: "Brand", field: "unread", unit: "" }, ["leave out"]],
  ["|T|days_to_harvest|weeks|", { file: "", header: "T", field: "days_to_harvest", unit: "weeks" }, []],
])("the pin %s", (line, pin, renamed) => {
  const found = pins(line);
  expect(found.pins).toEqual([{ ...pin, line: { file: "columns.csv", row: 2 } }]);
  expect(found.leftOut).toEqual([]);
  expect(found.issues).toEqual(
    renamed.map((raw) =>
      expect.objectContaining({
        row: 2,
        column: "field",
        raw,
        result: pin.field,
        rule: "field-name",
        severity: "change",
      }),
    ),
  );
});

test.each([
  [
    "|Wt|moon_g||",
    "unknown-field",
    "field",
    "moon_g",
    `one of: ${[...harvestFields.map(({ key }) => key), "factor", "unread"].join(", ")}`,
  ],
  ["|Wt|fresh_g|mL|", "unknown-unit", "unit", "mL", "a unit of weight"],
  ["|Wt|inoculum_ml|g|", "unknown-unit", "unit", "g", "a unit of volume"],
  ["|Wt|strain|g|", "unknown-unit", "unit", "g", "no unit"],
  ["|Wt|factor|g|", "unknown-unit", "unit", "g", "no unit"],
  ["||fresh_g||", "missing", "header", "", "a header as it is typed in the sheet"],
])("the line %s is refused", (line, rule, column, raw, expected) => {
  const found = pins(line);
  expect(found.pins).toEqual([]);
  const { reason } = found.issues[0]!;
  expect(found.issues).toEqual([
    {
      file: "columns.csv",
      row: 2,
      column,
      raw,
      result: "",
      rule,
      severity: "error",
      reason,
      expected,
      action: "Correct the line, or remove it",
    },
  ]);
  expect(found.leftOut).toEqual([{ file: "columns.csv", row: 2, cells: line.split("|"), rule, reason }]);
});

test("a line without a field is one still to be decided", () => {
  expect(pins("a.csv|Wt|||", "||||")).toEqual({ pins: [], issues: [], leftOut: [] });
});

test("a column pinned twice: the same again says nothing, another thing is refused", () => {
  const twice = (second: string) => pins("a.csv|Wt|fresh_g|g|", second);
  expect(twice("A.csv|wt|fresh_g|g|").issues).toEqual([]);
  expect(twice("b.csv|Wt|dry_g|g|").pins).toHaveLength(2);
  for (const second of ["a.csv|Wt|dry_g|g|", "a.csv|Wt|fresh_g|oz|", "a.csv|Wt|fresh_g||"]) {
    const { pins: kept, issues, leftOut } = twice(second);
    expect(kept.map(({ field, unit }) => [field, unit])).toEqual([["fresh_g", "g"]]);
    expect(issues).toMatchObject([
      {
        row: 3,
        column: "field",
        rule: "pinned-twice",
        severity: "error",
        expected: "one line for it; the other is row 2",
      },
    ]);
    expect(leftOut).toMatchObject([{ row: 3, rule: "pinned-twice" }]);
  }
});

test("a file named after a sheet is about that sheet, unless a line names another", () => {
  const of = (file: string) =>
    readColumnPins([table(file, "file|header|field", "|Wt|fresh_g", "b.csv|Wt|dry_g")]).pins.map((pin) => pin.file);
  expect(of("x/spring.columns.csv")).toEqual(["spring", "b.csv"]);
  expect(of("spring.column.csv")).toEqual(["spring", "b.csv"]);
  expect(of("columns.csv")).toEqual(["", "b.csv"]);
});

test.each(["header|unit", "field|unit", "a|b"])("pins with the columns %s cannot be used", (header) => {
  const { pins: none, issues, leftOut } = readColumnPins([table("columns.csv", header, "x|y")]);
  expect(none).toEqual([]);
  expect(issues.at(-1)).toMatchObject({
    file: "columns.csv",
    row: 1,
    rule: "missing-column",
    severity: "error",
    raw: header.replace("|", ", "),
  });
  expect(leftOut).toEqual([
    {
      file: "columns.csv",
      row: 2,
      cells: ["x", "y"],
      rule: "missing-column",
      reason: "a column the sheet needs is missing",
    },
  ]);
});

const answersOf = (...lines: string[]) =>
  readCellAnswers([table("cells.csv", "file|row|tray|column|value|note", ...lines)]);

test("answers to single cells: place and value; a line without a value is still open, one without a place an error", () => {
  const { answers, issues } = answersOf("a.csv|4|T1|Fresh g|205|x", "a.csv|4|T1|Fresh g||x", " |5|| Dry g | 20 ");
  expect(answers).toEqual([
    { file: "a.csv", row: 4, tray: "T1", column: "Fresh g", value: "205", source: { file: "cells.csv", row: 2 } },
    { file: "", row: 5, tray: "", column: "Dry g", value: "20", source: { file: "cells.csv", row: 4 } },
  ]);
  expect(issues).toEqual([]);
  for (const line of [
    "a.csv|0||Fresh g|205|",
    "a.csv|1.5||Fresh g|205|",
    "a.csv|x||Fresh g|205|",
    "a.csv|4|||205|",
    "a.csv|||Fresh g|205|",
  ]) {
    const wrong = answersOf(line);
    expect(wrong.answers).toEqual([]);
    expect(wrong.issues).toMatchObject([
      {
        file: "cells.csv",
        row: 2,
        raw: line.replaceAll("|", ","),
        rule: "cell-answer-without-place",
        severity: "error",
        expected: "file,row,tray,column,value",
      },
    ]);
  }
  expect(readCellAnswers([table("cells.csv", "row|column|value|colour", "4|Fresh g|205|red")])).toMatchObject({
    answers: [{ file: "", row: 4, tray: "" }],
    issues: [{ rule: "unread-column" }],
  });
});

const answered = (file: string, answers: string[], keys = ["outcome"], rows = ["T1|205", "T2|210"]) => {
  const given = table(file, "Tray|Fresh g", ...rows);
  const { groups, issues } = withCellAnswers([{ tables: [given], keys }], answersOf(...answers).answers);
  const [made] = groups[0]!;
  const cells: string[][] = [];
  made!.forEachRow((row) => cells.push(row));
  return { header: made!.header, cells, issues, isSame: made === given };
};
const typed = [
  ["T1", "205"],
  ["T2", "210"],
];

test.each([
  ["a.csv", ["a.csv", "A.CSV", "a", ""]],
  ["x/a.csv", ["x/a.csv", "a.csv", "a", ""]],
  ["x/a.xlsx > Spring", ["a.xlsx", "x/a.xlsx", "x/a.xlsx > Spring", "spring", "a", ""]],
])("a sheet %s is meant by %j", (file, names) => {
  for (const name of names) {
    const { cells, issues } = answered(file, [`${name}|3||fresh G|231|`]);
    expect(cells).toEqual([typed[0], ["T2", "231"]]);
    expect(issues).toEqual([
      expect.objectContaining({
        file,
        row: 3,
        column: "Fresh g",
        raw: "210",
        result: "231",
        rule: "cell-answered",
        severity: "change",
      }),
    ]);
  }
  for (const name of ["b.csv", "x", "sv"]) {
    const { isSame, issues } = answered(file, [`${name}|3||Fresh g|231|`]);
    expect(isSame).toBe(true);
    expect(issues).toEqual([
      expect.objectContaining({
        file: "cells.csv",
        row: 2,
        raw: `${name},3,,Fresh g`,
        rule: "no-such-cell",
        severity: "warning",
      }),
    ]);
  }
});

test("a column that an answer may add stands behind the others, and is blank elsewhere", () => {
  const added = answered("a.csv", ["|3||outcome|good|", "|2||Fresh g|206|"]);
  expect(added.header).toEqual(["Tray", "Fresh g", "outcome"]);
  expect(added.cells).toEqual([
    ["T1", "206", ""],
    ["T2", "210", "good"],
  ]);
  expect(added.issues.map(({ column, raw, result }) => [column, raw, result])).toEqual([
    ["Fresh g", "205", "206"],
    ["outcome", "", "good"],
  ]);
  expect(answered("a.csv", ["|3||ending|good|"])).toMatchObject({ isSame: true, issues: [{ rule: "no-such-cell" }] });
  expect(answered("a.csv", ["|9||outcome|good|"])).toMatchObject({ isSame: true, issues: [{ rule: "no-such-cell" }] });
});

test("a column that is there already is not added again, be it the first", () => {
  expect(answered("a.csv", ["|3||Fresh g|231|"], ["Fresh g"]).header).toEqual(["Tray", "Fresh g"]);
  expect(answered("a.csv", ["|3||tray|T9|"], ["tray"])).toMatchObject({
    header: ["Tray", "Fresh g"],
    cells: [
      ["T1", "205"],
      ["T9", "210"],
    ],
  });
  expect(answered("a.csv", ["|2||first|x|", "|2||second|y|"], ["first", "second"]).cells[0]).toEqual([
    "T1",
    "205",
    "x",
    "y",
  ]);
});

test("an answer that meets no cell leaves the others in place; no answers leave the tables", () => {
  const { cells, issues } = answered("a.csv", ["|9||Fresh g|1|", "|2||Fresh g|206|"]);
  expect(cells).toEqual([["T1", "206"], typed[1]]);
  expect(issues.map(({ rule }) => rule)).toEqual(["cell-answered", "no-such-cell"]);
  expect(answered("a.csv", [])).toMatchObject({ isSame: true, issues: [], cells: typed });
});
