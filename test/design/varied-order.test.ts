import { expect, test } from "vitest";
import { variedThings } from "../../src/design/varied-things.ts";
import type { Tray } from "../../src/records/tray.ts";
import { tray } from "../costing/sample-records.ts";
import { cooks, inside, keys } from "./hand-trays.ts";

// common practice, no source: layouts typed by hand whose order a grower would tell at a glance

test("a single cook, or single day, is said to be one; blank cells are no level of their own", () => {
  const strains = (place: number) => ({ strain: place % 2 ? "x" : "y" });
  const placeOf = (trays: Tray[]) => variedThings(trays)[0]!.place;
  expect(placeOf(Array.from({ length: 6 }, (_, place) => tray({ batch: "A", ...strains(place) })))).toBe("one cook");
  const days = Array.from({ length: 6 }, (_, place) => tray({ inoculatedOn: "2026-03-02", ...strains(place) }));
  expect(placeOf(days)).toBe("one cook");
  const two = (first: (place: number) => Partial<Tray>) =>
    Array.from({ length: 12 }, (_, place) =>
      place < 6 ? tray({ batch: "A", ...first(place) }) : tray({ batch: "B", strain: "x" }),
    );
  expect(placeOf(two(strains))).toBe("whole cooks"); // one cook of two holds both
  const blanks = inside((place, cook) => (place % 2 ? { strain: cook < "C" ? "x" : "y" } : {}));
  expect(placeOf(blanks)).toBe("whole cooks");
});

test("columns of one's own that lie alike are asked about by name, whatever their order; that of a plan never", () => {
  const lamps = (first: string, second: string) =>
    inside((place) => ({
      factors: {
        [first]: place % 2 ? "on" : "off",
        [second]: place % 2 ? "low" : "high",
        planned_trial: place % 2 ? "dose 1" : "dose 2",
      },
    }));
  expect(keys(lamps("fan", "lamp"))).toEqual(["factor:fan", "factor:lamp"]);
  expect(keys(lamps("lamp", "fan"))).toEqual(["factor:fan", "factor:lamp"]);
  expect(keys(lamps("fan", "lamp"), "lamp")).toEqual(["factor:lamp", "factor:fan"]);
});

test("what the book says it is about comes first even where that is where trays stood", () => {
  const trays = inside((place) => ({ inoculumMillilitres: place % 2 ? 3 : 9, shelf: place < 3 ? "top" : "low" }));
  expect(keys(trays)).toEqual(["inoculum_ml", "shelf"]);
  expect(keys(trays, "shelf")).toEqual(["shelf", "inoculum_ml"]);
  expect(keys(trays, "Shelf")).toEqual(["shelf", "inoculum_ml"]);
});

test("twelve levels are no trend yet, and come before what a grower turns less", () => {
  const doses = (levels: number) =>
    keys(
      Array.from({ length: 2 * levels }, (_, place) =>
        tray({ batch: "A", inoculumMillilitres: 1 + (place % levels), strain: place < levels ? "x" : "y" }),
      ),
    );
  expect(doses(12)).toEqual(["inoculum_ml", "strain"]);
  expect(doses(13)).toEqual(["strain", "inoculum_ml"]);
});

test("a trend inside cooks comes before few levels that changed with the cook", () => {
  const trays = cooks.flatMap((batch) =>
    Array.from({ length: 13 }, (_, place) =>
      tray({ batch, inoculumMillilitres: 1 + place, strain: batch < "C" ? "x" : "y" }),
    ),
  );
  expect(keys(trays)).toEqual(["inoculum_ml", "strain"]);
});

test("what varied unevenly inside cooks comes before what lay evenly over whole ones, and an even trend before an uneven name", () => {
  const uneven = inside((place, cook) => ({
    strain: place === 0 ? "x" : "y",
    inoculumMillilitres: cook < "C" ? 3 : 9,
  }));
  expect(variedThings(uneven).map(({ place, balance }) => [place, balance])).toEqual([
    ["inside cooks", "uneven"],
    ["whole cooks", "even"],
  ]);
  const trend = Array.from({ length: 26 }, (_, place) =>
    tray({ batch: "A", inoculumMillilitres: 1 + (place % 13), strain: place < 8 ? "x" : "y" }),
  );
  expect(keys(trend)).toEqual(["inoculum_ml", "strain"]);
});

test("a supplement written in per cent is an amount", () => {
  const supplements = (...names: string[]) =>
    variedThings(inside((place) => ({ supplement: names[place % names.length]! })))[0]!;
  expect(supplements("none", "5 %", "10 %")).toMatchObject({ kind: "amount", levels: 3, factor: { unit: "%" } });
  expect(supplements("none", "bran")).toMatchObject({ kind: "names", levels: 2, factor: { key: "supplement" } });
});

test("who did it comes before a culture that changed with the cook, where each cook had several persons", () => {
  const trays = inside((place, cook) => ({ cultureGeneration: cook < "C" ? 1 : 2, operator: place % 2 ? "An" : "Bo" }));
  expect(keys(trays)).toEqual(["operator", "culture_generation"]);
});

test("trays without a date do not make a season, nor does a book without any", () => {
  const spring = inside((_, cook) => ({ inoculatedOn: cook < "C" ? "2026-02-03" : "2026-03-11" }));
  expect(keys([...spring, tray({ batch: "D" })])).toEqual([]);
  expect(keys(inside(() => ({})))).toEqual([]);
  expect(keys([])).toEqual([]);
});
