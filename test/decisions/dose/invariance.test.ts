import { describe, expect, test } from "vitest";
import { doseDecision } from "../../../src/decisions/dose/index.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";
import { decided, grownTrays } from "./dose-books.ts";

const prices = {
  perGram: 0.3,
  perDoseUnit: 0.1,
  perGoodTray: 0.25,
  perShelfDay: 0.03,
  perStartedTray: 1.2,
  recoveredPerLostTray: 0.15,
};
const trays = grownTrays({
  doses: [3, 6, 9, 12],
  cooks: 4,
  perCell: 4,
  grams: (dose) => 20 + 3 * dose - 0.15 * dose * dose,
  loss: (dose) => 0.02 + 0.01 * dose,
  days: (dose) => 60 - dose,
});
const base = decided({ trays, prices });

describe("what must not matter", () => {
  test("the same seed gives the same bytes, another seed nearly the same figures", () => {
    expect(JSON.stringify(doseDecision({ trays, prices }))).toBe(JSON.stringify(base));
    const other = decided({ trays, prices, settings: { seed: 2 } });
    expect(JSON.stringify(other)).not.toBe(JSON.stringify(base));
    other.expected.forEach((one, at) => {
      assertClose(one.left.mean, base.expected[at]!.left.mean, one.beyond ? 0.2 : 0.06);
    });
  });

  test("order of rows", () => {
    const shuffled = seededRandom(5).shuffle(trays);
    expect(JSON.stringify(doseDecision({ trays: shuffled, prices }))).toBe(JSON.stringify(base));
  });

  test("grams in kilograms", () => {
    const inKilograms = trays.map((tray) => ({
      ...tray,
      grams: tray.grams === undefined ? undefined : tray.grams / 1000,
    }));
    const other = decided({ trays: inKilograms, prices: { ...prices, perGram: 300 } });
    expect(other.use.dose).toBe(base.use.dose);
    expect(other.certainty).toBe(base.certainty);
    other.expected.forEach((one, at) => {
      assertClose(one.left.mean, base.expected[at]!.left.mean, 1e-6);
      assertClose(1000 * one.grams.high, base.expected[at]!.grams.high, 1e-6);
    });
  });

  test("currency", () => {
    const dearer = Object.fromEntries(
      Object.entries(prices).map(([name, value]) => [name, value * 400]),
    ) as typeof prices;
    const other = decided({ trays, prices: dearer });
    expect(other.use.dose).toBe(base.use.dose);
    expect(other.notRuledOut).toEqual(base.notRuledOut);
    expect(other.asGood).toEqual(base.asGood);
    assertClose(other.risk.high / 400, base.risk.high, 1e-9);
  });

  test("unit of dose", () => {
    const inMicrolitres = trays.map((tray) => ({ ...tray, dose: tray.dose * 1000 }));
    const other = decided({
      trays: inMicrolitres,
      prices: { ...prices, perDoseUnit: prices.perDoseUnit / 1000 },
      settings: { step: 1000 },
    });
    expect(other.use.dose).toBe(base.use.dose * 1000);
    other.expected.forEach((one, at) => {
      assertClose(one.left.mean, base.expected[at]!.left.mean, 1e-6);
    });
  });

  test("names of cooks", () => {
    const renamed = trays.map((tray) => ({ ...tray, cook: `2026 ${tray.cook}` }));
    expect(JSON.stringify(doseDecision({ trays: renamed, prices }))).toBe(JSON.stringify(base));
  });

  test("a pool weighs as many trays as it holds: two alike trays of one cell as a pool leave cell means as they are", () => {
    const single = trays.map((tray) => ({ ...tray, trays: 1 }));
    expect(JSON.stringify(doseDecision({ trays: single, prices }))).toBe(JSON.stringify(base));
    const twice = trays.map((tray) => ({ ...tray, trays: 2 }));
    const pooled = decided({ trays: twice, prices });
    expect(pooled.seen.map(({ trays: count }) => count)).toEqual(base.seen.map(({ trays: count }) => 2 * count));
    pooled.seen.forEach(({ grams, left }, at) => {
      assertClose(grams!.mean, base.seen[at]!.grams!.mean, 1e-9);
      assertClose(left!.mean, base.seen[at]!.left!.mean, 1e-9);
    });
  });
});
