import { describe, expect, test } from "vitest";
import { plausibilityRules } from "../../src/cleaning/plausibility/index.ts";
import type { Tray } from "../../src/records/tray.ts";
import { harvestOf, trayOf } from "./book-of.ts";

/** One cell in an otherwise plain sheet: what its tray holds then, and the rule and severity in the log ("" for none). */
interface CellCase {
  column: string;
  cell: string;
  /** other cells of the column, which decide how it is read */
  others?: string[];
  settings?: string;
  tray: Partial<Tray>;
  rule: string;
  severity?: string;
}

const freshOf = (
  cell: string,
  freshGrams: number | undefined,
  rule: string,
  more: Partial<CellCase> = {},
): CellCase => ({
  column: "Fresh wt (g)",
  cell,
  tray: { freshGrams, outcome: "good" },
  rule,
  ...more,
});

const cases: CellCase[] = [
  // masses with their units
  freshOf("2 lb 3 oz", 992.233309375, "compound-amount"),
  freshOf("2lb3oz", 992.233309375, "compound-amount"),
  freshOf("35oz", 992.233309375, "unit-in-cell"),
  freshOf("1.5 lb", 680.388555, "unit-in-cell"),
  // temperatures of one column
  { column: "Fruiting temp", cell: "72F", tray: { fruitingCelsius: 22.2222222222 }, rule: "unit-in-cell" },
  { column: "Fruiting temp", cell: "22C", tray: { fruitingCelsius: 22 }, rule: "unit-in-cell" },
  {
    column: "Fruiting temp",
    cell: "72 deg",
    others: ["70", "71"],
    tray: { fruitingCelsius: 22.2222222222 },
    rule: "unit-of-column",
  },
  {
    column: "Fruiting temp",
    cell: "72 deg",
    others: ["22", "22C"],
    tray: { fruitingCelsius: 22.2222222222 },
    rule: "mixed-temperatures",
    severity: "warning",
  },
  {
    column: "Fruiting temp",
    cell: "22",
    others: ["72F", "72 deg"],
    tray: { fruitingCelsius: 22 },
    rule: "mixed-temperatures",
    severity: "warning",
  },
  {
    column: "Fruiting temp",
    cell: "38",
    tray: { fruitingCelsius: undefined },
    rule: "bare-number",
    severity: "warning",
  },
  {
    column: "Fruiting temp",
    cell: "38",
    settings: "temperature_unit,F",
    tray: { fruitingCelsius: 3.33333333333 },
    rule: "unit-of-column",
  },
  {
    column: "Fruiting temp",
    cell: "150 C",
    tray: { fruitingCelsius: undefined },
    rule: "impossible-value",
    severity: "error",
  },
  // approximate, ranges, censored
  freshOf("~45", 45, "approximate", { severity: "warning" }),
  freshOf("45ish", 45, "approximate", { severity: "warning" }),
  freshOf("40-50", undefined, "bounds", {
    severity: "warning",
    tray: { freshGrams: undefined, bounds: { fresh_g: { low: 40, high: 50 } }, outcome: "good" },
  }),
  freshOf(">50", undefined, "bounds", {
    severity: "warning",
    tray: { freshGrams: undefined, bounds: { fresh_g: { low: 50 } } },
  }),
  freshOf("<1", undefined, "bounds", {
    severity: "warning",
    tray: { freshGrams: undefined, bounds: { fresh_g: { high: 1 } } },
  }),
  // four different nothings
  freshOf("n/a", undefined, "missing-word", { tray: { freshGrams: undefined, outcome: "growing" } }),
  freshOf("-", undefined, "missing-word", { tray: { freshGrams: undefined, outcome: "growing" } }),
  freshOf("", undefined, "", { tray: { freshGrams: undefined, outcome: "growing" } }),
  freshOf("0", 0, "", { tray: { freshGrams: 0, outcome: "failed" } }),
  // words for what became of it
  freshOf("contam", undefined, "outcome-word", { tray: { freshGrams: undefined, outcome: "contaminated" } }),
  freshOf("green", undefined, "outcome-word", { tray: { freshGrams: undefined, outcome: "contaminated" } }),
  freshOf("tossed", undefined, "outcome-word", { tray: { freshGrams: undefined, outcome: "discarded" } }),
  freshOf("mold?", undefined, "outcome-queried", {
    severity: "warning",
    tray: { freshGrams: undefined, outcome: "contaminated" },
  }),
  // dates
  {
    column: "Inoculated",
    cell: "3/4/26",
    tray: { inoculatedOn: undefined },
    rule: "day-or-month",
    severity: "warning",
  },
  {
    column: "Inoculated",
    cell: "3/4/26",
    others: ["13/4/26"],
    tray: { inoculatedOn: "2026-04-03" },
    rule: "date-order",
  },
  {
    column: "Inoculated",
    cell: "3/4/26",
    others: ["4/13/26"],
    tray: { inoculatedOn: "2026-03-04" },
    rule: "date-order",
  },
  {
    column: "Inoculated",
    cell: "3/4/26",
    settings: "date_order,month first",
    tray: { inoculatedOn: "2026-03-04" },
    rule: "date-order",
  },
  {
    column: "Inoculated",
    cell: "45800",
    others: ["2025-05-20"],
    tray: { inoculatedOn: "2025-05-23" },
    rule: "serial-date",
  },
  {
    column: "Inoculated",
    cell: "45800",
    others: ["2029-05-20"],
    tray: { inoculatedOn: "2029-05-24" },
    rule: "serial-date",
  },
  {
    column: "Inoculated",
    cell: "45800",
    settings: "serial_dates,1904",
    tray: { inoculatedOn: "2029-05-24" },
    rule: "serial-date",
  },
  {
    column: "Inoculated",
    cell: "2026-02-30",
    tray: { inoculatedOn: undefined },
    rule: "impossible-date",
    severity: "error",
  },
  {
    column: "Inoculated",
    cell: "3 Mar",
    others: ["2026-03-01"],
    tray: { inoculatedOn: "2026-03-03" },
    rule: "no-year",
  },
  // decimal and thousands marks, by column
  freshOf("1,5", 1.5, "decimal-comma"),
  freshOf("1.234,5", 1234.5, "decimal-comma"),
  freshOf("1,234.5", 1234.5, "thousands-mark"),
  freshOf("1,234", 1234, "decimal-or-thousands"),
  freshOf("8,234", undefined, "decimal-or-thousands", { severity: "warning", tray: { freshGrams: undefined } }),
  freshOf("1,234", 1234, "decimal-or-thousands", { others: ["12.5"] }),
  freshOf("1,234", 1.234, "decimal-or-thousands", { others: ["12,5"] }),
  freshOf("1,234", 1234, "decimal-or-thousands", { settings: "decimal_mark,point" }),
  freshOf("8,234", undefined, "decimal-or-thousands", {
    others: ["12,5", "13.5"],
    severity: "warning",
    tray: { freshGrams: undefined },
  }),
  // pools
  freshOf("2 trays 310g", 310, "pooled", {
    severity: "note",
    tray: { freshGrams: 310, traysInPool: 2, outcome: "good" },
  }),
  // volumes
  { column: "LC", cell: "10cc", tray: { inoculumMillilitres: 10 }, rule: "unit-in-cell" },
  { column: "LC volume", cell: "10 mL", tray: { inoculumMillilitres: 10 }, rule: "unit-in-cell" },
  { column: "LC volume", cell: "2 tsp", tray: { inoculumMillilitres: 9.8578431875 }, rule: "unit-in-cell" },
  {
    column: "LC volume",
    cell: "1 syringe",
    tray: { inoculumMillilitres: undefined },
    rule: "syringe-size",
    severity: "warning",
  },
  {
    column: "LC volume",
    cell: "1 syringe",
    settings: "syringe_ml,12",
    tray: { inoculumMillilitres: 12 },
    rule: "unit-in-cell",
  },
  {
    column: "LC volume",
    cell: "2 oz",
    tray: { inoculumMillilitres: undefined },
    rule: "wrong-unit",
    severity: "error",
  },
  {
    column: "LC volume",
    cell: "5 g",
    tray: { inoculumMillilitres: undefined },
    rule: "wrong-unit",
    severity: "error",
  },
  {
    column: "LC volume",
    cell: "5",
    settings: "volume_unit,tsp",
    tray: { inoculumMillilitres: 24.64460796875 },
    rule: "unit-of-column",
  },
  // what spreadsheets leave behind
  freshOf("#REF!", undefined, "spreadsheet-error", { severity: "error", tray: { freshGrams: undefined } }),
  freshOf("1.2E3", 1200, "scientific-notation"),
  freshOf("310  ", 310, "surrounding-space"),
  freshOf("-5", undefined, "impossible-value", { severity: "error", tray: { freshGrams: undefined } }),
  freshOf("310 g incl. tub", undefined, "container-included", { severity: "warning", tray: { freshGrams: undefined } }),
  {
    column: "Days to colonise",
    cell: ">14",
    tray: { daysToColonise: undefined, bounds: { days_to_colonise: { low: 14 } } },
    rule: "bounds",
    severity: "warning",
  },
  { column: "Days to colonise", cell: "2 wk 3 d", tray: { daysToColonise: 17 }, rule: "compound-amount" },
];

const plausibilityCodes = plausibilityRules.map(({ code }) => code);

const quoted = (cell: string): string => `"${cell.replaceAll('"', '""')}"`;

describe("cells of a grower's sheet", () => {
  test.each(cases)(
    "$cell under $column beside $others with $settings",
    async ({ column, cell, others = [], settings, tray, rule, severity }) => {
      const rows = [cell, ...others].map((text, index) => `T${index},${quoted(text)}`);
      const book = await harvestOf([`tray_id,${quoted(column)}`, ...rows].join("\n"), settings);
      const read = trayOf(book, "T0");
      for (const [property, value] of Object.entries(tray))
        expect(read[property as keyof Tray], property).toEqual(value);
      const said = book.issues.filter(
        (issue) => issue.tray === "T0" && issue.column === column && !plausibilityCodes.includes(issue.rule),
      );
      expect(said.map((issue) => issue.rule)).toEqual(rule === "" ? [] : [rule]);
      const [entry] = said;
      if (entry === undefined) return;
      expect(entry).toMatchObject({ file: "harvests/one.csv", row: 2, raw: cell, severity: severity ?? "change" });
      const flagged = entry.severity === "warning" || entry.severity === "error";
      expect(read.flags.includes(rule)).toBe(flagged);
      if (flagged) expect(entry.action).not.toBe("");
    },
  );

  test("a cell that needs one answer names its key, and the answer resolves every such cell", async () => {
    const text = "tray_id,Inoculated,Picked\nA,3/4/26,5/6/26\nB,4/4/26,6/6/26\nC,4/5/26,\n";
    const open = await harvestOf(text);
    const asked = open.issues.filter(({ severity }) => severity === "warning");
    expect(new Set(asked.map(({ setting }) => setting))).toEqual(new Set(["date_order"]));
    expect(asked[0]!.action).toContain("date_order");
    const answered = await harvestOf(text, "date_order,day first");
    expect(answered.issues.filter(({ severity }) => severity === "warning")).toEqual([]);
    expect(answered.trays.map(({ inoculatedOn }) => inoculatedOn)).toEqual(["2026-04-03", "2026-04-04", "2026-05-04"]);
  });
});
