import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { noteMissingNumbers } from "../../../src/cleaning/trays/missing-numbers.ts";
import { trayKey } from "../../../src/cleaning/trays/tray-key.ts";
import type { LeftOutRow } from "../../../src/records/issue.ts";
import type { Tray } from "../../../src/records/tray.ts";
import { draftOf, logOf } from "./drafts.ts";

const range = (from: number, to: number, ...without: number[]): number[] =>
  Array.from({ length: to - from + 1 }, (_, at) => from + at).filter((number) => !without.includes(number));
const missing = (
  names: (string | number)[],
  facts: (at: number) => Partial<Tray> = () => ({}),
  leftOut: string[] = [],
) => {
  const { log, said } = logOf();
  const trays = names.map(
    (name, at) => draftOf({ trayId: String(name), row: at + 2, outcome: "good", ...facts(at) }) as Tray,
  );
  const aside: LeftOutRow[] = leftOut.map((cell) => ({
    file: "a.csv",
    row: 99,
    cells: ["x", cell],
    rule: "r",
    reason: "",
  }));
  noteMissingNumbers(trays, aside, log);
  for (const issue of said)
    expect(issue).toMatchObject({ file: "a.csv", column: "tray_id", severity: "warning", rule: "tray-number-missing" });
  return said.map(({ tray, row, raw }) => [tray, row, raw]);
};

// trays numbered one by one, eight at least, of which at most a third is missing and no six in a row
test.each<[string, (string | number)[], string[]]>([
  ["none", range(1, 9), []],
  ["one of nine", range(1, 9, 4), ["4"]],
  ["one of eight: seven are no numbering", range(1, 8, 4), []],
  ["five in a row", range(1, 20, 5, 6, 7, 8, 9), ["5", "6", "7", "8", "9"]],
  ["six in a row are a jump, and eight behind it a run of their own", [...range(1, 8), ...range(15, 23, 17)], ["17"]],
  ["a third", range(1, 12, 2, 5, 8, 11), ["2", "5", "8", "11"]],
  ["more than a third", range(1, 14, 2, 4, 6, 8, 10), []],
  ["in any order", range(1, 9, 4).reverse(), ["4"]],
  ["under a prefix", range(1, 9, 4).map((number) => `T${number}`), ["T4"]],
  ["with zeros", range(1, 12, 9, 10).map((number) => `T${String(number).padStart(2, "0")}`), ["T09", "T10"]],
  ["beside names without a number", [...range(1, 9, 4), "blue", "red"], ["4"]],
  ["of numbers too long to count on", range(1, 9, 4).map((number) => `123456789${number}`), []],
  ["of numbers of nine digits", range(1, 9, 4).map((number) => `12345678${number}`), ["123456784"]],
  [
    "of two prefixes that begin alike",
    [...range(1, 9, 4).map((number) => `A${number}`), ...range(1, 9).map((number) => `B${number}`)],
    ["A4"],
  ],
  [
    "of two prefixes that go on",
    [...range(1, 5).map((number) => `A${number}`), ...range(7, 10).map((number) => `B${number}`)],
    ["A6"],
  ],
  ["a number that comes twice", [...range(1, 9), "A5"], []],
])("numbers missing: %s", (_, names, found) => {
  expect(missing(names).map(([name]) => name)).toEqual(found);
});

test("each is told at the tray behind it, between the two it stands between", () => {
  expect(missing(range(1, 10, 4, 5))).toEqual([
    ["4", 5, "3, 6"],
    ["5", 5, "3, 6"],
  ]);
});

test("between two cooks a single number is missing, more are not", () => {
  const cook = (at: number) => ({ batch: at < 5 ? "A" : "B" });
  expect(missing(range(1, 10, 6), cook)).toHaveLength(1);
  expect(missing(range(1, 11, 6, 7), cook)).toEqual([]);
  expect(missing(range(1, 11, 6, 7), () => ({ batch: "A" }))).toHaveLength(2);
});

test("beside pools nothing is told, and a number of a row that was left out is not missing", () => {
  expect(missing(range(1, 9, 4), (at) => (at === 0 ? { traysInPool: 2 } : {}))).toEqual([]);
  expect(missing(range(1, 9, 4), undefined, [" 4 "])).toEqual([]);
  expect(missing(range(1, 9, 4), undefined, ["5"])).toHaveLength(1);
  const across = ["A1", "A2", "A3", "A4", "A5", "B7", "B8", "B9"];
  expect(missing(across, undefined, ["A6"])).toEqual([]);
  expect(missing(across, undefined, ["B6"])).toEqual([]);
  expect(missing(across, undefined, ["C6"])).toHaveLength(1);
});

describe("spellings of one tray's name", () => {
  test.each([
    ["Tray 3", "3"],
    ["tray no. 3", "3"],
    ["Schale #3", "3"],
    ["Barquette: 3", "3"],
    ["bandeja nr 3b", "3b"],
    ["vaschetta num 3", "3"],
    ["bak-03", "3"],
    ["Taca 3", "3"],
    ["tacka 3", "3"],
    [" Tray3 ", "3"],
    ["Tray", "tray"],
    ["Tray x", "trayx"],
    ["Tray 3 b", "tray3b"],
    ["my tray 3", "mytray3"],
    ["Jar 3", "jar3"],
    ["T_1", "t1"],
    ["T.1", "t1"],
    ["T/1", "t1"],
    ["T\\1", "t1"],
    ["T#1", "t1"],
    ["1/12", "1-12"],
    ["1.12", "1-12"],
    ["1 # 12", "1-12"],
    ["01-02", "1-2"],
    ["1-0", "1-0"],
    ["00", "0"],
    ["007", "7"],
    ["A00", "a0"],
    ["A-0", "a0"],
    ["A1B02", "a1b2"],
    ["1-a-2", "1a2"],
    ["A1-2", "a1-2"],
    ["100", "100"],
    ["1001", "1001"],
    ["1-", "1"],
    ["-1", "1"],
    ["É 01", "e1"],
    ["ä-1-2", "a1-2"],
    ["é1–2", "e1-2"],
    ["é01—02", "e1-2"],
    ["é-é", "ee"],
    ["é-", "e"],
    ["日1", "日1"],
    ["№ 1", "no1"],
    ["-", "-"],
    ["#", "#"],
  ])("%j is %j", (name, key) => {
    expect(trayKey(name)).toBe(key);
  });
  test("of plain letters, digits and marks are those of the same name with an accent that is left off", () => {
    fc.assert(
      fc.property(fc.stringMatching(/^[a-zA-Z0-9 #./\\_-]{0,8}[a-zA-Z0-9]$/), (name) => {
        expect(trayKey(`${name}\u0301`)).toBe(trayKey(name));
      }),
    );
  });
});
