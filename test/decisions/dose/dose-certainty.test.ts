import { describe, expect, test } from "vitest";
import { valueOfMoreTrays } from "../../../src/decisions/dose/index.ts";
import { assertClose } from "../../agreement.ts";
import { decided, grownTrays } from "./dose-books.ts";

// Rules without another source: Gramwright's own specification of the dose decision, sections 3, 6 and 10.
const money = { perGram: 0.3, perDoseUnit: 0.1 };
const curve = (dose: number): number => 20 + 3 * dose - 0.15 * dose * dose;

describe("certainty", () => {
  const flat = grownTrays({ doses: [3, 6, 9], cooks: 3, perCell: 2, grams: () => 30, seed: 3 });
  const sure = grownTrays({ doses: [3, 6, 9, 12], cooks: 8, perCell: 12, grams: curve, traySd: 1.5, cookSd: 1 });

  test("settled needs four doses and a small loss; three are never settled", () => {
    const decision = decided({ trays: sure, prices: { perGram: 0.3 } });
    expect(decision.certainty).toBe("settled");
    expect(decision.risk.high).toBeLessThanOrEqual(decision.use.noDifference);
    expect(decision.gap).toBeUndefined();
    const three = decided({ trays: sure.filter(({ dose }) => dose !== 6), prices: { perGram: 0.3 } });
    expect(three.certainty).not.toBe("settled");
    expect(three.gap).toEqual({ low: 3, high: 9 });
  });

  test("where every dose does as well nothing is settled as best, and it is said that it hardly matters", () => {
    const even = grownTrays({ doses: [3, 6, 9, 12], cooks: 8, perCell: 12, grams: () => 30, traySd: 1, cookSd: 1 });
    const decision = decided({ trays: even, prices: { perGram: 0.3 }, settings: { tolerance: 0.1 } });
    expect(decision.risk.high).toBeLessThanOrEqual(decision.use.noDifference);
    expect(decision.notRuledOut.ruledOut).toEqual([]);
    expect(decision.hardlyMatters).toBe(true);
    expect(decision.certainty).toBe("open");
    expect(decided({ trays: sure, prices: { perGram: 0.3 } }).hardlyMatters).toBe(false);
  });

  test("doses a step apart leave nothing untried between them", () => {
    const near = grownTrays({ doses: [3, 4, 5], cooks: 3, perCell: 3, grams: () => 30 });
    expect(decided({ trays: near }).gap).toBeUndefined();
  });

  test("open where nothing is ruled out", () => {
    const decision = decided({ trays: flat, prices: { perGram: 0.3 } });
    expect(decision.notRuledOut.ruledOut).toEqual([]);
    expect(decision.certainty).toBe("open");
  });

  test("caps from outside lower it and are handed back; those that change nothing are not", () => {
    const cap = (atMost: "leaning" | "open" | "cannot tell") => ({ atMost, because: `code ${atMost}` });
    const free = decided({ trays: sure, prices: { perGram: 0.3 } });
    for (const atMost of ["leaning", "open", "cannot tell"] as const) {
      const capped = decided({ trays: sure, prices: { perGram: 0.3 }, caps: [cap(atMost)] });
      expect(capped.certainty).toBe(atMost);
      expect(capped.caps).toEqual([cap(atMost)]);
      // where the cap leaves the doses open, one that was not tried is no advice
      if (atMost === "leaning") expect({ ...capped, certainty: "settled", caps: [] }).toEqual(free);
      else expect(capped.use).toMatchObject({ tested: true, dose: 9 });
    }
    const open = decided({ trays: flat, prices: { perGram: 0.3 }, caps: [cap("leaning")] });
    expect(open.certainty).toBe("open");
    expect(open.caps).toEqual([]);
    const both = decided({ trays: sure, prices: { perGram: 0.3 }, caps: [cap("leaning"), cap("open")] });
    expect(both.certainty).toBe("open");
  });

  test("up, down and up again is said; then a tested dose is used and nothing is settled", () => {
    const trays = grownTrays({
      doses: [3, 6, 9, 12, 15],
      cooks: 4,
      perCell: 5,
      grams: (dose) => (dose === 9 ? 14 : 30),
      traySd: 3,
      cookSd: 1,
    });
    const decision = decided({ trays, prices: money });
    expect(decision.warnings).toContain("up-down-up");
    expect(decision.use.tested).toBe(true);
    expect(["leaning", "open"]).toContain(decision.certainty);
  });

  test("dips are found where there are many trays, honest books are hardly ever blamed", () => {
    // specification: dips of 4 sd with 12 trays a dose warned in 38 of 60, honest books 1 of 240
    const warned = (grams: (dose: number) => number): number =>
      Array.from({ length: 30 }, (_, book) =>
        decided({
          trays: grownTrays({
            doses: [3, 6, 9, 12],
            cooks: 4,
            perCell: 3,
            grams,
            traySd: 3,
            cookSd: 2,
            seed: 900 + book,
          }),
        }),
      ).filter(({ warnings }) => warnings.includes("up-down-up")).length;
    expect(warned(curve)).toBeLessThanOrEqual(1);
    expect(warned((dose) => (dose === 6 ? 18 : 30))).toBeGreaterThanOrEqual(15);
  });

  test("two doses: the gap is said, and the one left where the other is ruled out", () => {
    const trays = grownTrays({ doses: [3, 9], cooks: 4, perCell: 5, grams: (dose) => 50 - 3 * dose, traySd: 1 });
    const decision = decided({ trays, prices: money });
    expect(decision.gap).toEqual({ low: 3, high: 9 });
    expect(decision.notRuledOut).toMatchObject({ low: 3, high: 3, ruledOut: [9] });
    expect(decision.warnings).toContain("one-dose-left");
    expect(decision.certainty).toBe("leaning");
  });

  test("degrees below 0 and up are doses too", () => {
    const trays = grownTrays({ doses: [-2, 2, 6, 10], cooks: 4, perCell: 4, grams: (t) => 40 - 0.2 * (t - 5) ** 2 });
    const decision = decided({ trays });
    expect(Math.abs(decision.use.dose - 5)).toBeLessThanOrEqual(2);
    expect(decision.notRuledOut.ruledOut).toContain(-2);
  });
});

describe("more trays", () => {
  const trays = grownTrays({ doses: [3, 6, 9, 12], cooks: 4, perCell: 3, grams: curve });
  const decision = decided({ trays, prices: money });
  const worth = (traysPerDose: number, cooks: number, traysAYear = 500) =>
    valueOfMoreTrays(decision, { traysPerDose, cooks, traysAYear });

  test("more trays are worth more, never more than knowing all, and cost what their doses give up", () => {
    const some = [1, 4, 16, 64, 256].map((count) => worth(count, 4).perTray);
    for (let i = 1; i < some.length; i++) expect(some[i]!).toBeGreaterThanOrEqual(some[i - 1]! - 1e-4);
    expect(some.at(-1)!).toBeLessThanOrEqual(decision.risk.mean + 0.02);
    expect(worth(16, 16).perTray).toBeGreaterThan(worth(16, 1).perTray);
    const givesUp = decision.expected.filter(({ tested }) => tested).reduce((sum, one) => sum + one.givesUp, 0);
    assertClose(worth(16, 4).trialCost, 16 * givesUp, 1e-9);
    const { perTray, perYear, trialCost } = worth(16, 4);
    assertClose(perYear, 500 * perTray - trialCost, 1e-9);
  });

  test("currency does not matter, the same call gives the same value", () => {
    const dear = decided({ trays, prices: { perGram: 30, perDoseUnit: 10 } });
    const inCents = valueOfMoreTrays(dear, { traysPerDose: 16, cooks: 4, traysAYear: 500 });
    assertClose(inCents.perTray / 100, worth(16, 4).perTray, 1e-9);
    expect(worth(16, 4)).toEqual(worth(16, 4));
  });

  test("refusals", () => {
    expect(() => worth(0, 4)).toThrow(/traysPerDose/);
    expect(() => worth(1, 0)).toThrow(/cooks/);
    expect(() => worth(1, 1, -1)).toThrow(/traysAYear/);
  });
});
