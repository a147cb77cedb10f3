import fc from "fast-check";
import { expect, test } from "vitest";
import { type DoseTray, doseDecision, valueOfMoreTrays } from "../../../src/decisions/dose/index.ts";

const tray: fc.Arbitrary<DoseTray> = fc.record({
  dose: fc.oneof(
    { weight: 12, arbitrary: fc.constantFrom(0, 3, 6, 12) },
    { weight: 2, arbitrary: fc.constantFrom(5.98, 6.02) },
    { weight: 1, arbitrary: fc.double({ min: -5, max: 40, noNaN: true }) },
  ),
  cook: fc.option(fc.constantFrom("A", "B", "C", "D"), { nil: undefined, freq: 12 }),
  lost: fc.constantFrom(false, false, false, true),
  grams: fc.option(fc.oneof(fc.constantFrom(0, 30, 30.001), fc.double({ min: 0, max: 80, noNaN: true })), {
    nil: undefined,
    freq: 9,
  }),
  trays: fc.option(fc.integer({ min: 1, max: 12 }), { nil: undefined }),
  days: fc.option(fc.double({ min: 0, max: 120, noNaN: true }), { nil: undefined }),
});
const amount = fc.double({ min: -2, max: 5, noNaN: true });
const prices = fc.record({
  perGram: amount,
  perDoseUnit: amount,
  perGoodTray: amount,
  perShelfDay: amount,
  perStartedTray: amount,
  recoveredPerLostTray: amount,
});

/** Every number inside, wherever it is. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

test("whatever the trays: finite figures, and one that fits the other", () => {
  let decisions = 0;
  fc.assert(
    fc.property(
      fc.array(tray, { minLength: 2, maxLength: 60, size: "max" }),
      fc.option(prices, { nil: undefined }),
      fc.boolean(),
      (trays, money, working) => {
        const work = { hoursPerStartedTray: 0.2, hoursPerGoodTray: 0.1, hoursPerGram: 0.001, ownPayPerHour: 10 };
        const decision = doseDecision({
          trays,
          prices: money,
          work: working ? work : undefined,
          settings: { draws: 200 },
        });
        expect(numbersIn(decision).every(Number.isFinite)).toBe(true);
        if (decision.kind === "cannot-tell") return;
        decisions++;
        const { use, notRuledOut, asGood, expected, doses, risk, seen, certainty, caps } = decision;
        const [low, high] = [doses[0]!, doses.at(-1)!];
        expect(use.dose).toBeGreaterThanOrEqual(low);
        expect(use.dose).toBeLessThanOrEqual(high);
        expect(use.tested).toBe(doses.includes(use.dose));
        for (const range of [notRuledOut, ...(asGood ? [asGood] : [])]) {
          expect(range.low).toBeLessThanOrEqual(use.dose);
          expect(range.high).toBeGreaterThanOrEqual(use.dose);
          expect(range.low).toBeGreaterThanOrEqual(low);
          expect(range.high).toBeLessThanOrEqual(high);
        }
        expect(risk.mean).toBeGreaterThanOrEqual(0);
        expect(seen.map(({ dose }) => dose)).toEqual(doses);
        expect(expected.filter(({ tested }) => tested).map(({ dose }) => dose)).toEqual(doses);
        for (const [at, one] of expected.entries()) {
          if (at > 0) expect(one.dose).toBeGreaterThan(expected[at - 1]!.dose);
          for (const { mean, low: least, high: most } of [one.grams, one.loss, one.left]) {
            expect(least).toBeLessThanOrEqual(most);
            expect(Number.isFinite(mean)).toBe(true);
          }
          expect(one.loss.low >= 0 && one.loss.high <= 1).toBe(true);
          expect(one.chanceBelowUse >= 0 && one.chanceBelowUse <= 1).toBe(true);
        }
        const best = expected.filter(({ tested }) => tested).reduce((a, b) => (b.left.mean > a.left.mean ? b : a));
        if (use.tested) expect(use.left.mean).toBeCloseTo(best.left.mean, 9);
        expect(certainty === "open").toBe(notRuledOut.ruledOut.length === 0);
        expect(caps).toEqual([]);
        const { perTray, trialCost } = valueOfMoreTrays(decision, { traysPerDose: 4, cooks: 2, traysAYear: 100 });
        expect(perTray).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(trialCost)).toBe(true);
      },
    ),
    { numRuns: 50, seed: 7 },
  );
  expect(decisions).toBeGreaterThan(40);
});
