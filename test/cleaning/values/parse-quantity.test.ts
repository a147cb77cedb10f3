import { describe, expect, test } from "vitest";
import { type ReadingCase, readCase, readingText } from "../reading-text.ts";

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
