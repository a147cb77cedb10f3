import { expect, test } from "vitest";
import { inSheetOrder } from "../../../src/cleaning/in-sheet-order.ts";
import { issuesCsv } from "../../../src/cleaning/issues-csv.ts";
import { remarksOfLoss } from "../../../src/cleaning/read-remarks.ts";
import type { ColumnReading } from "../../../src/records/book.ts";
import type { Issue } from "../../../src/records/issue.ts";
import { groupSentence, issueGroups } from "../../../src/records/issue-groups.ts";
import { logEntry } from "../../../src/records/log-entry.ts";

const issue = (entry: Partial<Issue> = {}): Issue =>
  logEntry({ file: "a.csv", rule: "r", severity: "note", reason: "why", ...entry });

test("an entry is of a whole file unless it says more", () => {
  expect(issue()).toEqual({
    file: "a.csv",
    row: 0,
    column: "",
    raw: "",
    result: "",
    expected: "",
    action: "",
    rule: "r",
    severity: "note",
    reason: "why",
  });
});

test.each<[Partial<Issue>, number, string]>([
  [{}, 2, "why"],
  [{ column: "Temp" }, 1, "column “Temp”: why"],
  [{ column: "Temp", severity: "change" }, 2, "column “Temp”: why"],
  [{ row: 2 }, 1, "1 row: why"],
  [{ row: 2 }, 2, "2 rows: why"],
  [{ row: 2, column: "Temp" }, 1, "1 cell of “Temp”: why"],
  [{ row: 2, column: "Temp" }, 2, "2 cells of “Temp”: why"],
  [{ row: 2, column: "Temp", severity: "change" }, 2, "2 cells of “Temp” changed: why"],
  [{ row: 2, column: "Temp", severity: "warning" }, 1, "1 cell of “Temp” flagged: why"],
  [{ row: 2, severity: "error" }, 2, "2 rows flagged: why"],
  [
    { row: 2, column: "Temp", severity: "change", reason: "read as °F: the header says so" },
    3,
    "3 cells of “Temp” read as °F because the header says so",
  ],
  [
    { row: 2, column: "Temp", severity: "change", reason: "not read as °F: no" },
    1,
    "1 cell of “Temp” changed: not read as °F: no",
  ],
  [
    { row: 2, column: "Temp", reason: "read as it stands: two\nlines" },
    1,
    "1 cell of “Temp” read as it stands because two\nlines",
  ],
])("%j, %d times: %j", (entry, count, text) => {
  const groups = issueGroups(Array.from({ length: count }, () => issue(entry)));
  expect(groups.map((group) => [groupSentence(group), group.count])).toEqual([[text, count]]);
});

test("entries are of one group where they say the same, about rows or about a whole column", () => {
  const entries = [
    issue({ row: 2, column: "Temp", raw: "1" }),
    issue({ row: 3, column: "Temp", raw: "2" }),
    issue({ column: "Temp" }),
    issue({ row: 2, column: "Dose" }),
    issue({ row: 2, column: "Temp", file: "b.csv" }),
    issue({ row: 2, column: "Temp", rule: "other" }),
    issue({ row: 2, column: "Temp", severity: "change" }),
    issue({ row: 2, column: "Temp", reason: "other" }),
    issue({ row: 2, column: "Temp", setting: "mass_unit" }),
  ];
  const groups = issueGroups(entries);
  expect(groups).toHaveLength(6);
  expect(groups.reduce((sum, { count }) => sum + count, 0)).toBe(9);
  expect(groups.map(({ setting }) => setting).filter((setting) => setting !== undefined)).toEqual(["mass_unit"]);
  expect(Object.keys(groups[0]!)).not.toContain("setting");
  const most = groups.find(({ count }) => count === 4)!;
  expect([most.columns, most.files]).toEqual([
    ["Temp", "Dose"],
    ["a.csv", "b.csv"],
  ]);
  expect(groupSentence(most)).toMatch(/^4 cells of “Temp”, “Dose”/);
});

test("groups stand with what needs doing first, then by how many cells they touch; five are shown", () => {
  const of = (severity: Issue["severity"], count: number, column: string) =>
    Array.from({ length: count }, (_, at) => issue({ row: at + 1, column, severity }));
  const groups = issueGroups([
    ...of("change", 9, "a"),
    ...of("note", 1, "b"),
    ...of("note", 7, "c"),
    ...of("warning", 2, "d"),
    ...of("error", 1, "e"),
  ]);
  expect(groups.map(({ columns }) => columns)).toEqual([["e"], ["d"], ["b", "c"], ["a"]]);
  expect(groups.map(({ examples }) => examples.map(({ row }) => row))).toEqual([
    [1],
    [1, 2],
    [1, 1, 2, 3, 4],
    [1, 2, 3, 4, 5],
  ]);
});

test("the log stands by file, row and place of the column; what stands at one place keeps its order", () => {
  const columns = [
    ["a.csv", "Tray"],
    ["a.csv", "Temp"],
    ["a.csv", "Temp"],
    ["a.csv", "Dose"],
    ["b.csv", "Dose"],
    ["b.csv", "Temp"],
  ].map(([file, header]) => ({ file, header }) as ColumnReading);
  const at = (file: string, row: number, column: string, rule = "r"): Issue => issue({ file, row, column, rule });
  const ordered = [
    at("a.csv", 0, ""),
    at("a.csv", 0, "Temp", "x"),
    at("a.csv", 0, "Temp", "b"),
    at("a.csv", 0, "Dose"),
    at("a.csv", 2, "nowhere"),
    at("a.csv", 2, "Tray"),
    at("a.csv", 2, "Dose"),
    at("a.csv", 10, "Temp"),
    at("b.csv", 1, "Dose"),
    at("b.csv", 1, "Temp"),
    at("c.csv", 1, "Temp"),
  ];
  const [first, x, b, ...others] = ordered;
  expect(inSheetOrder([...others.reverse(), x!, b!, first!], columns)).toEqual(ordered);
});

test("as a sheet each entry has its row, with nothing where it says nothing", () => {
  const lines = issuesCsv([issue({ row: 3, column: "Temp", raw: "=1+1", tray: "A" })]).split("\r\n");
  expect(lines.slice(1)).toEqual(["a.csv,3,Temp,A,'=1+1,,r,note,why,,,", ""]);
});

test.each<[cells: string[], rule: string, says: string | undefined]>([
  [["2 trays lost to mold"], "footnote", "2 trays lost to mold"],
  [["", " T7 and T8 binned ", ""], "title-line", "T7 and T8 binned"],
  [["3", "trays failed"], "footnote", "3 trays failed"],
  [["2 trays lost to mold"], "totals-row", undefined],
  [["trays lost to mold"], "footnote", undefined],
  [["C2 = contaminated"], "footnote", undefined],
  [["2: contaminated"], "footnote", undefined],
  [["2 trays, no mold"], "footnote", undefined],
  [["2 trays picked"], "footnote", undefined],
  [["2 trays picked, 1 moldy"], "footnote", undefined],
  [["spring 2026"], "title-line", undefined],
  [[`2 trays moldy ${"x".repeat(186)}`], "footnote", `2 trays moldy ${"x".repeat(186)}`],
  [[`2 trays moldy ${"x".repeat(187)}`], "footnote", undefined],
])("a remark of lost trays beside the rows, which no row stands for: %j, set aside as %s", (cells, rule, says) => {
  const found = remarksOfLoss([{ file: "a.csv", row: 9, cells, rule, reason: "" }]);
  expect(found.map(({ row, raw, severity }) => [row, raw, severity])).toEqual(
    says === undefined ? [] : [[9, says, "warning"]],
  );
});
