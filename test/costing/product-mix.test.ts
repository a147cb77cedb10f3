import fc from "fast-check";
import { expect, test } from "vitest";
import { bestProductMix, type MakeInput, type MakePlan } from "../../src/costing/products/product-mix.ts";
import { assertClose } from "../agreement.ts";

const certain = (grams: number) => ({ low: grams, mid: grams, high: grams });
const base: MakeInput = {
  products: [],
  freshGrams: certain(0),
  driedGrams: 0,
  dryingRatio: 10,
  dryingCostPerKgFresh: 0,
  labourHours: 100,
};
const plan = (input: MakeInput, at?: "low" | "mid" | "high"): MakePlan => {
  const found = bestProductMix(input, at);
  if (found.kind === "cannot-tell") throw new Error(found.reason);
  return found;
};
const worth = (found: MakePlan, limit: string): number =>
  found.limits.find((each) => each.limit === limit)!.shadowPrice;

test("doors and windows: Hillier and Lieberman, Introduction to Operations Research, 3.1 (from memory): 2 and 6 units earn 36, an hour of each plant 0, 1.5 and 1", () => {
  // plant 1: x <= 4; plant 2: 2y <= 12; plant 3: 3x + 2y <= 18; earns 3x + 5y
  const found = plan({
    ...base,
    labourHours: 18,
    driedGrams: 1e6,
    products: [
      { name: "doors", madeOf: "dried", gramsNeeded: 1, earns: 3, hours: 3, maxUnits: 4 },
      { name: "windows", madeOf: "dried", gramsNeeded: 1, earns: 5, hours: 2, maxUnits: 6 },
    ],
  });
  expect(found.units.map(({ units }) => units)).toEqual([2, 6]);
  assertClose(found.contributionMargin, 36, 1e-9);
  assertClose(worth(found, "hours of work"), 1, 1e-9);
  // one more window takes 2 hours: 5 - 2 x 1 = 3, twice the 1.5 that an hour of plant 2 is worth
  assertClose(worth(found, "most units of windows"), 3, 1e-9);
  assertClose(worth(found, "most units of doors"), 0, 1e-9);
  assertClose(worth(found, "dried grams"), 0, 1e-9);
});

test("fresh at 30 a kg against dried at 260, ratio 9, drying 1.20: fresh while it sells, the rest dried; arithmetic", () => {
  const input: MakeInput = {
    ...base,
    freshGrams: { low: 1000, mid: 2800, high: 4600 },
    dryingRatio: 9,
    dryingCostPerKgFresh: 1.2,
    products: [
      { name: "fresh", madeOf: "fresh", gramsNeeded: 1000, earns: 30, hours: 0, maxUnits: 1 },
      { name: "dried", madeOf: "dried", gramsNeeded: 100, earns: 26, hours: 0 },
    ],
  };
  const found = plan(input);
  expect(found.units.map(({ units }) => units)).toEqual([1, 2]);
  assertClose(found.contributionMargin, 30 + 2 * 26 - 1.8 * 1.2, 1e-9);
  assertClose(found.freshDried, 1800, 1e-6);
  assertClose(worth(found, "fresh grams"), (260 / 9 - 1.2) / 1000, 1e-8);
  assertClose(worth(found, "most units of fresh"), 30 - 27.68889, 1e-4);
  expect([plan(input, "low").units[1]!.units, plan(input, "high").units[1]!.units]).toEqual([0, 4]);
});

test("trays are started only while they pay, and a place is worth what a tray leaves", () => {
  const input: MakeInput = {
    ...base,
    products: [{ name: "dried", madeOf: "dried", gramsNeeded: 40, earns: 12, hours: 0.1 }],
    trays: { places: 5.9, freshGrams: certain(400), cost: 5, hours: 0.5 },
  };
  const found = plan(input);
  expect([found.traysStarted, found.units[0]!.units]).toEqual([5, 5]);
  assertClose(found.contributionMargin, 5 * 7, 1e-9);
  assertClose(worth(found, "tray places"), 7, 1e-9);
  assertClose(found.hoursUsed, 3, 1e-9);
  expect(plan({ ...input, trays: { ...input.trays!, cost: 13 } }).traysStarted).toBe(0);
});

const someProduct = fc.record({
  name: fc.constant("p"),
  madeOf: fc.constantFrom("fresh" as const, "dried" as const),
  gramsNeeded: fc.integer({ min: 5, max: 60 }),
  earns: fc.integer({ min: -200, max: 2000 }).map((cents) => cents / 100),
  hours: fc.integer({ min: 0, max: 6 }).map((tenths) => tenths / 10),
  maxUnits: fc.integer({ min: 0, max: 4 }),
});

test("no whole mix of three products, drying and trays earns more: every mix tried", () => {
  fc.assert(
    fc.property(
      fc.array(someProduct, { minLength: 3, maxLength: 3 }),
      fc.integer({ min: 0, max: 300 }),
      fc.integer({ min: 0, max: 80 }),
      fc.integer({ min: 0, max: 30 }),
      fc.integer({ min: 0, max: 3 }),
      fc.integer({ min: 0, max: 900 }),
      (products, fresh, driedGrams, hoursTenths, places, trayCents) => {
        const input: MakeInput = {
          products,
          freshGrams: certain(fresh),
          driedGrams,
          dryingRatio: 4,
          dryingCostPerKgFresh: 2,
          labourHours: hoursTenths / 10,
          trays: { places, freshGrams: certain(110), cost: trayCents / 100, hours: 0.3 },
        };
        let best = 0;
        const counts = products.map(({ maxUnits }) => Array.from({ length: maxUnits + 1 }, (_, units) => units));
        for (let trays = 0; trays <= places; trays++)
          for (const a of counts[0]!)
            for (const b of counts[1]!)
              for (const c of counts[2]!) {
                const mix = [a, b, c];
                const sum = (of: (index: number) => number): number =>
                  mix.reduce((total, units, index) => total + units * of(index), 0);
                const grams = (form: string): number =>
                  sum((index) => (products[index]!.madeOf === form ? products[index]!.gramsNeeded : 0));
                const toDry = Math.max(0, grams("dried") - driedGrams) * 4;
                const fits =
                  grams("fresh") + toDry <= fresh + 110 * trays + 1e-9 &&
                  sum((index) => products[index]!.hours) + 0.3 * trays <= hoursTenths / 10 + 1e-9;
                if (fits)
                  best = Math.max(
                    best,
                    sum((index) => products[index]!.earns) - (toDry / 1000) * 2 - (trays * trayCents) / 100,
                  );
              }
        const found = plan(input);
        assertClose(found.contributionMargin, best, 1e-6);
        for (const { used, available, shadowPrice, gainInWholeUnits } of found.limits) {
          expect(used).toBeLessThanOrEqual(available + 1e-6);
          expect(Math.min(shadowPrice, gainInWholeUnits)).toBeGreaterThanOrEqual(0);
        }
      },
    ),
    { numRuns: 150 },
  );
});

test("a product that takes no work is made although other limits do not bind", () => {
  const free = { name: "dried", madeOf: "dried" as const, gramsNeeded: 50, earns: 5, hours: 0 };
  expect(plan({ ...base, driedGrams: 1000, freshGrams: certain(1000), products: [free] }).units[0]!.units).toBe(22);
});

test("nothing to make, nothing to make it of, and wrong numbers", () => {
  expect(bestProductMix(base)).toEqual({ kind: "cannot-tell", reason: "there are no products" });
  const one = { name: "dried", madeOf: "dried" as const, gramsNeeded: 50, earns: 5, hours: 0 };
  expect(plan({ ...base, products: [one] }).contributionMargin).toBe(0);
  expect(plan({ ...base, driedGrams: 500, products: [{ ...one, earns: -1 }] }).units[0]!.units).toBe(0);
  expect(() => bestProductMix({ ...base, products: [{ ...one, gramsNeeded: 0 }] })).toThrow(
    "gramsNeeded of dried must be a number above 0",
  );
  expect(() => bestProductMix({ ...base, products: [one], freshGrams: { low: 2, mid: 1, high: 3 } })).toThrow(
    "freshGrams must rise from low to high; received 2, 1, 3",
  );
  expect(() => bestProductMix({ ...base, products: [one], labourHours: -1 })).toThrow("labourHours");
});
