import { expect, test } from "vitest";
import { countOnly, severalTrays } from "../../../src/cleaning/rows/several-trays.ts";

// what a person reads in a cell under a header such as "Tray"; common practice, no source
const sixty = Array.from({ length: 60 }, (_, at) => `T${at + 1}`);

test.each<[string, number, boolean]>([
  ["T1-T6", 6, true],
  ["T1 - T2", 2, true],
  ["T1–T3", 3, true],
  ["T1…T3", 3, true],
  ["T1..3", 3, true],
  ["1-6", 6, false],
  ["T1-6", 6, false],
  ["1 to 6", 6, true],
  ["T1 bis T4", 4, true],
  ["t1-T3", 3, true],
  ["T01-T09", 9, true],
  ["T1-T60", 60, true],
  ["2+3", 2, true],
  ["4,5,6", 3, true],
  ["4; 5", 2, true],
  ["7 and 8", 2, true],
  ["T1 & T2", 2, true],
  ["T1, 2, 3", 3, true],
  ["9/10", 2, false],
  ["T9/10", 2, false],
  ["T9/T10", 2, true],
  ["9 / 10", 2, true],
  [sixty.join(","), 60, true],
  ["A x3", 3, true],
  ["A ×3", 3, true],
  ["A×3", 3, true],
  ["A (x3)", 3, true],
  ["A x2", 2, true],
  ["A x60", 60, true],
])("%s speaks of %d trays, beyond doubt: %s", (text, trays, sure) => {
  const found = severalTrays(text);
  expect([new Set(found?.keys).size, found?.sure]).toEqual([trays, sure]);
});

test("the trays of a range or a list are those a cell of their own would name", () => {
  expect(severalTrays("T9-T11")?.keys).toEqual(["t9", "t10", "t11"]);
  expect(severalTrays("T1, 3, T5")?.keys).toEqual(["t1", "t3", "t5"]);
});

test.each([
  ["T1-T61", true],
  ["1-5000", false],
])("%s is a range of more trays than one weight can be of, and no name: %s", (text, sure) => {
  expect(severalTrays(text)).toEqual({ keys: [], sure, isTooMany: true });
});

test.each([
  "T1",
  "1",
  "T1-T1",
  "6-1",
  [...sixty, "T61"].join(","),
  "A1-B6",
  "1-B6",
  "C1-001",
  "C84-1000",
  "T1,T1",
  "A1,B2",
  "T1,blue",
  "A x1",
  "A x61",
  "Ax3",
  "blue oyster",
  "",
  ",",
])("%j is the name of one tray, or of none", (text) => {
  expect(severalTrays(text)).toBeUndefined();
});

test.each([
  ["4 trays", 4],
  ["2 trays", 2],
  ["60 trays", 60],
  ["3 Schalen", 3],
  ["1 tray", 0],
  ["61 trays", 0],
  ["tray 4", 0],
  ["4 trays blue", 0],
  ["4", 0],
])("%s alone says %d trays", (text, count) => {
  expect(countOnly(text)).toBe(count);
});
