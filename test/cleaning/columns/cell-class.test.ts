import { expect, test } from "vitest";
import { type CellClass, cellClass, fits } from "../../../src/cleaning/columns/cell-class.ts";

// what a person takes a cell for before reading its header; day numbers of spreadsheets from 1998 to 2069
test.each<[string, CellClass]>([
  ["", "empty"],
  ["-", "empty"],
  ["n/a", "empty"],
  ["12", "number"],
  ["12.5", "number"],
  ["12,5", "number"],
  ["~12", "number"],
  ["12 ?", "number"],
  ["12ish", "number"],
  ["about 12", "number"],
  ["2nd", "number"],
  ["3.", "number"],
  ["35999", "number"],
  ["36000", "serial"],
  ["46000", "serial"],
  ["61999", "serial"],
  ["62000", "number"],
  ["46000.5", "number"],
  ["20260114", "date"],
  ["20261314", "number"],
  ["2026-01-14", "date"],
  ["3/4/26", "date"],
  ["14 Jan", "date"],
  ["2026-02-30", "date"],
  ["200 g", "mass"],
  ["1 lb 2 oz", "number"],
  ["12 ml", "volume"],
  ["12 mL + 5 mL", "volume"],
  ["2 x 5 mL", "volume"],
  ["5cc x2", "volume"],
  ["5 mL × 2", "volume"],
  ["18 °C", "temperature"],
  ["18°", "number"],
  ["12 days", "days"],
  ["2 weeks 3 days", "number"],
  ["over the shelf", "text"],
  ["5 %", "percent"],
  ["12 cm", "text"],
  ["12 pcs", "text"],
  ["blue", "text"],
  ["T1", "text"],
  [" 12 ", "number"],
  ["12 mL + 5", "number"],
  ["5 + 12 mL", "volume"],
  ["2 x 5 mL", "volume"],
  ["2 × 5", "number"],
  ["200 g (wet)", "mass"],
  ["200 g (wet) x", "text"],
  ["123 x 5 mL", "text"],
  ["10 mL LC", "volume"],
  ["10 mL each", "volume"],
  ["<5 g", "mass"],
  ["≥ 5 g", "mass"],
  ["-5 °C", "temperature"],
  ["½ cup", "text"],
  ["1 ½ cups", "volume"],
  ["5 kg 2 g", "number"],
  ["5 weeks 2", "number"],
  ["over 5 g", "number"],
  ["approx 5", "number"],
  ["12 of twenty-four and more grams", "text"],
  ["1.5", "number"],
  ["36000.5", "number"],
  ["19991231", "date"],
  ["18991231", "number"],
  ["1st", "number"],
  ["12th", "number"],
  ["2nd", "number"],
  ["3e", "number"],
  ["3ème", "number"],
  ["3º", "number"],
  ["123rd", "text"],
])("%j looks like: %s", (text, looks) => {
  expect(cellClass(text)).toBe(looks);
});

test("a column is served best by its own kind, less by bare numbers, not by another kind", () => {
  const order = (kind: Parameters<typeof fits>[0], ...cells: CellClass[]) => cells.map((cell) => fits(kind, cell));
  const falls = (values: number[]) => values.every((value, at) => at === 0 || value < values[at - 1]!);
  expect(falls(order("mass", "mass", "number", "serial", "volume"))).toBe(true);
  expect(falls(order("date", "date", "serial", "number"))).toBe(true);
  expect(falls(order("text", "text", "number", "date"))).toBe(true);
  expect(falls(order("outcome", "text", "number", "mass"))).toBe(true);
  expect(falls(order("hours", "hours", "days", "number", "mass"))).toBe(true);
  expect(order("mass", "text", "volume", "date")).toEqual([0, 0, 0]);
});
