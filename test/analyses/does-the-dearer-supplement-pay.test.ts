import { expect, test } from "vitest";
import { doesTheDearerSupplementPay } from "../../analyses/supplement/does-the-dearer-supplement-pay.ts";
import { dearerPays } from "../../analyses/supplement/supplement-money.ts";
import type { Tray } from "../../src/records/tray.ts";
import { studentTQuantile } from "../../src/statistics/distributions/student-t.ts";
import { fiellerRatio } from "../../src/statistics/optimum/fieller-ratio.ts";
import { assertClose } from "../agreement.ts";
import { line, product } from "../costing/sample-records.ts";
import { answerOf, cellOf, moneyTrial, wordsOf } from "./money-books.ts";
import { simulateBook } from "./simulated-book.ts";

const coarse = { level: "coarse", perTray: 0.1, grams: 40 };
const fine = { level: "fine", perTray: 0.5, grams: 40 };

test("the net price at which it stops is Fieller's set for an exact numerator: checked against the general routine", () => {
  const [gain, error, df] = [2, 0.6, 20];
  const reach = studentTQuantile(0.975, df) * error;
  const { stopsBelow } = dearerPays({ value: gain, low: gain - reach, high: gain + reach }, fine, coarse, 0.5);
  const set = fiellerRatio({
    numerator: 0.4,
    denominator: gain,
    varianceNumerator: 0,
    varianceDenominator: error ** 2,
    covariance: 0,
    degreesOfFreedom: df,
  });
  if (stopsBelow.kind !== "price" || set.kind !== "bounded") throw new Error(set.kind);
  assertClose(stopsBelow.value, set.ratio, 1e-12);
  assertClose(stopsBelow.low, set.low, 1e-12);
  assertClose(stopsBelow.high, set.high, 1e-12);
});

test("a gain that may be nothing leaves the net price without an upper end; no gain pays at no price", () => {
  const open = dearerPays({ value: 1, low: -1, high: 3 }, fine, coarse, 0.5).stopsBelow;
  expect(open).toEqual({ kind: "price", value: 0.4, low: 0.4 / 3, high: Number.POSITIVE_INFINITY });
  expect(dearerPays({ value: -1, low: -3, high: 1 }, fine, coarse, 0.5).stopsBelow.kind).toBe("cannot-tell");
});

test("money by hand: 2 g at 0.50 less 0.40 leaves 0.60; pays up to 1.10 a tray, 27.50 a kg", () => {
  const { extra, mostPerTray, mostPerKg } = dearerPays({ value: 2, low: 1, high: 3 }, fine, coarse, 0.5);
  assertClose(extra.value, 0.6, 1e-12);
  assertClose(extra.low, 0.1, 1e-12);
  assertClose(mostPerTray.value, 1.1, 1e-12);
  assertClose(mostPerKg!.value, 27.5, 1e-12);
  expect(() => dearerPays({ value: 2, low: 1, high: 3 }, coarse, fine, 0.5)).toThrow(
    new RangeError("dearerPays: the dearer must cost more; received -0.4 more"),
  );
});

/** grades crossed with doses in every cook; fine adds a known number of grams */
const trialTrays = (seed: number, gain: number, given: { dose?: number } = {}): Tray[] =>
  simulateBook({
    seed,
    cooks: 6,
    traysPerDose: 6,
    doses: [3, 12],
    mean: (dose) => 20 + (given.dose ?? 1) * dose,
    cookSd: 1.5,
    traySd: 2,
    extra: ({ copy }) => ({ supplementGrade: copy % 2 === 0 ? "coarse" : "fine", supplementGrams: 40 }),
  }).map((one) => (one.supplementGrade === "fine" ? { ...one, dryGrams: one.dryGrams! + gain } : one));
const gradeLines = [
  line({ item: "grain", packPrice: 2 }),
  line({
    item: "hulls, coarse",
    per: "supplement g",
    packUnit: "g",
    packPrice: 0.1 / 40,
    onlyWhereColumn: "supplement_grade",
    onlyWhereValue: "coarse",
  }),
  line({
    item: "hulls, fine",
    per: "supplement g",
    packUnit: "g",
    packPrice: 0.5 / 40,
    onlyWhereColumn: "supplement_grade",
    onlyWhereValue: "fine",
  }),
];
const bag = product({ grams: 1, currentPrice: 0.5 });

test("a true gain is found, its interval holds it, and the money follows from it", () => {
  const outcome = answerOf(doesTheDearerSupplementPay.run(moneyTrial(trialTrays(11, 3), gradeLines, [bag])));
  const [money, grams] = outcome.estimates;
  expect(grams!.low).toBeLessThan(3);
  expect(grams!.high).toBeGreaterThan(3);
  assertClose(money!.value, grams!.value * 0.5 - 0.4, 1e-9);
  expect(outcome.certainty).toBe("settled");
  expect(wordsOf(outcome.sentence)).toMatch(/^Supplement grade fine pays against coarse: /);
  assertClose(Number(cellOf(outcome, "What a dearer", "fine", "supplement costs now")), 12.5, 1e-9);
});

test("a dose that moves the yield does not blur the grade: the interval is as narrow as without", () => {
  const width = (dose: number) => {
    const outcome = answerOf(
      doesTheDearerSupplementPay.run(moneyTrial(trialTrays(11, 3, { dose }), gradeLines, [bag])),
    );
    const grams = outcome.estimates[1]!;
    return grams.high! - grams.low!;
  };
  assertClose(width(4) / width(0), 1, 1e-6);
});

test("intervals of the gain hold the truth about as often as they say", () => {
  const runs = 60;
  let held = 0;
  for (let seed = 1; seed <= runs; seed++) {
    const outcome = answerOf(doesTheDearerSupplementPay.run(moneyTrial(trialTrays(seed, 1), gradeLines, [bag])));
    const { low, high } = outcome.estimates[1]!;
    if (low! <= 1 && high! >= 1) held++;
  }
  // 95 % less two standard errors of so many runs
  expect(held / runs).toBeGreaterThanOrEqual(0.95 - 2 * Math.sqrt((0.95 * 0.05) / runs));
});

test("one cook per grade, no line for the grades, a gram that leaves nothing: cannot tell", () => {
  const trays = trialTrays(3, 2);
  const reason = (outcome: ReturnType<typeof doesTheDearerSupplementPay.run>) =>
    outcome.kind === "cannot-tell" ? wordsOf(outcome.reason) : "an answer";
  const tied = trays.map((one) => ({ ...one, batch: `C ${one.supplementGrade}` }));
  expect(reason(doesTheDearerSupplementPay.run(moneyTrial(tied, gradeLines, [bag])))).toContain(
    "came from one cook alone",
  );
  expect(reason(doesTheDearerSupplementPay.run(moneyTrial(trays, gradeLines.slice(0, 1), [bag])))).toContain(
    "the same cost",
  );
  const costly = product({ grams: 1, currentPrice: 0.5, packagingCost: 1 });
  expect(reason(doesTheDearerSupplementPay.run(moneyTrial(trays, gradeLines, [costly])))).toContain("leaves nothing");
});
