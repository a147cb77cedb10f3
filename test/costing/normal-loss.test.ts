import fc from "fast-check";
import { expect, test } from "vitest";
import { type NormalLoss, normalLoss } from "../../src/costing/trays/normal-loss.ts";
import { assertClose } from "../agreement.ts";

const lossOf = (input: Parameters<typeof normalLoss>[0]): NormalLoss => {
  const loss = normalLoss(input);
  if (loss.kind === "cannot-tell") throw new Error(loss.reason);
  return loss;
};

test("550 units at 4.00, 500 good, 30 normal and 20 abnormal: good carry 2,120 (4.24), abnormal 80; public exam bank", () => {
  const loss = lossOf({
    costOfGood: 2000,
    costOfLost: 200,
    good: 500,
    lost: 50,
    normalRate: 30 / 550,
    normalBase: "starts",
    recoveredPerLost: 0,
  });
  assertClose(loss.costPerGood, 4.24, 1e-12);
  assertClose(loss.abnormalCost, 80, 1e-9);
  assertClose(loss.costPerStarted, 4, 1e-12);
  assertClose(loss.abnormal, 20, 1e-9);
  // 30 in 500 good is the same loss on the other base
  assertClose(
    lossOf({
      costOfGood: 2000,
      costOfLost: 200,
      good: 500,
      lost: 50,
      normalRate: 0.06,
      normalBase: "good",
      recoveredPerLost: 0,
    }).costPerGood,
    4.24,
    1e-12,
  );
});

test("40 started at 1,000, 5 spoiled and sold at 200: inputs from a textbook problem, results derived", () => {
  const facts = { costOfGood: 35_000, costOfLost: 5_000, good: 35, lost: 5, recoveredPerLost: 200 };
  const usual = lossOf({ ...facts, normalBase: "starts" });
  assertClose(usual.costPerGood, 1114.29, 0.005);
  expect(usual.abnormalCost).toBe(0);
  const unusual = lossOf({ ...facts, normalRate: 0, normalBase: "good" });
  assertClose(unusual.costPerGood, 1000, 1e-9);
  assertClose(unusual.abnormalCost, 4000, 1e-9);
  assertClose(unusual.costPerGoodWithAllLosses, 1114.29, 0.005);
});

test("the base of the rate matters: 12.5 % of starts is 5 in 40, 12.5 % of good is 4.375", () => {
  const facts = { costOfGood: 35, costOfLost: 5, good: 35, lost: 5, normalRate: 0.125, recoveredPerLost: 0 };
  assertClose(lossOf({ ...facts, normalBase: "starts" }).normal, 5, 1e-12);
  assertClose(lossOf({ ...facts, normalBase: "good" }).normal, 4.375, 1e-12);
});

test("what good units carry, what is abnormal and what was recovered make up all cost", () => {
  const amount = fc.double({ min: 0, max: 1e5, noNaN: true });
  fc.assert(
    fc.property(
      amount,
      amount,
      fc.integer({ min: 1, max: 500 }),
      fc.integer({ min: 0, max: 500 }),
      fc.double({ min: 0, max: 0.9, noNaN: true }),
      fc.constantFrom("starts" as const, "good" as const),
      fc.double({ min: 0, max: 10, noNaN: true }),
      (costOfGood, lostCost, good, lost, normalRate, normalBase, recoveredPerLost) => {
        const costOfLost = lost === 0 ? 0 : lostCost;
        const loss = lossOf({ costOfGood, costOfLost, good, lost, normalRate, normalBase, recoveredPerLost });
        assertClose(loss.costPerGood * good + loss.abnormalCost + loss.recovered, costOfGood + costOfLost, 1e-6);
        assertClose(loss.normal + loss.abnormal, lost, 1e-9);
        expect(loss.abnormal).toBeGreaterThanOrEqual(0);
      },
    ),
  );
});

test("nothing good, nothing finished and wrong numbers", () => {
  const facts = { costOfGood: 0, costOfLost: 5, good: 0, lost: 5, normalBase: "starts" as const, recoveredPerLost: 0 };
  expect(normalLoss(facts)).toEqual({
    kind: "cannot-tell",
    reason: "no finished tray was good, so there is nothing to carry the cost",
  });
  expect(normalLoss({ ...facts, lost: 0, costOfLost: 0 }).kind).toBe("cannot-tell");
  expect(() => normalLoss({ ...facts, lost: -1 })).toThrow(
    "normalLoss: lost must be a number of 0 or more; received -1",
  );
  expect(() => normalLoss({ ...facts, normalRate: 1 })).toThrow("normalRate");
  expect(() => normalLoss({ ...facts, costOfLost: Number.NaN })).toThrow("costOfLost");
});
