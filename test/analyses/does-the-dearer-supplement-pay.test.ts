import { expect, test } from "vitest";
import { doesTheDearerSupplementPay } from "../../analyses/supplement/does-the-dearer-supplement-pay.ts";
import { dearerPays } from "../../analyses/supplement/supplement-money.ts";
import { thingsOf } from "../../analyses/treatment/treatment-decision.ts";
import { yieldDecision } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Trial } from "../../src/analysis.ts";
import type { Tray } from "../../src/records/tray.ts";
import { studentTQuantile } from "../../src/statistics/distributions/student-t.ts";
import { fiellerRatio } from "../../src/statistics/optimum/fieller-ratio.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../agreement.ts";
import { line, product } from "../costing/sample-records.ts";
import { trayRecord } from "./demo-records.ts";
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
  assertClose(stopsBelow.value, 0.4 / gain, 1e-12);
  assertClose(stopsBelow.low, set.low, 1e-12);
  assertClose(stopsBelow.high, set.high, 1e-12);
});

test("a gain that may be nothing leaves the net price without an upper end; no gain pays at no price", () => {
  const open = dearerPays({ value: 1, low: -1, high: 3 }, fine, coarse, 0.5).stopsBelow;
  expect(open).toEqual({ kind: "price", value: 0.4, low: 0.4 / 3, high: Number.POSITIVE_INFINITY });
  expect(dearerPays({ value: -1, low: -3, high: 1 }, fine, coarse, 0.5).stopsBelow.kind).toBe("cannot-tell");
});

test("money by hand: 2 g at 0.50 less 0.40 leaves 0.60; pays up to 1.10 a tray, 27.50 a kg", () => {
  const { extra, mostPerKg } = dearerPays({ value: 2, low: 1, high: 3 }, fine, coarse, 0.5);
  assertClose(extra.value, 0.6, 1e-12);
  assertClose(extra.low, 0.1, 1e-12);
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

/** The yield's own answer about the grade. */
function yieldOf(trial: Trial) {
  const thing = thingsOf(trial).find(({ factor }) => factor.key === "supplement_grade")!;
  return yieldDecision(trial, thing)!;
}

test("a true gain is found, its interval holds it, and the money follows from it", () => {
  const trial = moneyTrial(trialTrays(11, 4), gradeLines, [bag]);
  const outcome = answerOf(doesTheDearerSupplementPay.run(trial));
  const [money, grams] = outcome.estimates;
  expect(grams!.low).toBeLessThan(4);
  expect(grams!.high).toBeGreaterThan(4);
  assertClose(money!.value, grams!.value * 0.5 - 0.4, 1e-9);
  expect(outcome.certainty).toBe("settled");
  expect(wordsOf(outcome.sentence)).toMatch(/^Supplement grade fine pays against coarse: /);
  assertClose(Number(cellOf(outcome, "What a dearer", "fine", "supplement costs now")), 12.5, 1e-9);
  expect(outcome.lowered?.sentence.join("")).toMatch(/^Leaning to supplement grade fine/);
});

test("grams and their range are those of what changed the yield: of good trays where none was lost, of started ones else", () => {
  const whole = moneyTrial(trialTrays(11, 4), gradeLines, [bag]);
  const good = yieldOf(whole).decision.difference!;
  const [, grams] = answerOf(doesTheDearerSupplementPay.run(whole)).estimates;
  expect([grams!.value, grams!.low, grams!.high]).toEqual([good.estimate, good.interval!.lower, good.interval!.upper]);
  expect(grams!.label).toBe("fine against coarse, dry yield per good tray");
  const losing = moneyTrial(
    trialTrays(11, 4).map((tray, i) =>
      i % 9 === 0 ? { ...tray, outcome: "contaminated" as const, dryGrams: undefined } : tray,
    ),
    gradeLines,
    [bag],
  );
  const started = yieldOf(losing).started()!.difference!;
  const answer = answerOf(doesTheDearerSupplementPay.run(losing));
  expect([answer.estimates[1]!.value, answer.estimates[1]!.low]).toEqual([started.estimate, started.interval!.lower]);
  expect(answer.estimates[1]!.label).toBe("fine against coarse, dry yield per started tray");
  expect(answer.estimates[2]!.value).toBe(yieldOf(losing).decision.difference!.estimate);
  expect(answer.caveats.map(wordsOf).join(" ")).toContain("Money goes by started trays, lost ones as nothing.");
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

test("a gain just worth its price is seldom called paying or not, and intervals hold the truth", () => {
  const runs = 60;
  let [held, called] = [0, 0];
  for (let seed = 1; seed <= runs; seed++) {
    // 0.8 g at 0.50 is the 0.40 that fine costs more
    const outcome = answerOf(doesTheDearerSupplementPay.run(moneyTrial(trialTrays(seed, 0.8), gradeLines, [bag])));
    const { low, high } = outcome.estimates[0]!;
    if (low! <= 0 && high! >= 0) held++;
    if (outcome.certainty === "settled") called++;
  }
  // two standard errors of so many runs
  const allowance = 2 * Math.sqrt((0.95 * 0.05) / runs);
  expect(held / runs).toBeGreaterThanOrEqual(0.95 - allowance);
  expect(called / runs).toBeLessThanOrEqual(0.05 + allowance);
});

test("one cook leans at most, whatever the gain", () => {
  const single = trialTrays(4, 12).filter(({ batch }) => batch === "C1");
  const outcome = answerOf(doesTheDearerSupplementPay.run(moneyTrial(single, gradeLines, [bag])));
  expect(outcome.certainty).toBe("leaning");
  expect(wordsOf(outcome.sentence)).toMatch(/^Leaning to supplement grade fine against coarse: /);
});

test("three grades: each dearer one against the cheapest, with ranges that hold together", () => {
  const names = ["coarse", "fine", "extra"];
  const trays = simulateBook({
    seed: 8,
    cooks: 6,
    traysPerDose: 6,
    doses: [6],
    mean: () => 30,
    cookSd: 1.5,
    traySd: 2,
    extra: ({ copy }) => ({ supplementGrade: names[copy % 3]!, supplementGrams: 40 }),
  }).map((one) => (one.supplementGrade === "extra" ? { ...one, dryGrams: one.dryGrams! + 5 } : one));
  const extra = { ...gradeLines[2]!, item: "hulls, extra", packPrice: 0.9 / 40, onlyWhereValue: "extra" };
  const outcome = answerOf(doesTheDearerSupplementPay.run(moneyTrial(trays, [...gradeLines, extra], [bag])));
  expect(outcome.estimates.map(({ label }) => label)).toEqual([
    "left more per started tray, extra against coarse",
    "extra against coarse, dry yield per good tray",
    "left more per started tray, fine against coarse",
    "fine against coarse, dry yield per good tray",
  ]);
  expect(outcome.certainty).toBe("settled");
  assertClose(outcome.estimates[0]!.value, outcome.estimates[1]!.value * 0.5 - 0.8, 1e-9);
});

test("yield that depends on the dose alone: the grade gives nothing, at two thousand trays and at one more", () => {
  const random = seededRandom(5);
  const trays = Array.from({ length: 2001 }, (_, i) => {
    const [dose, place] = [i % 2 === 0 ? 3 : 9, Math.floor(i / 2) % 4];
    // three in four of the high dose are fine, one in four of the low one
    const isFine = dose === 9 ? place !== 0 : place === 0;
    return trayRecord({
      trayId: `T${i}`,
      inoculumMillilitres: dose,
      supplementGrade: isFine ? "fine" : "coarse",
      supplementGrams: 40,
      dryGrams: 20 + (dose === 9 ? 10 : 0) + 3 * random.normal(),
    });
  });
  const cheap = gradeLines.map((one) => ({
    ...one,
    packPrice: one.item === "hulls, fine" ? 0.101 / 40 : one.packPrice,
  }));
  for (const count of [2000, 2001]) {
    const trial = moneyTrial(trays.slice(0, count), cheap, [bag]);
    const outcome = answerOf(doesTheDearerSupplementPay.run(trial));
    expect(outcome.certainty, `${count} trays`).not.toBe("settled");
    expect(Math.abs(outcome.estimates[1]!.value), `${count} trays`).toBeLessThan(0.3);
    const { low, high } = outcome.estimates[1]!;
    expect(low! < 0 && high! > 0, `${count} trays`).toBe(true);
  }
});

test("one cook per grade, no line for the grades, a gram that leaves nothing: cannot tell", () => {
  const trays = trialTrays(3, 2);
  const reason = (outcome: ReturnType<typeof doesTheDearerSupplementPay.run>) =>
    outcome.kind === "cannot-tell" ? wordsOf(outcome.reason) : "an answer";
  const tied = trays.map((one) => ({ ...one, batch: `C ${one.supplementGrade}` }));
  expect(reason(doesTheDearerSupplementPay.run(moneyTrial(tied, gradeLines, [bag])))).toContain("had cooks of its own");
  expect(reason(doesTheDearerSupplementPay.run(moneyTrial(trays, gradeLines.slice(0, 1), [bag])))).toContain(
    "the same cost",
  );
  const costly = product({ grams: 1, currentPrice: 0.5, packagingCost: 1 });
  expect(reason(doesTheDearerSupplementPay.run(moneyTrial(trays, gradeLines, [costly])))).toContain("leaves nothing");
});
