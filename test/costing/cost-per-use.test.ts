import fc from "fast-check";
import { expect, test } from "vitest";
import { costPerUse, depreciationPerUse, kilowattHours } from "../../src/costing/lines/cost-per-use.ts";
import { assertClose } from "../agreement.ts";
import { line, settings } from "./sample-records.ts";

const moneyOf = (facts: Parameters<typeof line>[0], set = settings()): number => {
  const perUse = costPerUse(line(facts), set);
  if (perUse.kind === "cannot-tell") throw new Error(perUse.reason);
  return perUse.money;
};

test("equipment, arithmetic: 600 less 60 over 5 years of 120 runs is 0.90 a run", () => {
  assertClose(depreciationPerUse(600, 60, 600, 0), 0.9, 1e-12);
  const cooker = { item: "cooker", kind: "reusable" as const, packPrice: 600, salvage: 60, per: "load" as const };
  assertClose(moneyOf({ ...cooker, lifeYears: 5, usesPerYear: 120 }), 0.9, 1e-12);
  assertClose(moneyOf({ ...cooker, uses: 600 }), 0.9, 1e-12);
  assertClose(moneyOf({ ...cooker, per: "month", lifeYears: 5 }), 9, 1e-12);
});

test("energy, arithmetic: 1500 W for 2.5 h at 70 % is 2.625 kWh, at 0.16 it costs 0.42", () => {
  assertClose(kilowattHours(1500, 2.5, 0.7), 2.625, 1e-12);
  const metered = {
    item: "power",
    kind: "energy" as const,
    packPrice: 0.16,
    packUnit: "kWh" as const,
    per: "load" as const,
  };
  assertClose(moneyOf({ ...metered, watts: 1500, hours: 2.5, duty: 0.7, amount: 2.625 }), 0.42, 1e-12);
  assertClose(moneyOf({ ...metered, amount: 2.625 }), 0.42, 1e-12);
});

test("breakage: the expected cost of a life over its expected uses, summed use by use", () => {
  for (const [uses, breakage] of [
    [1, 0.2],
    [40, 0.01],
    [7, 0.3],
  ] as const) {
    let [expectedUses, chance] = [0, 1];
    for (let use = 1; use <= uses; use++) {
      expectedUses += chance;
      chance *= 1 - breakage;
    }
    assertClose(depreciationPerUse(12, 3, uses, breakage), (12 - 3 * chance) / expectedUses, 1e-12);
  }
  assertClose(depreciationPerUse(7.5, 0, 40, 1e-12), 7.5 / 40, 1e-9);
});

test("wear rises with breakage and price, and scales with the currency", () => {
  const share = fc.double({ min: 0, max: 0.5, noNaN: true });
  fc.assert(
    fc.property(share, share, fc.integer({ min: 1, max: 500 }), (a, b, uses) => {
      const [low, high] = [Math.min(a, b), Math.max(a, b)];
      expect(depreciationPerUse(10, 2, uses, high)).toBeGreaterThanOrEqual(
        depreciationPerUse(10, 2, uses, low) - 1e-12,
      );
      assertClose(depreciationPerUse(1000, 200, uses, a), 100 * depreciationPerUse(10, 2, uses, a), 1e-9);
    }),
  );
});

test("ingredients by pack, culture by jars, labour by the hour", () => {
  assertClose(
    moneyOf({ item: "grain", kind: "ingredient", packPrice: 31, packSize: 25_000, packUnit: "g", amount: 380 }),
    0.4712,
    1e-12,
  );
  assertClose(moneyOf({ item: "syringe", kind: "culture", packPrice: 18, per: "jar", expandsToJars: 6 }), 3, 1e-12);
  // a 10 mL syringe of which 1 mL starts a jar makes ten jars, said either way
  const tenMillilitres = {
    item: "syringe",
    kind: "culture" as const,
    packPrice: 18,
    packSize: 10,
    packUnit: "mL" as const,
    per: "jar" as const,
  };
  expect(moneyOf({ ...tenMillilitres, amount: 1 })).toBe(moneyOf({ ...tenMillilitres, expandsToJars: 10 }));
  assertClose(
    moneyOf({ ...tenMillilitres, per: "inoculum mL", expandsToJars: 6 }, settings({ jarMillilitres: 500 })),
    18 / 3000,
    1e-15,
  );
  const work = { item: "work", kind: "labour" as const, packUnit: "hour" as const, amount: 0.5, ownerLabour: true };
  expect(moneyOf({ ...work, packPrice: 16 })).toBe(8);
  expect(moneyOf({ ...work, packPrice: 0 }, settings({ ownerLabourRate: 20 }))).toBe(10);
  expect(moneyOf({ ...work, packPrice: 0, ownerLabour: false }, settings({ ownerLabourRate: 20 }))).toBe(0);
});

test("lines that cannot be costed say why", () => {
  const reasonOf = (facts: Parameters<typeof line>[0]): string => {
    const perUse = costPerUse(line(facts), settings());
    return perUse.kind === "cannot-tell" ? perUse.reason : "";
  };
  expect(reasonOf({ item: "frame", kind: "reusable" })).toContain("how long it lasts");
  expect(reasonOf({ item: "frame", kind: "reusable", lifeYears: 5 })).toContain("how long it lasts");
  expect(reasonOf({ item: "frame", kind: "reusable", uses: 5, packPrice: 5, salvage: 6 })).toContain(
    "recovers more than it cost",
  );
  expect(reasonOf({ item: "syringe", expandsToJars: 6 })).toContain("per jar or per mL");
  expect(reasonOf({ item: "work", kind: "labour", packPrice: 0, ownerLabour: true })).toContain("counted in hours");
});

test("numbers outside their range are named with item and row", () => {
  const costed = (facts: Partial<Parameters<typeof line>[0]>) => () =>
    costPerUse(line({ item: "bran", ...facts }), settings());
  expect(costed({ packPrice: -1 })).toThrow(
    'cost line "bran" (costs.csv row 2): packPrice must be a number of 0 or more; received -1',
  );
  expect(costed({ packSize: 0 })).toThrow("packSize must be a number above 0; received 0");
  expect(costed({ amount: Number.NaN })).toThrow("amount");
  expect(costed({ duty: 70 })).toThrow("duty must be a share from 0 to 1; received 70");
  expect(costed({ uses: 0 })).toThrow("uses");
  expect(costed({ breakage: 1 })).toThrow("breakage");
  expect(() => depreciationPerUse(5, 6, 10, 0)).toThrow("salvage must not be above the price");
  expect(() => depreciationPerUse(-1, 0, 10, 0)).toThrow("price must be a number of 0 or more");
  expect(() => depreciationPerUse(5, -1, 10, 0)).toThrow("salvage must be a number of 0 or more");
  expect(() => depreciationPerUse(5, 1, 0, 0)).toThrow("uses must be a number above 0");
  expect(() => depreciationPerUse(5, 1, 10, 1)).toThrow("breakage");
  expect(() => kilowattHours(-1, 1, 1)).toThrow("watts");
  expect(() => kilowattHours(1, -1, 1)).toThrow("hours");
  expect(() => kilowattHours(1, 1, 1.1)).toThrow("duty");
  for (const name of ["uses", "lifeYears", "usesPerYear", "expandsToJars", "normalTraysPerMonth"] as const)
    expect(costed({ [name]: 0 }), name).toThrow(`cost line "bran" (costs.csv row 2): ${name} must be a number above 0`);
  for (const name of ["watts", "hours", "salvage", "packPriceLow", "packPriceHigh"] as const) {
    expect(costed({ [name]: -1 }), name).toThrow(`(costs.csv row 2): ${name} must be a number of 0 or more`);
    expect(costed({ [name]: 0 }), name).not.toThrow();
  }
  expect(costed({ duty: 0 })).not.toThrow();
  expect(costed({ breakage: 0, kind: "reusable", uses: 1 })).not.toThrow();
  expect(() => costPerUse(line({ item: "bran" }), settings(), -1)).toThrow('cost line "bran": packPrice must be');
  expect(() =>
    moneyOf({ item: "syringe", per: "inoculum mL", expandsToJars: 6 }, settings({ jarMillilitres: 0 })),
  ).toThrow("settings.jarMillilitres must be a number above 0");
  expect(() =>
    moneyOf({ item: "work", packUnit: "hour", packPrice: 0, ownerLabour: true }, settings({ ownerLabourRate: -1 })),
  ).toThrow("settings.ownerLabourRate must be a number of 0 or more");
});

test("a piece sold again for what it cost wears nothing, and another price tried below that neither", () => {
  expect(depreciationPerUse(5, 5, 10, 0)).toBe(0);
  const frame = { item: "frame", kind: "reusable" as const, uses: 10, packPrice: 5, salvage: 5 };
  expect(moneyOf(frame)).toBe(0);
  const at = (packPrice: number) => costPerUse(line(frame), settings(), packPrice);
  expect(at(3)).toEqual({ kind: "cost-per-use", money: 0 });
  expect(at(25)).toEqual({ kind: "cost-per-use", money: 2 });
});

test("power is watts by hours where both are there; a device without a duty draws all the time", () => {
  const power = { item: "power", kind: "energy" as const, packPrice: 0.5, amount: 3 };
  expect(moneyOf({ ...power, watts: 2000, hours: 2 })).toBe(2);
  expect(moneyOf({ ...power, watts: 2000, hours: 2, duty: 0.5 })).toBe(1);
  expect(moneyOf({ ...power, watts: 2000 })).toBe(1.5);
  expect(moneyOf({ ...power, hours: 2 })).toBe(1.5);
  expect(moneyOf(power)).toBe(1.5);
});

test("a life in years is used as often as is said, by the month twelve times a year", () => {
  const frame = { item: "frame", kind: "reusable" as const, packPrice: 600, lifeYears: 5 };
  expect(moneyOf({ ...frame, usesPerYear: 20 })).toBe(6);
  expect(moneyOf({ ...frame, per: "month" })).toBe(10);
  expect(moneyOf({ ...frame, per: "month", usesPerYear: 20 })).toBe(6);
  expect(moneyOf({ ...frame, usesPerYear: 20, uses: 60 })).toBe(10);
  expect(costPerUse(line({ item: "frame", kind: "reusable", usesPerYear: 20 }), settings()).kind).toBe("cannot-tell");
});
