import { expect, test } from "vitest";
import { isRate } from "../../src/cleaning/columns/amounts-not-of-trays.ts";
import { meaningsOfHeader } from "../../src/cleaning/columns/match-columns.ts";
import { harvestOf, trayOf } from "./book-of.ts";

test("columns headed with names that objects have of themselves are columns like any other", async () => {
  const book = await harvestOf(
    "tray_id,inoculum_ml,fresh_g,dry_g,outcome,__proto__,constructor,toString\n" +
      "T1,5,200,20,good,a,x,p\nT2,5,210,21,good,A,y,q\nT2,5,210,21,good,A,y,q\nT3,5,220,22,good,,z,r\n",
  );
  expect(book.trays).toHaveLength(3);
  const { factors } = trayOf(book, "T2");
  expect(Object.entries(factors)).toEqual([
    ["__proto__", expect.stringMatching(/^a$/i)],
    ["constructor", "y"],
    ["toString", "q"],
  ]);
  expect(Object.keys(trayOf(book, "T3").factors)).toEqual(["constructor", "toString"]);
});

test.each([
  ["mL per kg", true],
  ["ml je kg", true],
  ["ml al kg", true],
  ["ml na kg", true],
  ["mL za kg", true],
  ["Dry weight each g", false],
  ["Dry g per tray", false],
])("an amount for another amount is known by its word in every language: %s", (header, is) => {
  expect(isRate(header)).toBe(is);
});

test('grams of each tray name no harvest, whatever the language of "per"', () => {
  for (const header of ["g/tray", "g per tray", "g je Schale", "g na tackę", "g al vassoio"]) {
    expect(meaningsOfHeader(header), header).toEqual([]);
  }
  expect(meaningsOfHeader("Dry g per tray").map(({ field }) => field)).toContain("dry_g");
});

// common practice, no source
test.each([
  ["Fresh g (all flushes)", "fresh_g g"],
  ["Total fresh g (3 flushes)", "fresh_g g"],
  ["Dry g (8 h at 45 C)", "dry_g"],
  ["Supplement (g bran)", "supplement_g g"],
  ["Yield (g dry)", "dry_g g"],
  ["Weizenkleie (g)", "supplement_g g"],
  ["Ile suplementu (g)", "supplement_g g"],
  ["Trocken ges. g", "dry_g g"],
  ["2nd flush (g fresh)", "fresh_g g 2"],
  ["Fresh g (target)", ""],
  ["Trocken (verkauft)", ""],
  ["☐ harvested", "harvested_on, fresh_g"],
  ["T1 (big)", ""],
  ["S1 (1. Ernte)", ""],
])("a remark in brackets, or what a unit is of, hides no column: %s", (header, says) => {
  const found = meaningsOfHeader(header).map(({ field, unit, flush = "" }) => `${field} ${unit} ${flush}`.trim());
  expect(found.join(", ")).toBe(says);
});
