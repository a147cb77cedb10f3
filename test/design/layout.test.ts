import { expect, test } from "vitest";
import { armsOf, startedCount } from "../../src/design/arm.ts";
import { doseFactor, incubationFactor, strainFactor } from "../../src/design/factor.ts";
import { readLayout } from "../../src/design/layout.ts";
import type { Tray } from "../../src/records/tray.ts";
import { trayRecord } from "../analyses/demo-records.ts";

// small layouts whose unit, blocks and ties can be told by eye: what was treated as a whole is the unit (Hurlbert 1984,
// Ecological Monographs 54(2):187-211); levels that no companion level joins cannot be compared beside it (connectedness,
// Searle 1971, Linear Models, 324-325). That a fact counts where most trays bear it is common practice, no source.

const doses = [5, 10, 15, 20];
/** Trays at doses in turn, each with the facts of its place and dose. */
const trays = (count: number, of: (place: number, dose: number) => Partial<Tray>): Tray[] =>
  Array.from({ length: count }, (_, place) => {
    const inoculumMillilitres = doses[place % 4]!;
    return trayRecord({ trayId: `T${place}`, inoculumMillilitres, ...of(place, inoculumMillilitres) });
  });
const layoutOf = (given: Tray[]) => {
  const { unit, block, blockLevels, ties } = readLayout(given, doseFactor);
  return {
    unit: unit === "tray" ? unit : unit.key,
    block: block?.key,
    blockLevels,
    ties: ties.map(({ factor, extent, levels }) => [factor.key, extent, levels]),
  };
};

test("a jar that several trays share at one dose is what was treated; a jar for each tray is no group", () => {
  const jars = (filled: number) => trays(20, (place, dose) => (place < filled ? { jar: `J${dose}-${place % 8}` } : {}));
  expect(layoutOf(jars(20)).unit).toBe("jar");
  expect(layoutOf(jars(16)).unit).toBe("jar"); // on eight trays in ten
  expect(layoutOf(jars(15)).unit).toBe("tray");
  expect(layoutOf(trays(20, (place) => ({ jar: `J${place}` }))).unit).toBe("tray");
  expect(layoutOf(trays(20, (place) => ({ jar: `J${place % 3}` }))).unit).toBe("tray"); // several doses from a jar
  // two doses are enough to see it by
  const two = (jar: string) => [
    ...Array.from({ length: 3 }, (_, place) => trayRecord({ trayId: `A${place}`, inoculumMillilitres: 5, jar: "J1" })),
    ...Array.from({ length: 3 }, (_, place) => trayRecord({ trayId: `B${place}`, inoculumMillilitres: 9, jar })),
  ];
  expect(layoutOf(two("J2"))).toMatchObject({ unit: "jar", ties: [["jar", "fully", 2]] });
  expect(layoutOf(two("J1"))).toMatchObject({ unit: "tray", ties: [] });
});

test("of several groups treated as a whole, the one with the fewest members is the unit", () => {
  const given = (load: (dose: number) => string, jar: (place: number, dose: number) => string) =>
    layoutOf(trays(20, (place, dose) => ({ load: load(dose), jar: jar(place, dose) }))).unit;
  const perDose = (dose: number) => `${dose}`;
  const two = (place: number, dose: number) => `${dose} ${place % 8}`;
  expect(given(perDose, two)).toBe("load");
  expect(layoutOf(trays(20, (place, dose) => ({ load: two(place, dose), jar: perDose(dose) }))).unit).toBe("jar");
  expect(layoutOf(trays(20, (_, dose) => ({ jar: `J${dose}`, inoculumMillilitres: 5 }))).unit).toBe("tray");
});

test("what changed with the dose is tied to it: fully where it parts every dose, partly where it holds some", () => {
  const ties = (of: (place: number, dose: number) => Partial<Tray>, count = 20) => layoutOf(trays(count, of)).ties;
  expect(ties((_, dose) => ({ strain: `s${dose}` }))).toEqual([["strain", "fully", 4]]);
  expect(ties((_, dose) => ({ strain: dose < 12 ? "x" : "y" }))).toEqual([["strain", "partly", 2]]);
  // 5 and 10 share x, 10 and 15 share y, 15 and 20 share z: in one piece
  const chain = ["x", "xy", "yz", "z"];
  const linked = (place: number) => ({ strain: chain[place % 4]!.at(place % 8 < 4 ? 0 : -1)! });
  expect(ties(linked)).toEqual([]);
  expect(ties(() => ({ strain: "x" }))).toEqual([]);
  // strains written down at one dose only are held against nothing
  const half = (place: number) => [5, 5, 9, 9][place % 4]!;
  const atOne = (place: number) => (half(place) === 5 ? { strain: place % 4 === 0 ? "x" : "y" } : {});
  expect(ties((place) => ({ inoculumMillilitres: half(place), ...atOne(place) }))).toEqual([]);
});

test("a tie counts where half the trays bear it, and not where nearly every tray has a name of its own", () => {
  const filled = (most: number) =>
    layoutOf(trays(20, (place, dose) => (place < most ? { strain: `s${dose}` } : {}))).ties.length;
  expect(filled(10)).toBe(1);
  expect(filled(9)).toBe(0);
  const names = (each: number) =>
    layoutOf(trays(24, (place, dose) => ({ strain: `${dose} ${place % (4 * each)}` }))).ties.length;
  expect(names(4)).toBe(1); // 16 names for 24 trays
  expect(names(5)).toBe(0); // 20
});

test("cooks that hold several doses are blocks where two do, and half of all; their names come in the order of numbers", () => {
  const cooks = (mixed: number, all: number, named = 40) =>
    layoutOf(
      trays(40, (place) => {
        const cook = place % all;
        const facts = { inoculumMillilitres: cook < mixed ? doses[Math.floor(place / all) % 4]! : 5 };
        return place < named ? { ...facts, batch: `C${10 - cook}` } : facts;
      }),
    );
  expect(cooks(4, 4)).toMatchObject({ block: "batch", blockLevels: ["C7", "C8", "C9", "C10"] });
  expect(cooks(2, 4).block).toBe("batch");
  expect(cooks(2, 5)).toMatchObject({ block: undefined, blockLevels: [] });
  expect(cooks(1, 2).block).toBeUndefined();
  const mixedSecond = trays(8, (place, dose) => ({
    batch: place < 4 ? "A" : "B",
    inoculumMillilitres: place < 4 ? 5 : dose,
  }));
  expect(layoutOf(mixedSecond).block).toBeUndefined();
  expect(cooks(4, 4, 39).block).toBeUndefined(); // a tray without its cook lies in no block
});

test("cooks come before the loads and jars within them; a chamber that several cooks stand in is no block", () => {
  const facts = (place: number): Partial<Tray> => ({
    batch: `C${Math.floor(place / 8) % 2}`,
    load: `L${Math.floor(place / 4) % 4}`,
    jar: `J${Math.floor(place / 4) % 4}`,
    chamber: `K${Math.floor(place / 8) % 2}`,
  });
  const blockOf = (...known: (keyof Tray)[]) =>
    layoutOf(trays(16, (place) => Object.fromEntries(known.map((key) => [key, facts(place)[key]])))).block;
  expect(blockOf("chamber", "jar", "load", "batch")).toBe("batch");
  expect(blockOf("jar", "load")).toBe("load");
  expect(blockOf("jar")).toBe("jar");
  expect(blockOf("chamber")).toBeUndefined();
});

test("a layout of no tray has neither arms nor blocks", () => {
  const none = readLayout([], doseFactor);
  expect(none).toMatchObject({ arms: [], unit: "tray", block: undefined, ties: [] });
});

test("arms of amounts are in the order of the amounts, of names in that of the numbers in them", () => {
  const given = [20, 5, 100, undefined].map((inoculumMillilitres, place) =>
    trayRecord({ trayId: `T${place}`, inoculumMillilitres, strain: ["s10", "s9", "s1", "s9"][place] }),
  );
  const byDose = armsOf(given, doseFactor);
  expect(byDose.arms.map(({ level, value }) => [level, value])).toEqual([
    ["5", 5],
    ["20", 20],
    ["100", 100],
  ]);
  expect(byDose.unknown.map(({ trayId }) => trayId)).toEqual(["T3"]);
  const close = [2.5, 10, -1, 2.25].map((shift) => trayRecord({ trayId: "T", incubationCelsius: shift }));
  expect(armsOf(close, incubationFactor).arms.map(({ value }) => value)).toEqual([-1, 2.25, 2.5, 10]);
  const byStrain = armsOf(given, strainFactor).arms;
  expect(byStrain.map((arm) => [arm.level, "value" in arm, arm.trays.length])).toEqual([
    ["s1", false, 1],
    ["s9", false, 2],
    ["s10", false, 1],
  ]);
});

test("a pool counts as its trays", () => {
  expect(startedCount([])).toBe(0);
  expect(startedCount([trayRecord({ trayId: "A" }), trayRecord({ trayId: "B", traysInPool: 3 })])).toBe(4);
});
