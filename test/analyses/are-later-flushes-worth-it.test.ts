import { expect, test } from "vitest";
import { areLaterFlushesWorthIt } from "../../analyses/process/are-later-flushes-worth-it.ts";
import type { Outcome } from "../../src/analysis.ts";
import type { Tray } from "../../src/records/tray.ts";
import { type SeededRandom, seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { line, product } from "../costing/sample-records.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";

const day = (index: number) => new Date(Date.UTC(2026, 0, 5 + index)).toISOString().slice(0, 10);

/** Cooks of ten trays: first flush of 24 g after 40 days (0.6 g a day, half of a place's days), a second after 20 more. */
function book(random: SeededRandom, cooks: number, secondGrams: number): Tray[] {
  return Array.from({ length: cooks }, (_, cook) =>
    Array.from({ length: 10 }, (_, copy) => {
      const first = 24 + 3 * random.normal();
      const second = Math.max(0, secondGrams + 2 * random.normal());
      const start = 70 * cook;
      const later = copy < 6;
      return trayRecord({
        trayId: `T${cook}-${copy}`,
        batch: `C${cook}`,
        inoculatedOn: day(start),
        fruitingOn: day(start + 18),
        harvestedOn: day(start + (later ? 60 : 40)),
        dryGrams: first + (later ? second : 0),
        flushes: [
          { number: 1, dryGrams: first, harvestedOn: day(start + 40) },
          ...(later ? [{ number: 2, dryGrams: second, harvestedOn: day(start + 60) }] : []),
        ],
      });
    }),
  ).flat();
}

const text = (outcome: Outcome): string =>
  (outcome.kind === "answer" ? outcome.sentence : outcome.reason)
    .map((part) => (typeof part === "string" ? part : "#"))
    .join("");

test("a second flush that gives as much a day as a new tray: reported as different in no more than the nominal share", () => {
  const random = seededRandom(51);
  const books = 200;
  let [reported, held] = [0, 0];
  for (let run = 0; run < books; run++) {
    const outcome = areLaterFlushesWorthIt.run(trialOfTrays(book(random, 5, 12)));
    if (outcome.kind !== "answer") throw new Error(text(outcome));
    const [rates] = outcome.estimates;
    if (rates!.p! < 0.05) reported++;
    if (rates!.low! <= 0 && rates!.high! >= 0) held++;
  }
  const twoErrors = 2 * Math.sqrt((0.05 * 0.95) / books);
  expect(reported / books).toBeLessThanOrEqual(0.05 + twoErrors);
  expect(held / books).toBeGreaterThanOrEqual(0.95 - twoErrors);
});

test("a poor second flush is not worth its place by weight; a rich one is", () => {
  const poor = areLaterFlushesWorthIt.run(trialOfTrays(book(seededRandom(52), 6, 4)));
  expect(text(poor)).toContain("not worth their place");
  // true rates: 4 g in 20 days against 24 g in 40
  expect(poor.estimates[0]!.low).toBeLessThan(4 / 20 - 24 / 40);
  expect(poor.estimates[0]!.high).toBeGreaterThan(4 / 20 - 24 / 40);
  expect(text(areLaterFlushesWorthIt.run(trialOfTrays(book(seededRandom(53), 6, 24))))).toContain(
    "Later flushes are worth their place",
  );
});

test("where starting a tray is dear, a second flush that is poorer by weight pays in money", () => {
  const trial = {
    ...trialOfTrays(book(seededRandom(54), 6, 9)),
    costLines: [
      line({ item: "grain, bags and work", packPrice: 6 }),
      line({ item: "shelf", per: "shelf day", packPrice: 0.02, kind: "space", packUnit: "day" }),
    ],
    products: [product({ currentPrice: 25, grams: 50 })],
  };
  const outcome = areLaterFlushesWorthIt.run(trial);
  expect(text(outcome)).toContain("Later flushes are worth their place");
  const money = outcome.estimates.find(({ unit }) => unit.startsWith("money"))!;
  // by hand: 0.5 a gram; 9 g in 20 days is 0.225 a day, a new tray (24 × 0.5 - 6) / 40 = 0.15 a day
  expect(money.low).toBeLessThan(0.075);
  expect(money.high).toBeGreaterThan(0.075);
  const grams = outcome.estimates.find(({ unit }) => unit.startsWith("g "))!;
  expect(grams.high).toBeLessThan(0);
});

test("lost trays make the new tray in that place worth less", () => {
  const trays = book(seededRandom(55), 6, 12);
  const withLosses = trays.map((tray, index) =>
    index % 10 > 6
      ? trayRecord({
          trayId: tray.trayId,
          batch: tray.batch!,
          inoculatedOn: tray.inoculatedOn!,
          outcome: "contaminated",
        })
      : tray,
  );
  const before = areLaterFlushesWorthIt.run(trialOfTrays(trays)).estimates[0]!;
  const after = areLaterFlushesWorthIt.run(trialOfTrays(withLosses)).estimates[0]!;
  expect(after.value).toBeGreaterThan(before.value + 0.1);
});

test("pickings weighed fresh and dried together are reported in fresh grams", () => {
  const trays = book(seededRandom(56), 5, 6).map((tray) => ({
    ...tray,
    flushes: tray.flushes!.map(({ dryGrams, ...flush }) => ({ ...flush, freshGrams: 9 * dryGrams! })),
  }));
  const outcome = areLaterFlushesWorthIt.run(trialOfTrays(trays));
  expect(outcome.estimates[0]!.unit).toBe("g fresh/shelf day");
});

const one = book(seededRandom(1), 1, 10);
test.each([
  ["no tray", []],
  ["one tray", one.slice(0, 1)],
  ["one flush each", one.map((tray) => ({ ...tray, flushes: tray.flushes!.slice(0, 1) }))],
  ["no dates", one.map((tray) => ({ ...tray, flushes: tray.flushes!.map(({ harvestedOn: _, ...flush }) => flush) }))],
  ["no inoculation date", one.map(({ inoculatedOn: _, ...tray }) => tray)],
  ["all lost", one.map((tray) => trayRecord({ trayId: tray.trayId, outcome: "failed" }))],
  [
    "all on one day",
    one.map((tray) => ({ ...tray, flushes: tray.flushes!.map((flush) => ({ ...flush, harvestedOn: day(40) })) })),
  ],
])("%s: cannot tell", (_, trays) => {
  expect(text(areLaterFlushesWorthIt.run(trialOfTrays(trays)))).toMatch(
    /^Cannot tell whether later flushes are worth it/,
  );
});
