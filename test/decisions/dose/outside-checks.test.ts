import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { DoseTray } from "../../../src/decisions/dose/index.ts";
import { logisticRegression } from "../../../src/statistics/counts/logistic-regression.ts";
import { meanInterval } from "../../../src/statistics/descriptive/mean-interval.ts";
import { studentTQuantile } from "../../../src/statistics/distributions/student-t.ts";
import { linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import { assertClose } from "../../agreement.ts";
import { decided, grownTrays } from "./dose-books.ts";

const reference = (name: string) =>
  JSON.parse(readFileSync(new URL(`../../reference/${name}.json`, import.meta.url), "utf8"));

/** Intercept, slope and bend of the plain quadratic, the slope at the given dose. */
function quadraticAround(at: number, doses: number[], grams: number[], cooks?: string[]) {
  const { coefficients, residual } = linearModel({
    response: grams,
    terms: [
      { kind: "number", name: "dose", values: doses.map((dose) => dose - at) },
      { kind: "number", name: "square", values: doses.map((dose) => (dose - at) ** 2) },
      ...(cooks === undefined ? [] : [{ kind: "factor" as const, name: "cook", values: cooks }]),
    ],
  });
  const t = studentTQuantile(0.975, residual.degreesOfFreedom);
  return coefficients.map((one) => ({ ...one, reach: t * one.standardError }));
}

/**
 * Whether a dose belongs to Fieller's set for the economic optimum: the slope there is not significantly different from cost
 * over price. Fieller 1954, Journal of the Royal Statistical Society B 16(2):175-185.
 */
function isInFiellersSet(dose: number, ratio: number, doses: number[], grams: number[], cooks?: string[]): boolean {
  const slope = quadraticAround(dose, doses, grams, cooks)[1]!;
  return Math.abs(slope.estimate - ratio) <= slope.reach;
}

describe("nitrogen on oats: Yates 1935, Supplement to the Journal of the Royal Statistical Society 2(2):181-247", () => {
  // as published with R's nlme (Oats); blocks take the place of cooks, hundredweight of nitrogen that of the dose
  const oats = reference("lmm-Oats");
  const { Block, nitro, yield: yields } = oats.data as { Block: string[]; nitro: number[]; yield: number[] };
  const trays: DoseTray[] = yields.map((grams, row) => ({ cook: Block[row]!, dose: nitro[row]!, grams, lost: false }));
  const decision = decided({ trays, settings: { step: 0.1 } });

  test("means seen are the published ones", () => {
    // R's mean of yield by nitrogen
    [79.39, 98.89, 114.22, 123.39].forEach((mean, at) => {
      assertClose(decision.seen[at]!.grams!.mean, mean, 0.006);
    });
  });

  test("expected means lie by the means seen, drawn a little together", () => {
    const expected = decision.expected.filter(({ tested }) => tested).map(({ grams }) => grams);
    expected.forEach(({ mean, low, high }, at) => {
      const seen = decision.seen[at]!.grams!.mean;
      assertClose(mean, seen, 4);
      expect(low).toBeLessThan(seen);
      expect(high).toBeGreaterThan(seen);
    });
  });

  test("doses differ by about what the mixed model of the reference gives", () => {
    const at = (dose: number) => decision.expected.find((one) => one.dose === dose)!.grams.mean;
    const published = oats.expected.randomIntercept.fixed["nitroFN0.6"].estimate as number;
    assertClose(at(0.6) - at(0), published, 4);
  });

  test("the dose that earns most lies in Fieller's set of the plain quadratic", () => {
    const [, b, c] = quadraticAround(0, nitro, yields);
    // R's nls: the coefficients of the reference
    const published = reference("nonlinear-OatsNitro").expected.quadratic.coefficients;
    assertClose(c!.estimate, published.c.estimate, 1e-6 * Math.abs(published.c.estimate));
    // 60 of yield paid per hundredweight: the quadratic's best lies inside the range
    const priced = decided({ trays, prices: { perGram: 1, perDoseUnit: 60 }, settings: { step: 0.05 } });
    expect(isInFiellersSet(priced.use.dose, 60, nitro, yields)).toBe(true);
    const best = (60 - b!.estimate) / (2 * c!.estimate);
    expect(priced.notRuledOut.low).toBeLessThanOrEqual(best);
    expect(priced.notRuledOut.high).toBeGreaterThanOrEqual(best - 0.025);
  });
});

test("the quadratic economic optimum: 40 + 6x - 0.2x^2 at 0.50 a gram and 0.40 a mL is best at 13, where 36.90 is left", () => {
  // dy/dx = cost over price, the textbook rule; Cerrato and Blackmer 1990, Agronomy Journal 82(1):138-143 compare forms for it
  const trays = grownTrays({
    doses: [2, 6, 10, 14, 18],
    cooks: 6,
    perCell: 8,
    grams: (x) => 40 + 6 * x - 0.2 * x * x,
    traySd: 2,
    cookSd: 1,
    seed: 8,
  });
  const decision = decided({ trays, prices: { perGram: 0.5, perDoseUnit: 0.4 } });
  expect(Math.abs(decision.use.dose - 13)).toBeLessThanOrEqual(1);
  for (const [dose, left] of [
    [10, 36],
    [13, 36.9],
    [15, 36.5],
  ] as const) {
    const band = decision.expected.find((one) => one.dose === dose)!.left;
    expect(band.low).toBeLessThan(left);
    expect(band.high).toBeGreaterThan(left);
    assertClose(band.mean, left, 0.6);
  }
  const good = trays.filter(({ lost }) => !lost);
  const [doses, grams, cooks] = [
    good.map(({ dose }) => dose),
    good.map((tray) => tray.grams!),
    good.map(({ cook }) => cook!),
  ];
  const set = Array.from({ length: 161 }, (_, step) => 2 + step / 10).filter((dose) =>
    isInFiellersSet(dose, 0.4 / 0.5, doses, grams, cooks),
  );
  // Fieller's set takes the form for granted, the decision does not: its range is the wider one and holds it, to a step
  expect(decision.notRuledOut.low).toBeLessThanOrEqual(set[0]! + 1);
  expect(decision.notRuledOut.high).toBeGreaterThanOrEqual(set.at(-1)! - 1);
});

test("bars seen: t over the cooks' means where cooks are equal, t over trays where there is one cook", () => {
  const trays = grownTrays({ doses: [3, 9], cooks: 5, perCell: 4, grams: (dose) => 20 + dose });
  const seen = decided({ trays }).seen[1]!.grams!;
  const at9 = trays.filter(({ dose }) => dose === 9);
  const cookMeans = [...new Set(at9.map(({ cook }) => cook))].map(
    (name) => at9.filter(({ cook }) => cook === name).reduce((sum, { grams }) => sum + grams!, 0) / 4,
  );
  const overCooks = meanInterval(cookMeans);
  assertClose(seen.mean, overCooks.mean, 1e-12);
  assertClose(seen.low!, overCooks.lower, 1e-9);
  assertClose(seen.high!, overCooks.upper, 1e-9);
  const alone = decided({ trays: trays.map((tray) => ({ ...tray, cook: "one" })) }).seen[1]!.grams!;
  const overTrays = meanInterval(at9.map(({ grams }) => grams!));
  assertClose(alone.low!, overTrays.lower, 1e-9);
  assertClose(alone.high!, overTrays.upper, 1e-9);
});

test("losses over dose agree with the logistic regression of the same trays where there are many", () => {
  const trays = grownTrays({
    doses: [3, 6, 9, 12],
    cooks: 2,
    perCell: 400,
    grams: () => 30,
    loss: (dose) => 1 / (1 + Math.exp(4 - 0.3 * dose)),
  });
  const decision = decided({ trays });
  const fit = logisticRegression({
    successes: trays.map(({ lost }) => (lost ? 1 : 0)),
    trials: trays.map(() => 1),
    columns: [{ name: "dose", values: trays.map(({ dose }) => dose) }],
  });
  const [intercept, slope] = fit.coefficients.map(({ estimate }) => estimate);
  for (const { dose, tested, loss } of decision.expected) {
    if (!tested) continue;
    assertClose(loss.mean, 1 / (1 + Math.exp(-(intercept! + slope! * dose))), 0.004);
  }
});

test("days over dose agree with least squares beside the cooks", () => {
  const trays = grownTrays({
    doses: [3, 6, 9, 12],
    cooks: 5,
    perCell: 6,
    grams: () => 30,
    days: (dose) => 60 - 1.5 * dose,
  });
  const decision = decided({ trays });
  const { coefficients } = linearModel({
    response: trays.map(({ days }) => days!),
    terms: [
      { kind: "number", name: "dose", values: trays.map(({ dose }) => dose) },
      { kind: "factor", name: "cook", values: trays.map(({ cook }) => cook!) },
    ],
  });
  const slope = coefficients.find(({ name }) => name === "dose")!.estimate;
  const at = (dose: number): number => decision.expected.find((one) => one.dose === dose)!.days!;
  assertClose((at(12) - at(3)) / 9, slope, 0.005);
  const mean = trays.reduce((sum, { days }) => sum + days!, 0) / trays.length;
  assertClose((at(3) + at(6) + at(9) + at(12)) / 4, mean, 0.02);
});
