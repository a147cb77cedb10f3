import { expect, test } from "vitest";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { growTrays, type Truth } from "./grow-trays.ts";
import { nothingHappens } from "./scenarios.ts";
import { blockedInCooks, jarsPerDose } from "./trial-plans.ts";

const grow = (places: Parameters<typeof growTrays>[0], truth: Partial<Truth>, seed = 1) =>
  growTrays(places, { ...nothingHappens, ...truth }, seededRandom(seed));

const mean = (values: ReadonlyArray<number>) => values.reduce((sum, value) => sum + value, 0) / values.length;
const variance = (values: ReadonlyArray<number>) => {
  const centre = mean(values);
  return values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - 1);
};

/** Good trays' dry weights by a key. */
function weightsBy(trays: ReadonlyArray<Tray>, keyOf: (tray: Tray) => string): Map<string, number[]> {
  const groups = new Map<string, number[]>();
  for (const tray of trays) {
    if (tray.dryGrams === undefined) continue;
    const own = groups.get(keyOf(tray)) ?? [];
    groups.set(keyOf(tray), own);
    own.push(tray.dryGrams);
  }
  return groups;
}

/** A variance estimated from so many independent values lies within four of its standard errors of the true one. */
function expectVariance(estimate: number, truly: number, degrees: number): void {
  expect(Math.abs(estimate - truly)).toBeLessThan(4 * truly * Math.sqrt(2 / degrees));
}

test("scatter of trays, of doses within cooks and of cooks is what was asked for", () => {
  const cooks = 800;
  const trays = grow(blockedInCooks(cooks, [3, 9], 4), { cookSd: 2, cookDoseSd: 1.5, traySd: () => 3 });
  const cells = [...weightsBy(trays, ({ batch, inoculumMillilitres }) => `${batch} ${inoculumMillilitres}`).values()];
  expectVariance(mean(cells.map(variance)), 9, cooks * 6);
  const cellMeans = new Map(
    [...weightsBy(trays, ({ batch, inoculumMillilitres }) => `${batch} ${inoculumMillilitres}`)].map(([key, own]) => [
      key,
      mean(own),
    ]),
  );
  const pairs = Array.from({ length: cooks }, (_, cook) => [
    cellMeans.get(`C${cook + 1} 3`)!,
    cellMeans.get(`C${cook + 1} 9`)!,
  ]);
  // what two doses of a cook share drops out of their difference and stays in their mean
  const ofCell = 1.5 ** 2 + 9 / 4;
  expectVariance(variance(pairs.map(([low, high]) => high! - low!)), 2 * ofCell, cooks - 1);
  expectVariance(variance(pairs.map(([low, high]) => (low! + high!) / 2)), 4 + ofCell / 2, cooks - 1);
});

test("jars of one cook differ as asked, and trays of one jar share its level", () => {
  const trays = grow(jarsPerDose(400, [5], 2, 3), { cookSd: 0, jarSd: 2, traySd: () => 1 });
  const jars = [...weightsBy(trays, ({ jar }) => jar!).values()];
  expect(jars).toHaveLength(800);
  expectVariance(mean(jars.map(variance)), 1, 1600);
  expectVariance(variance(jars.map(mean)), 4 + 1 / 3, 799);
});

test("dose moves the mean, the scatter, the days and the losses as asked", () => {
  const trays = grow(blockedInCooks(400, [3, 9], 5), {
    cookSd: 0,
    grams: (dose) => 14 + dose,
    traySd: (dose) => dose / 3,
    days: (dose) => 16 - 0.4 * dose,
    daysCookSd: 0,
    loss: (dose) => dose / 30,
  });
  for (const dose of [3, 9]) {
    const started = trays.filter((tray) => tray.inoculumMillilitres === dose);
    const good = started.filter(({ outcome }) => outcome === "good");
    const grams = good.map(({ dryGrams }) => dryGrams!);
    expect(Math.abs(mean(grams) - 14 - dose)).toBeLessThan((4 * dose) / 3 / Math.sqrt(grams.length));
    expectVariance(variance(grams), (dose / 3) ** 2, grams.length - 1);
    const days = good.map(
      ({ inoculatedOn, colonisedOn }) => (Date.parse(colonisedOn!) - Date.parse(inoculatedOn!)) / 864e5,
    );
    expect(Math.abs(mean(days) - (16 - 0.4 * dose))).toBeLessThan((4 * 1.25) / Math.sqrt(days.length));
    const lost = 1 - good.length / started.length;
    expect(Math.abs(lost - dose / 30)).toBeLessThan(4 * Math.sqrt((0.3 * 0.7) / started.length));
  }
});

test("a season adds its grams cook by cook and leaves the average alone", () => {
  const cooks = 40;
  const trays = grow(blockedInCooks(cooks, [3], 200), { cookSd: 0, driftGrams: 0.5, traySd: () => 1 });
  const means = [...weightsBy(trays, ({ inoculatedOn }) => inoculatedOn!)].sort().map(([, own]) => mean(own));
  expect(means).toHaveLength(cooks);
  expect(mean(means)).toBeCloseTo(20, 1);
  expect((means.at(-1)! - means[0]!) / (cooks - 1)).toBeCloseTo(0.5, 1);
});

test("one seed, one book; another seed, another", () => {
  const places = blockedInCooks(3, [3, 9], 3);
  expect(grow(places, {}, 5)).toEqual(grow(places, {}, 5));
  expect(grow(places, {}, 5)).not.toEqual(grow(places, {}, 6));
});
