import { expect, test } from "vitest";
import { broken, type Measured, measureRates } from "./measure-rates.ts";
import { type Read, type Scenario, scenarios } from "./scenarios.ts";

const named = (name: string): Scenario => {
  const found = scenarios.find((scenario) => scenario.name === name);
  if (found === undefined) throw new Error(`no scenario "${name}"`);
  return found;
};

/** Books per scenario here; the bench reads 2,000 of each. */
const books = 60;

/**
 * Standard errors by which one rate may miss here. Some sixty rates are checked at once on few books, and two standard
 * errors would call one or two of them off by chance alone (Bonferroni: 0.05 / 60, one-sided, is 3.1); the bench allows two.
 */
const allowed = 3;

const trayReads: ReadonlyArray<Read> = ["good", "started", "days"];

// two doses need no studentised range, which is what takes the time
const withTwoDoses = scenarios
  .filter(({ bestAtEdge, doses }) => bestAtEdge !== true && doses.length < 4)
  .map((scenario) => ({ ...scenario, doses: [3, 9] }));

for (const scenario of withTwoDoses) {
  test(`two doses, ${scenario.name}`, () => {
    for (const read of scenario.reads.filter((one) => trayReads.includes(one))) {
      expect(broken(measureRates(scenario, read, books), allowed), read).toEqual([]);
    }
  });
}

test.each([
  "no effect, only 3 cooks",
  "no effect on average, but it differs from cook to cook",
  "jars differ, each jar shared by two of the doses",
])("three doses, %s", (name) => {
  expect(broken(measureRates(named(name), "good", 20), allowed)).toEqual([]);
});

test("what cannot be separated is not reported, whatever is asked", () => {
  const confounded = scenarios.filter(({ right }) => right === "cannot tell");
  expect(confounded.length).toBeGreaterThanOrEqual(4);
  for (const scenario of confounded) {
    for (const read of ["looks", "best dose"] as const) {
      expect(measureRates(scenario, read, 8).ours.cannotTell, `${scenario.name}, ${read}`).toBe(1);
    }
  }
});

test("a heap of trays by a t test raises the alarms that the layout explains", () => {
  const naive = (name: string, read: Read = "good"): Measured["naive"] =>
    measureRates({ ...named(name), doses: [3, 9] }, read, books).naive;
  for (const name of [
    "one jar per dose, the same in 4 cooks",
    "jars differ, 4 jars per dose in one cook",
    "season drifts, dose follows the calendar",
    "no effect on average, but it differs from cook to cook",
  ]) {
    expect(naive(name).alarm, name).toBeGreaterThan(0.12);
  }
});

test("a book looked at after every cook", () => {
  const nothing = measureRates({ ...named("no effect, doses side by side in 6 cooks"), doses: [3, 9] }, "looks", 30);
  expect(broken(nothing, allowed)).toEqual([]);
  expect(nothing.naive.alarm).toBeGreaterThan(0.06);
  const differing = { ...named("no effect on average, but it differs from cook to cook"), doses: [3, 9] };
  expect(broken(measureRates(differing, "looks", 30), allowed)).toEqual([]);
});

test("an optimum beyond the doses tried is not reported as one inside; one inside is found", () => {
  const beyond = measureRates(named("gain levels off beyond the doses tried"), "best dose", 8);
  expect(broken(beyond, allowed)).toEqual([]);
  const inside = measureRates(named("gain with its best among the doses tried"), "best dose", 8);
  expect(broken(inside, allowed)).toEqual([]);
  expect(inside.ours.alarm).toBeGreaterThan(0.8);
});

test("a true gain is shown in nearly every book, losses or not", () => {
  const gain = measureRates({ ...named("true gain, doses side by side in 6 cooks"), doses: [3, 9] }, "good", books);
  expect(gain.ours.alarm).toBeGreaterThan(0.95);
  const risky = { ...named("risky dose: more per good tray, the same per started tray"), doses: [3, 9] };
  // losses go with the dose, so good trays alone settle nothing; per started tray the dose is no better
  expect(measureRates(risky, "good", books).ours.alarm).toBeLessThan(0.1);
  expect(measureRates(risky, "started", books).ours.alarm).toBeLessThan(0.1);
});
