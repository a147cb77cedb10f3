import { expect, test } from "vitest";
import { variedThings } from "../../src/design/varied-things.ts";
import type { Tray } from "../../src/records/tray.ts";

// common practice, no source: layouts typed by hand whose main question a grower would name at a glance

let made = 0;
const tray = (facts: Partial<Tray>): Tray => ({
  trayId: `T${made++}`,
  outcome: "good",
  traysInPool: 1,
  flushes: [],
  factors: {},
  bounds: {},
  sources: [],
  flags: [],
  ...facts,
});

const cooks = ["A", "B", "C", "D"];
const inside = (of: (place: number, cook: string) => Partial<Tray>): Tray[] =>
  cooks.flatMap((batch) => Array.from({ length: 6 }, (_, place) => tray({ batch, ...of(place, batch) })));

const keys = (trays: Tray[], wanted?: string) => variedThings(trays, wanted).map(({ factor }) => factor.key);

test("a dose inside cooks comes before a strain that changed from cook to cook", () => {
  const trays = inside((place, cook) => ({ inoculumMillilitres: place % 2 ? 3 : 9, strain: cook < "C" ? "x" : "y" }));
  expect(keys(trays)).toEqual(["inoculum_ml", "strain"]);
  expect(variedThings(trays)[1]!.place).toBe("whole cooks");
});

test("an even column of one's own comes before an uneven dose; what the book says it is about comes first", () => {
  const trays = inside((place, cook) => ({
    inoculumMillilitres: cook === "A" && place === 0 ? 3 : 9,
    factors: { filter: place % 2 ? "disc" : "tape" },
  }));
  expect(keys(trays)[0]).toBe("factor:filter");
  expect(keys(trays, "inoculum_ml")[0]).toBe("inoculum_ml");
});

test("what was the same on every tray, weights that scatter by a gram, and names of single trays were not varied", () => {
  const trays = inside((place, cook) => ({
    strain: "x",
    substrateWetGrams: 900 + place,
    factors: { remark: `${cook}, tray ${place}`, empty: "" },
  }));
  expect(keys(trays)).toEqual([]);
});

test("a number typed in a column of one's own is an amount", () => {
  const trays = inside((place) => ({ factors: { "holes per bag": String(2 + (place % 3)) } }));
  expect(variedThings(trays)[0]).toMatchObject({ kind: "amount", levels: 3, place: "inside cooks", balanced: true });
});

test("seasons and years are made from dates and come last", () => {
  const trays = inside((place, cook) => ({
    inoculatedOn: cook < "C" ? "2025-12-03" : "2026-04-11",
    inoculumMillilitres: place % 2 ? 3 : 9,
  }));
  expect(keys(trays)).toEqual(["inoculum_ml", "season", "year"]);
  expect(variedThings(trays)[1]!.factor.level(trays[0]!)).toBe("2026 Dec to Feb");
});

test("where trays stood comes after what they were given, and is the question where nothing else was", () => {
  const shelves = (facts: Partial<Tray>) =>
    inside((place, cook) => ({
      shelf: `S${place % 3}`,
      ...facts,
      ...(facts.strain ? { strain: cook < "C" ? "x" : "y" } : {}),
    }));
  expect(keys(shelves({}))).toEqual(["shelf"]);
  expect(keys(shelves({ strain: "either" }))).toEqual(["strain", "shelf"]);
});

test("cooks of two months are of one season, whatever the calendar says", () => {
  const trays = inside((_, cook) => ({ inoculatedOn: cook < "C" ? "2026-02-03" : "2026-03-11" }));
  expect(keys(trays)).toEqual([]);
});
