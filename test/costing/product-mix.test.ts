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
const fresh = (grams: number) => ({ fresh: grams, dried: 0 });
const dried = (grams: number) => ({ fresh: 0, dried: grams });
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
      { name: "doors", grams: dried(1), earns: 3, hours: 3, maxUnits: 4 },
      { name: "windows", grams: dried(1), earns: 5, hours: 2, maxUnits: 6 },
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

test("only what limits this plan is shown as a limit, with what is used of it", () => {
  const shown = (input: Partial<MakeInput>) =>
    plan({ ...base, driedGrams: 300, products: [{ name: "bag", grams: dried(50), earns: 3, hours: 1 }], ...input })
      .limits;
  const trays = { shelfPlaces: 4, startsPerPlace: 0.5, freshGrams: certain(0), cost: 1, hours: 0 };
  const names = (input: Partial<MakeInput>) => shown(input).map(({ limit }) => limit);
  expect(names({})).toEqual(["fresh grams", "dried grams", "hours of work"]);
  expect(names({ trays })).toEqual(["fresh grams", "dried grams", "hours of work", "shelf places"]);
  expect(names({ trays: { ...trays, startsPerPlace: 0 } })).toEqual(["fresh grams", "dried grams", "hours of work"]);
  expect(shown({}).map(({ used, available, isBinding }) => [used, available, isBinding])).toEqual([
    [0, 0, true], // one more gram could be dried and sold
    [300, 300, true],
    [6, 100, false],
  ]);
});

test("fresh at 30 a kg against dried at 260, ratio 9, drying 1.20: fresh while it sells, the rest dried; arithmetic", () => {
  const input: MakeInput = {
    ...base,
    freshGrams: { low: 1000, mid: 2800, high: 4600 },
    dryingRatio: 9,
    dryingCostPerKgFresh: 1.2,
    products: [
      { name: "fresh", grams: fresh(1000), earns: 30, hours: 0, maxUnits: 1 },
      { name: "dried", grams: dried(100), earns: 26, hours: 0 },
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

test("trays are started only while they pay, and a place is worth what a tray brings", () => {
  const input: MakeInput = {
    ...base,
    products: [{ name: "dried", grams: dried(40), earns: 12, hours: 0.1 }],
    trays: { shelfPlaces: 5.9, startsPerPlace: 1, freshGrams: certain(400), cost: 5, hours: 0.5 },
  };
  const found = plan(input);
  expect([found.traysStarted, found.units[0]!.units]).toEqual([5, 5]);
  assertClose(found.contributionMargin, 5 * 7, 1e-9);
  assertClose(worth(found, "shelf places"), 7, 1e-9);
  assertClose(found.hoursUsed, 3, 1e-9);
  expect(plan({ ...input, trays: { ...input.trays!, cost: 13 } }).traysStarted).toBe(0);
  // a place filled one and a half times in the month is worth as many trays
  const quick = plan({ ...input, trays: { ...input.trays!, shelfPlaces: 4, startsPerPlace: 1.5 } });
  assertClose(worth(quick, "shelf places"), 1.5 * 7, 1e-9);
  expect(quick.limits.find(({ limit }) => limit === "shelf places")).toMatchObject({ used: 4, isBinding: true });
  expect(quick.limits.find(({ limit }) => limit === "hours of work")).toMatchObject({ isBinding: false });
});

const someProduct = fc.record({
  name: fc.constant("p"),
  grams: fc
    .tuple(fc.integer({ min: 5, max: 60 }), fc.boolean())
    .map(([grams, isFresh]) => (isFresh ? fresh(grams) : dried(grams))),
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
      (products, freshGrams, driedGrams, hoursTenths, places, trayCents) => {
        const input: MakeInput = {
          products,
          freshGrams: certain(freshGrams),
          driedGrams,
          dryingRatio: 4,
          dryingCostPerKgFresh: 2,
          labourHours: hoursTenths / 10,
          trays: {
            shelfPlaces: places,
            startsPerPlace: 1,
            freshGrams: certain(110),
            cost: trayCents / 100,
            hours: 0.3,
          },
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
                const grams = (form: "fresh" | "dried"): number => sum((index) => products[index]!.grams[form]);
                const toDry = Math.max(0, grams("dried") - driedGrams) * 4;
                const fits =
                  grams("fresh") + toDry <= freshGrams + 110 * trays + 1e-9 &&
                  sum((index) => products[index]!.hours) + 0.3 * trays <= hoursTenths / 10 + 1e-9;
                if (fits)
                  best = Math.max(
                    best,
                    sum((index) => products[index]!.earns) - (toDry / 1000) * 2 - (trays * trayCents) / 100,
                  );
              }
        const found = plan(input);
        assertClose(found.contributionMargin, best, 1e-6);
        expect(found.notSearched).toBe(0);
        for (const { used, available, shadowPrice } of found.limits) {
          expect(used).toBeLessThanOrEqual(available + 1e-6);
          expect(shadowPrice).toBeGreaterThanOrEqual(0);
        }
      },
    ),
  );
});

test("a product that takes no work is made although other limits do not bind", () => {
  const free = { name: "dried", grams: dried(50), earns: 5, hours: 0 };
  expect(plan({ ...base, driedGrams: 1000, freshGrams: certain(1000), products: [free] }).units[0]!.units).toBe(22);
});

test("nothing to make, nothing to make it of, and wrong numbers", () => {
  expect(bestProductMix(base)).toEqual({ kind: "cannot-tell", reason: "there are no products" });
  const one = { name: "dried", grams: dried(50), earns: 5, hours: 0 };
  expect(plan({ ...base, products: [one] }).contributionMargin).toBe(0);
  expect(plan({ ...base, driedGrams: 500, products: [{ ...one, earns: -1 }] }).units[0]!.units).toBe(0);
  expect(() => bestProductMix({ ...base, products: [{ ...one, grams: dried(0) }] })).toThrow(
    "dried needs a limit, grams or hours",
  );
  expect(() => bestProductMix({ ...base, products: [one], freshGrams: { low: 2, mid: 1, high: 3 } })).toThrow(
    "freshGrams must rise from low to high; received 2, 1, 3",
  );
  expect(() => bestProductMix({ ...base, products: [one], labourHours: -1 })).toThrow("labourHours");
});

test("three to forty products alike but for cents end after a set number of branches, with the best found so far", () => {
  for (const count of [3, 5, 10, 40]) {
    const input: MakeInput = {
      ...base,
      dryingRatio: 9.3,
      labourHours: 29.7,
      products: Array.from({ length: count }, (_, index) => ({
        name: `slices ${index}`,
        grams: dried(51.5 + index / 7),
        earns: 19.83 + index * 0.01,
        hours: 0.067 + index / 1000,
      })),
      trays: { shelfPlaces: 40, startsPerPlace: 0.53, freshGrams: certain(212.7), cost: 3.17, hours: 0.31 },
    };
    const found = plan(input);
    // what is not searched is under a tenth of what is brought
    expect(found.notSearched).toBeLessThan(found.contributionMargin / 10);
    expect(plan(input)).toEqual(found);
  }
});
