import { expect, test } from "vitest";
import { armsOf, startedCount } from "../../src/design/arm.ts";
import { doseFactor, incubationFactor, strainFactor } from "../../src/design/factor.ts";
import { hasBlocks, tiedTo } from "../../src/design/layout.ts";
import type { Tray } from "../../src/records/tray.ts";
import { trayRecord } from "../analyses/demo-records.ts";

// small layouts whose blocks and ties can be told by eye: levels that no companion level joins cannot be compared beside it
// (connectedness, Searle 1971, Linear Models, 324-325). That a fact counts where most trays bear it is common practice, no source.

const doses = [5, 10, 15, 20];
/** Trays at doses in turn, each with the facts of its place and dose. */
const trays = (count: number, of: (place: number, dose: number) => Partial<Tray>): Tray[] =>
  Array.from({ length: count }, (_, place) => {
    const inoculumMillilitres = doses[place % 4]!;
    return trayRecord({ trayId: `T${place}`, inoculumMillilitres, ...of(place, inoculumMillilitres) });
  });
const tieOf = (given: Tray[]): string | undefined => tiedTo(given, doseFactor, [strainFactor, doseFactor])?.key;

test("what changed with the dose is tied to it where it parts every dose, not where it holds some at once", () => {
  const tie = (of: (place: number, dose: number) => Partial<Tray>) => tieOf(trays(20, of));
  expect(tie((_, dose) => ({ strain: `s${dose}` }))).toBe("strain");
  expect(tie((_, dose) => ({ strain: dose < 12 ? "x" : "y" }))).toBeUndefined();
  // 5 and 10 share x, 10 and 15 share y, 15 and 20 share z: in one piece
  const chain = ["x", "xy", "yz", "z"];
  expect(tie((place) => ({ strain: chain[place % 4]!.at(place % 8 < 4 ? 0 : -1)! }))).toBeUndefined();
  expect(tie(() => ({ strain: "x" }))).toBeUndefined();
  // strains written down at one dose only are held against nothing
  const half = (place: number) => [5, 5, 9, 9][place % 4]!;
  const atOne = (place: number) => (half(place) === 5 ? { strain: place % 4 === 0 ? "x" : "y" } : {});
  expect(tie((place) => ({ inoculumMillilitres: half(place), ...atOne(place) }))).toBeUndefined();
  expect(tieOf([])).toBeUndefined();
});

test("a tie counts where half the trays bear it, and not where nearly every tray has a name of its own", () => {
  const filled = (most: number) => tieOf(trays(20, (place, dose) => (place < most ? { strain: `s${dose}` } : {})));
  expect([filled(10), filled(9)]).toEqual(["strain", undefined]);
  const names = (each: number) => tieOf(trays(24, (place, dose) => ({ strain: `${dose} ${place % (4 * each)}` })));
  expect([names(4), names(5)]).toEqual(["strain", undefined]); // 16 and 20 names for 24 trays
});

test("cooks that hold several doses are blocks where two do, and half of all", () => {
  const cooks = (mixed: number, all: number, named = 40) =>
    hasBlocks(
      trays(40, (place) => {
        const cook = place % all;
        const facts = { inoculumMillilitres: cook < mixed ? doses[Math.floor(place / all) % 4]! : 5 };
        return place < named ? { ...facts, batch: `C${10 - cook}` } : facts;
      }),
      doseFactor,
    );
  expect([cooks(4, 4), cooks(2, 4), cooks(2, 5), cooks(1, 2)]).toEqual([true, true, false, false]);
  expect(cooks(4, 4, 39)).toBe(false); // a tray without its cook lies in no block
  const mixedSecond = trays(8, (place, dose) => ({
    batch: place < 4 ? "A" : "B",
    inoculumMillilitres: place < 4 ? 5 : dose,
  }));
  expect(hasBlocks(mixedSecond, doseFactor)).toBe(false);
});

test("loads and jars are blocks as cooks are; a chamber that several cooks stand in is none", () => {
  const facts = (place: number): Partial<Tray> => ({
    load: `L${Math.floor(place / 4) % 4}`,
    jar: `J${Math.floor(place / 4) % 4}`,
    chamber: `K${Math.floor(place / 8) % 2}`,
  });
  const isBlock = (key: keyof Tray) =>
    hasBlocks(
      trays(16, (place) => ({ [key]: facts(place)[key] })),
      doseFactor,
    );
  expect([isBlock("load"), isBlock("jar"), isBlock("chamber")]).toEqual([true, true, false]);
  expect(hasBlocks([], doseFactor)).toBe(false);
});

test("arms of amounts are in the order of the amounts, of names in that of the numbers in them", () => {
  const given = [20, 5, 100, undefined].map((inoculumMillilitres, place) =>
    trayRecord({ trayId: `T${place}`, inoculumMillilitres, strain: ["s10", "s9", "s1", "s9"][place] }),
  );
  const byDose = armsOf(given, doseFactor);
  expect(byDose.map(({ level, value }) => [level, value])).toEqual([
    ["5", 5],
    ["20", 20],
    ["100", 100],
  ]);
  const close = [2.5, 10, -1, 2.25].map((shift) => trayRecord({ trayId: "T", incubationCelsius: shift }));
  expect(armsOf(close, incubationFactor).map(({ value }) => value)).toEqual([-1, 2.25, 2.5, 10]);
  const byStrain = armsOf(given, strainFactor);
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
