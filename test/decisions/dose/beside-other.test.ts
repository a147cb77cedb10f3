import { expect, test } from "vitest";
import type { DoseTray } from "../../../src/decisions/dose/index.ts";
import { lossDraws } from "../../../src/decisions/dose/loss-draws.ts";
import { testedDoses } from "../../../src/decisions/dose/tested-doses.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { decided } from "./dose-books.ts";

/** Four cells of six: 3 mL with fine alone, 9 mL with coarse alone, 6 mL with both. Only the grade does anything. */
function halfTied(seed: number, gain: number): DoseTray[] {
  const random = seededRandom(seed);
  return ["A", "B", "C", "D"].flatMap((cook) => {
    const offset = 3 * random.normal();
    return (
      [
        [3, "fine"],
        [6, "fine"],
        [6, "coarse"],
        [9, "coarse"],
      ] as const
    ).flatMap(([dose, other]) =>
      [1, 2].map(() => ({
        ...{ dose, other, cook, lost: false },
        grams: 32 + offset + (other === "coarse" ? gain : 0) + 3 * random.normal(),
      })),
    );
  });
}

// independent simulation: the dose does nothing in it
test("a gain of what was varied beside the dose is not the dose's", () => {
  const seeds = Array.from({ length: 40 }, (_, k) => k + 1);
  const saidOf = (isTaken: boolean): number =>
    seeds.filter((seed) => {
      const trays = halfTied(seed, 8).map((tray) => (isTaken ? tray : { ...tray, other: undefined }));
      return decided({ trays, settings: { draws: 1000 } }).notRuledOut.ruledOut.length > 0;
    }).length;
  expect(saidOf(true)).toBeLessThanOrEqual(10);
  expect(saidOf(false)).toBeGreaterThanOrEqual(36);
});

test("losses of what was varied beside the dose are not the dose's", () => {
  // of 20 trays a cell, fine loses 2 and coarse 10, whatever the dose
  const trays = (
    [
      [3, "fine", 2],
      [6, "fine", 2],
      [6, "coarse", 10],
      [9, "coarse", 10],
    ] as const
  ).flatMap(([dose, other, lost]) =>
    Array.from({ length: 20 }, (_, k) => ({
      dose,
      other,
      cook: "A",
      lost: k < lost,
      grams: k < lost ? undefined : 30,
    })),
  );
  const risesBy = (some: ReadonlyArray<DoseTray>): number => {
    const { share } = lossDraws(testedDoses(some, 1), [3, 9], 2000, seededRandom(3));
    const mean = (place: number) =>
      share.slice(place * 2000, (place + 1) * 2000).reduce((sum, one) => sum + one, 0) / 2000;
    return mean(1) - mean(0);
  };
  expect(Math.abs(risesBy(trays))).toBeLessThan(0.12);
  expect(risesBy(trays.map((tray) => ({ ...tray, other: undefined })))).toBeGreaterThan(0.35);
});
