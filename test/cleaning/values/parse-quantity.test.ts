import { describe, expect, test } from "vitest";
import { plainNumber } from "../../../src/cleaning/values/parse-quantity.ts";
import { sizeCanBeMeant } from "../../../src/cleaning/values/read-amount.ts";
import { type ReadingCase, readCase, readingText, rulesOfCase } from "../reading-text.ts";

const nothingAgreed = { bareUnit: "" };

/** What people type, and what it says. Unit factors: 16 CFR 500.19 and NIST Handbook 44, appendix C (from memory). */
const cases: ReadingCase[] = [
  ["310", "mass", "310"],
  ["310.5", "mass", "310.5"],
  ["2 lb 3 oz", "mass", "992.233309375"],
  ["2lb3oz", "mass", "992.233309375"],
  ["2 lbs, 3 oz.", "mass", "992.233309375"],
  ["35oz", "mass", "992.233309375"],
  ["1.5 lb", "mass", "680.388555"],
  ["1 lb", "mass", "453.59237"],
  ["1 oz", "mass", "28.349523125"],
  ["0,129 kg", "mass", "129"],
  ["500 mg", "mass", "0.5"],
  ["72F", "temperature", "22.2222222222"],
  ["64.4 F", "temperature", "18"],
  ["250 F", "temperature", "121.111111111"],
  ["71.6 °F", "temperature", "22"],
  ["22C", "temperature", "22"],
  ["295.15 K", "temperature", "22"],
  ["72 deg", "temperature", "72 or 22.2222222222: temperature_unit", nothingAgreed],
  ["22", "temperature", "22 or -5.55555555556: temperature_unit", nothingAgreed],
  ["72", "temperature", "22.2222222222", { bareUnit: "°F" }],
  ["~45", "mass", "about 45"],
  ["45ish", "mass", "about 45"],
  ["about 45", "mass", "about 45"],
  ["40-50", "mass", "40 to 50"],
  ["10 to 12", "days", "10 to 12"],
  [">50", "mass", "50 to"],
  ["<1", "mass", "to 1"],
  ["n/a", "mass", "missing: not applicable"],
  ["-", "mass", "missing: dash"],
  ["", "mass", "missing: blank"],
  ["   ", "mass", "missing: blank"],
  ["0", "mass", "0"],
  ["not weighed", "mass", "missing: not weighed"],
  ["?", "mass", "missing: unknown"],
  ["contam", "mass", "contaminated"],
  ["green", "mass", "contaminated"],
  ["tossed", "mass", "discarded"],
  ["mold?", "mass", "contaminated?"],
  ["1,5", "mass", "1.5"],
  ["1.234,5", "mass", "1234.5"],
  ["1,234.5", "mass", "1234.5"],
  ["1,234", "mass", "1.234 or 1234: decimal_mark"],
  ["1,234", "mass", "1234", { decimalMark: "." }],
  ["1,234", "mass", "1.234", { decimalMark: "," }],
  ["1.234", "mass", "1.234", { decimalMark: "." }],
  ["1.234", "mass", "1234", { decimalMark: "," }],
  ["2 trays 310g", "mass", "2 trays 310"],
  ["10cc", "volume", "10"],
  ["10 mL", "volume", "10"],
  ["2 tsp", "volume", "9.857843187500"],
  ["1 tbsp", "volume", "14.78676478125"],
  ["1 cup", "volume", "236.5882365"],
  ["1 cup", "volume", "250", { cupMillilitres: 250 }],
  ["1 quart", "volume", "946.352946"],
  ["1 gallon", "volume", "3785.411784"],
  ["1 syringe", "volume", ": syringe_ml"],
  ["1 syringe", "volume", "10", { syringeMillilitres: 10 }],
  ["2 fl oz", "volume", "59.147059125"],
  ["2 oz", "volume", "unreadable"],
  ["5 g", "volume", "unreadable"],
  ["10 ml", "mass", "unreadable"],
  ["#REF!", "mass", "unreadable"],
  ["1.2E3", "mass", "1200"],
  // too near to 0 or too large for any amount; IEEE 754 doubles hold 1e-320 only in part and 1e-400 as 0
  ["1e-320", "number", "unreadable"],
  ["1e-400", "mass", "unreadable"],
  ["0.00000000000001", "number", "unreadable"],
  ["1e99", "number", "unreadable"],
  ["1e400", "number", "unreadable"],
  ["0e5", "mass", "0"],
  ["0.000001", "mass", "0.000001"],
  ["310 ", "mass", "310"],
  ["2 wk 3 d", "days", "17"],
  ["10 days", "days", "10"],
  ["1 in", "length", "25.4", { bareUnit: "mm" }],
  ["12 %", "percent", "0.12"],
  ["12.9", "percent", "0.129"],
  ["0.129", "percent", "0.00129 or 0.129: percent_style"],
  ["0.129", "percent", "0.129", { percentStyle: "fraction" }],
  ["0.129", "percent", "0.00129", { percentStyle: "percent" }],
  ["-5", "mass", "-5"],
  ["−5", "mass", "-5"],
  ["310 g on the old scale", "mass", "unreadable"],
  ["10", "volume", "10 or 295.735295625: volume_unit", nothingAgreed],
  ["5", "mass", "5 or 141.747615625: mass_unit", nothingAgreed],
  ["0", "mass", "0", nothingAgreed],
];

describe("cells as growers type them", () => {
  test.each(cases.map(([cell, kind, says, conventions]) => [cell, kind, says, conventions] as const))(
    "%j in a column of %s: %s",
    (cell, kind, says, conventions) => {
      expect(readingText(readCase([cell, kind, says, conventions]))).toBe(says.replace(/(\.\d*?)0+$/, "$1"));
    },
  );

  test("a cell that is read as it stands says nothing", () => {
    expect(readCase(["310.5", "mass", ""]).changes).toEqual([]);
  });

  test("every other cell says why", () => {
    for (const row of cases) {
      if (/^\d+(\.\d)?$/.test(row[0]) && row[3] === undefined) continue;
      const { changes, kind } = readCase(row);
      if (kind === "value" && changes.length === 0) continue;
      expect(changes.length, row[0]).toBeGreaterThan(0);
      for (const { rule, reason } of changes) {
        expect(rule).toMatch(/^[a-z]+(-[a-z]+)*$/);
        expect(reason).not.toBe("");
      }
    }
  });
});

describe("a number in plain digits is read at once", () => {
  test.each([
    ["0", 0],
    ["310", 310],
    ["007", 7],
    ["310.5", 310.5],
    ["0.234", 0.234],
    ["1234.567", 1234.567],
    ["1.2345", 1.2345],
    ["1.23", 1.23],
    ["123456789012345", 123456789012345],
    ["1234567890.12345", 1234567890.12345],
    // more digits than a double holds, by their count alone
    ["1234567890123456", -1],
    ["12345678901.12345", -1],
    // left to the rules
    ["", -1],
    ["1.234", -1],
    ["12.345", -1],
    ["123.456", -1],
    [".5", -1],
    ["5.", -1],
    ["1.2.3", -1],
    ["1,5", -1],
    ["-5", -1],
    ["5 g", -1],
    ["1e3", -1],
    ["5:", -1],
    ["5/", -1],
  ])("%j: %d", (text, number) => {
    expect(plainNumber(text, false)).toBe(number);
  });

  test("a point before three digits is decimal where the column says so", () => {
    expect(["1.234", "12.345", "123.456", "0.234"].map((text) => plainNumber(text, true))).toEqual([
      1.234, 12.345, 123.456, 0.234,
    ]);
  });
});

test("no amount is nearer to 0 than a thousand-millionth, or above ten thousand million million", () => {
  const can = (text: string): boolean => sizeCanBeMeant(Number(text), text);
  expect(["0", "0.00", "0e5", "1e-9", "-1e-9", "1e16", "-1e16", "5"].filter((text) => !can(text))).toEqual([]);
  expect(["9.9e-10", "-9.9e-10", "1.1e16", "-1.1e16", "1e-400", "10e-400", "0.3e-400", "1e400"].filter(can)).toEqual(
    [],
  );
});

test("a text of more than 120 characters is prose", () => {
  const padded = (spaces: number): string => `${" ".repeat(spaces)}310 g`;
  expect(readingText(readCase([padded(115), "mass", ""]))).toBe("310");
  expect(readCase([padded(116), "mass", ""])).toMatchObject({
    kind: "unreadable",
    changes: [{ rule: "not-a-number" }],
  });
});

/** What is said of a number without its unit, by what the column agrees on. */
test.each<[...ReadingCase, string]>([
  ["5", "mass", "5 or 141.747615625: mass_unit", nothingAgreed, "bare-number"],
  ["5", "volume", "5 or 147.8676478125: volume_unit", nothingAgreed, "bare-number"],
  ["0", "temperature", "0 or -17.7777777778: temperature_unit", nothingAgreed, "bare-number"],
  ["0", "volume", "0", nothingAgreed, ""],
  ["5", "days", "5", nothingAgreed, ""],
  ["5", "mass", "5", { bareUnit: "g" }, ""],
  ["5", "mass", "141.747615625", { bareUnit: "oz" }, "unit-of-column"],
  ["0", "mass", "0", { bareUnit: "oz" }, "unit-of-column"],
  ["2", "volume", "473.176473", { bareUnit: "cup" }, "unit-in-cell"],
  ["0", "volume", "0", { bareUnit: "cup" }, "unit-of-column"],
  ["2", "volume", ": syringe_ml", { bareUnit: "syringe" }, "syringe-size"],
  ["2", "volume", "20", { bareUnit: "syringe", syringeMillilitres: 10 }, "unit-in-cell"],
  ["0.5", "percent", "0.005", { bareUnit: "%" }, ""],
  ["12", "percent", "12", { percentStyle: "fraction" }, ""],
  ["12", "percent", "0.12", { percentStyle: "percent" }, ""],
])("%j in a column of %s: %s with %j, by %j", (cell, kind, says, conventions, rules) => {
  expect(readingText(readCase([cell, kind, says, conventions]))).toBe(says);
  expect(rulesOfCase([cell, kind, says, conventions]).join(" ")).toBe(rules);
});

test("a unit of another kind says what would be right", () => {
  const expected = (cell: string, kind: ReadingCase[1]) => {
    const reading = readCase([cell, kind, ""]);
    return reading.kind === "unreadable" ? [reading.expected, reading.changes[0]!.reason] : [];
  };
  expect(expected("2 oz", "volume")[0]).toContain("fl oz");
  expect(expected("2 g", "volume")).toEqual([
    "a volume with its unit, such as 10 mL",
    "g measures mass, the column volume: one does not give the other without a density",
  ]);
  expect(expected("2 ml", "mass")[1]).toContain("without a density");
  expect(expected("2 oz", "temperature")).toEqual([
    "a temperature with its unit, such as 18 °C",
    "oz does not measure what the column holds",
  ]);
  expect(expected("2 cm", "volume")[1]).toBe("cm does not measure what the column holds");
  expect(expected("2 ml", "temperature")[1]).toBe("mL does not measure what the column holds");
  expect(expected("2 cm", "mass")[1]).toBe("cm does not measure what the column holds");
});

test("amounts in falling units are added up, and the log says of which", () => {
  const said = (cell: string, kind: ReadingCase[1]): string => {
    const reading = readCase([cell, kind, ""]);
    return [readingText(reading), ...reading.changes.map(({ reason }) => reason)].join(": ");
  };
  expect(said("2 lb 3 oz", "mass")).toBe("992.233309375: added up from lb and oz");
  expect(said("1 lb 0 oz", "mass")).toBe("453.59237: added up from lb and oz");
  expect(said("-2 lb 3 oz", "mass")).toContain("unreadable: several numbers that do not make one amount");
  // degrees are no parts of one another, and cups are of no one size
  expect(said("22 °C 5 °F", "temperature")).toContain("unreadable: several numbers");
  expect(said("1 gallon 2 cups", "volume")).toContain("unreadable: several numbers");
  expect(said("1e-12", "mass")).toContain("too near to 0");
  expect(said("1e17", "mass")).toContain("too large");
});
