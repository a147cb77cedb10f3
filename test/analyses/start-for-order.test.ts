import { expect, test } from "vitest";
import { chanceByLoads, orderDraws } from "../../analyses/planning/order-draws.ts";
import { startForOrder } from "../../analyses/planning/start-for-order.ts";
import { growLoad, yearTrays } from "../../data-samples/first-year.ts";
import { dateOfDay, dayNumber } from "../../src/measures/day-number.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trialOfTrays } from "./demo-records.ts";
import { measureOrders, recordsOn } from "./measure-year.ts";

const on = dayNumber("2026-09-28");
const trial = trialOfTrays(recordsOn(yearTrays(26), on));
const order = { grams: 700, weight: "dry" as const, by: "2026-12-18", sure: 0.9, on: dateOfDay(on) };

const planned = (wanted: Partial<typeof order>) => {
  const plan = startForOrder(trial, { ...order, ...wanted });
  if (plan.kind !== "order") throw new Error(plan.reason);
  return plan;
};

test("on simulated growers an order said to be 90 % sure is met about as often", () => {
  const { promised, told, met, loads } = measureOrders(15, { pastCooks: 14, grams: 900, sure: 0.9 });
  expect(promised).toBeGreaterThan(10);
  expect(loads).toBeGreaterThan(1);
  expect(told).toBeGreaterThanOrEqual(0.9);
  // three standard errors below; the bench places more orders
  expect(met).toBeGreaterThan(0.9 - 3 * Math.sqrt((0.9 * 0.1) / promised));
});

test("whole loads, the last in time to be picked and dried; more grams, more certainty or less time never take fewer", () => {
  const plan = planned({});
  expect(plan.starts.length).toBeGreaterThan(0);
  expect(dayNumber(plan.starts.at(-1)!) + plan.pickedBy + plan.dryingDays).toBeLessThanOrEqual(dayNumber(order.by));
  expect(dayNumber(plan.starts[0]!)).toBeGreaterThanOrEqual(on);
  expect(plan.chances[plan.starts.length]).toBeGreaterThanOrEqual(0.9);
  expect(plan.chances[plan.starts.length - 1]).toBeLessThan(0.9);
  const counts = [500, 600, 700].map((grams) => planned({ grams }).starts.length);
  expect([...counts].sort((a, b) => a - b)).toEqual(counts);
  expect(planned({ sure: 0.6 }).starts.length).toBeLessThanOrEqual(plan.starts.length);
});

test("trays to come are like those of the usual dose, of the one most used, or of all where doses had as many", () => {
  const year = recordsOn(yearTrays(8), dayNumber("2027-01-01"));
  const even = trialOfTrays(
    year.slice(0, 150).map((tray, index) => ({ ...tray, inoculumMillilitres: index % 2 === 0 ? 3 : 9 })),
  );
  const keptOf = (one: typeof even) => {
    const plan = startForOrder(one, { ...order, on: "2027-01-01", by: "2027-06-01" });
    return plan.kind === "order" ? plan.basis.kept : plan.reason;
  };
  expect(keptOf(even)).not.toContain("mL");
  expect(keptOf({ ...even, settings: { ...even.settings, usualDose: "9 mL" } })).toContain("9 mL (your usual dose)");
  const more = { ...even, trays: even.trays.slice(1) };
  expect(keptOf(more)).toContain("9 mL (the dose used most)");
});

test("where cooks had one dose or another, a cook to come gives what either gave", () => {
  const cookOf = ({ batch }: (typeof trial.trays)[number]): number => Number(batch!.slice(1));
  // six cooks of either dose, none of them growing; one more is enough
  const trays = trial.trays.slice(0, 72).map((tray, index) => {
    const isLow = cookOf(tray) % 2 === 0;
    const dry = tray.dryGrams === undefined ? {} : { dryGrams: (isLow ? 20 : 40) + (index % 3) };
    return { ...tray, ...dry, inoculumMillilitres: isLow ? 3 : 9 };
  });
  const plan = startForOrder(trialOfTrays(trays), { ...order, grams: 60, sure: 0.8 });
  if (plan.kind !== "order") throw new Error(plan.reason);
  expect([plan.starts.length, plan.basis.kept]).toEqual([1, " of grey oyster"]);
  // of six trays: 120 g or less, 240 g or less
  expect(plan.grams.low).toBeLessThan(130);
  expect(plan.grams.high).toBeGreaterThan(200);
  // weights that are all alike do not refuse: trays to come are supposed to differ as trays do
  const alike = trays.map((tray) => (tray.dryGrams === undefined ? tray : { ...tray, dryGrams: 30 }));
  expect(startForOrder(trialOfTrays(alike), order)).toMatchObject({ kind: "order", basis: { mean: 30 } });
});

test("cooks of the book's own size are started, whatever a load is supposed to be; loads where they are written", () => {
  const pairs = trial.trays.map((tray) => ({ ...tray, batch: `D${Math.floor(Number(tray.batch!.slice(1)) / 2)}` }));
  const startOf = (trays: typeof trial.trays) => {
    const plan = startForOrder(trialOfTrays(trays), order);
    return plan.kind === "order" ? [plan.traysPerCook, plan.isOneLoad] : plan.reason;
  };
  expect(startOf(trial.trays)).toEqual([6, true]);
  expect(startOf(pairs)).toEqual([12, false]);
  expect(startOf(pairs.map((tray) => ({ ...tray, load: tray.batch! })))).toEqual([12, true]);
});

test("what grows is counted in, and may be enough alone", () => {
  const plan = planned({ grams: 200 });
  expect(plan.starts).toEqual([]);
  expect(plan.growing).toBeGreaterThan(10);
  expect(plan.growingGrams).toBeGreaterThan(200);
});

test("an order that cannot be met says so instead of promising", () => {
  expect(planned({ grams: 20_000 }).isEnough).toBe(false);
  expect(planned({ by: "2026-10-10" })).toMatchObject({ isEnough: false, starts: [] });
  expect(startForOrder(trialOfTrays([]), order)).toMatchObject({ kind: "cannot-tell" });
  const young = trialOfTrays(recordsOn(growLoad({ cook: "C1", day: on, doses: [6, 6] }, seededRandom(1)), on + 3));
  expect(startForOrder(young, order)).toMatchObject({ kind: "cannot-tell" });
});

test("without scatter, loss or doubt the draws are arithmetic", () => {
  const sure = {
    mean: 30,
    traySd: 0,
    cookSd: 0,
    trays: 1e6,
    cooks: 1e6,
    losses: { limits: () => ({ lower: 0, upper: 0 }), together: 0, draw: () => ({ share: 0, likeness: 0 }) },
    dayLikeness: 0,
  };
  const draws = orderDraws(
    sure,
    [{ trays: 4, inTime: 1 }],
    [
      { trays: 6, inTime: 1 },
      { trays: 6, inTime: 0 },
    ],
    { draws: 20, seed: 1 },
  );
  for (const sums of draws) {
    expect(sums[0]).toBeCloseTo(120, 6);
    expect(sums[1]).toBeCloseTo(300, 6);
    expect(sums[2]).toBeCloseTo(300, 6);
  }
  expect(chanceByLoads(draws, 200)).toEqual([0, 1, 1]);
});
