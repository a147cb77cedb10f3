import { describe, expect, test } from "vitest";
import { type CurveFormName, curveForms } from "../../../src/statistics/curves/curve-forms.ts";
import { bestOnRange } from "../../../src/statistics/optimum/best-on-range.ts";
import { economicOptimum } from "../../../src/statistics/optimum/economic-optimum.ts";
import { nearOptimalRange } from "../../../src/statistics/optimum/near-optimal-range.ts";
import { profitAtDoses } from "../../../src/statistics/optimum/profit-at-doses.ts";
import { assertClose } from "../../agreement.ts";

const tested = { lowestDose: 0, highestDose: 20 };

describe("worked checks, arithmetic only (constructed)", () => {
  const quadratic = { form: "quadratic", parameters: [40, 6, -0.2], ...tested } as const;
  test("quadratic 40 + 6x - 0.2x^2 at 0.50 per gram and 0.40 per mL", () => {
    const best = economicOptimum({ ...quadratic, pricePerUnit: 0.5, costPerUnit: 0.4 });
    assertClose(best.costPriceRatio, 0.8, 1e-12);
    assertClose(best.dose, 13, 1e-12);
    assertClose(best.yield, 84.2, 1e-12);
    assertClose(best.margin, 36.9, 1e-12);
    expect(best.where).toBe("inside");
    expect(best.reached).toBe(true);
    expect(best.highestYield).toEqual({ kind: "at", dose: 15 });
    const margin = (dose: number) => 0.5 * curveForms.quadratic.value(dose, quadratic.parameters) - 0.4 * dose;
    const neighbours = profitAtDoses(margin, 13, [15, 10]);
    assertClose(neighbours[1]!.profit, 36.5, 1e-12);
    assertClose(neighbours[2]!.profit, 36, 1e-12);
    assertClose(neighbours[2]!.lost, 0.9, 1e-12);
  });
  test("the same with a 12.9 % fee on the price", () => {
    const best = economicOptimum({ ...quadratic, pricePerUnit: 0.5 * (1 - 0.129), costPerUnit: 0.4 });
    assertClose(best.costPriceRatio, 0.91848, 5e-6);
    assertClose(best.dose, 12.704, 5e-4);
  });
  test("Mitscherlich A = 90, k = 0.25, s = 2, ratio 0.8", () => {
    const best = economicOptimum({
      form: "mitscherlich",
      parameters: [90, 0.25, 2],
      pricePerUnit: 0.5,
      costPerUnit: 0.4,
      ...tested,
    });
    assertClose(best.dose, 11.347, 5e-4);
    assertClose(best.dose, Math.log(28.125) / 0.25 - 2, 1e-12);
    expect(best.highestYield.kind).toBe("none");
  });
  test("linear-plateau 40 + 4x to x = 10 at 0.50: join when the slope pays, lowest dose when it does not", () => {
    const curve = { form: "linear-plateau", parameters: [40, 4, 10], pricePerUnit: 0.5, ...tested } as const;
    expect(economicOptimum({ ...curve, costPerUnit: 1.5 })).toMatchObject({ dose: 10, where: "join", reached: true });
    expect(economicOptimum({ ...curve, costPerUnit: 2.5 })).toMatchObject({ dose: 0, where: "lowest", reached: false });
  });
});

describe("corners", () => {
  const price = { pricePerUnit: 0.5, costPerUnit: 0.4 };
  test("optimum beyond the tested doses: the end point, said not to be reached", () => {
    const best = economicOptimum({
      form: "quadratic",
      parameters: [40, 6, -0.2],
      ...price,
      lowestDose: 0,
      highestDose: 8,
    });
    expect(best).toMatchObject({ dose: 8, where: "highest", reached: false });
    expect(best.unrestricted).toMatchObject({ kind: "at" });
    expect(best.says).toContain("not reached");
  });
  test("optimum below the tested doses", () => {
    const best = economicOptimum({
      form: "quadratic",
      parameters: [40, 6, -0.2],
      ...price,
      lowestDose: 14,
      highestDose: 20,
    });
    expect(best).toMatchObject({ dose: 14, where: "lowest", reached: false });
  });
  test("a curve that bends upwards or not at all has no optimum inside", () => {
    for (const c of [0, 0.1]) {
      const best = economicOptimum({ form: "quadratic", parameters: [40, 6, c], ...price, ...tested });
      expect(best.unrestricted.kind).toBe("none");
      expect(best).toMatchObject({ dose: 20, where: "highest", reached: false });
    }
    const falling = economicOptimum({ form: "straight-line", parameters: [40, -1], ...price, ...tested });
    expect(falling).toMatchObject({ dose: 0, where: "lowest" });
    const level = economicOptimum({ form: "straight-line", parameters: [40, 0.8], ...price, ...tested });
    expect(level.where).toBe("anywhere");
  });
  test("Mitscherlich with a rise that never pays is held at the lowest dose", () => {
    const best = economicOptimum({ form: "mitscherlich", parameters: [2, 0.1, 1], ...price, ...tested });
    expect(best).toMatchObject({ dose: 0, where: "lowest" });
  });
  test("a free input gives the highest yield; on a quadratic-plateau that is the join", () => {
    const best = economicOptimum({
      form: "quadratic-plateau",
      parameters: [85, -0.2, 15],
      pricePerUnit: 0.5,
      costPerUnit: 0,
      ...tested,
    });
    expect(best).toMatchObject({ dose: 15, where: "join" });
    const paid = economicOptimum({ form: "quadratic-plateau", parameters: [85, -0.2, 15], ...price, ...tested });
    assertClose(paid.dose, 13, 1e-12);
  });
  test("one tested dose", () => {
    const best = economicOptimum({
      form: "straight-line",
      parameters: [1, 1],
      ...price,
      lowestDose: 5,
      highestDose: 5,
    });
    expect(best).toMatchObject({ dose: 5, reached: false });
  });
});

test("every form: the closed optimum is where a global search finds it", () => {
  const cases: [CurveFormName, number[]][] = [
    ["quadratic", [10, 5, -0.15]],
    ["quadratic-plateau", [60, -0.3, 14]],
    ["linear-plateau", [20, 3, 12]],
    ["asymptotic-exponential", [20, 40, 0.2]],
    ["mitscherlich", [60, 0.2, 2]],
    ["exponential-through-origin", [50, 0.3]],
    ["hyperbola", [60, 4]],
    ["hyperbola-with-offset", [10, 60, 4]],
    ["logistic", [60, 8, 2]],
    ["logistic-with-floor", [10, 50, 8, 2]],
    ["richards", [60, 4, 0.5, 1.4]],
    ["straight-line", [3, 2]],
    ["no-response", [3]],
  ];
  expect(cases.map(([name]) => name).sort()).toEqual(Object.keys(curveForms).sort());
  for (const [form, parameters] of cases) {
    for (const costPerUnit of [0.1, 0.4, 0.9]) {
      const best = economicOptimum({
        form,
        parameters,
        pricePerUnit: 0.5,
        costPerUnit,
        lowestDose: 1,
        highestDose: 20,
      });
      const margin = (dose: number) => 0.5 * curveForms[form].value(dose, parameters) - costPerUnit * dose;
      const searched = bestOnRange(margin, 1, 20);
      assertClose(best.margin, searched.value, 1e-9 * Math.abs(searched.value));
      if (searched.where === "inside") assertClose(best.dose, searched.at, 1e-3);
      else expect(best.dose).toBe(searched.at);
    }
  }
});

describe("any profit function", () => {
  test("several hills, a corner, a step and a narrow hill at a place named", () => {
    const hills = bestOnRange((x) => Math.sin(x) + 0.05 * x, 0, 30);
    // derivative cos x = -0.05 at the fourth hill's neighbour below 30
    assertClose(hills.at, 2 * Math.PI * 4 + Math.acos(-0.05), 1e-6);
    assertClose(bestOnRange((x) => -Math.abs(x - 7.123), 0, 30).at, 7.123, 1e-5);
    assertClose(bestOnRange((x) => (x < 12.3 ? x : 5 - x), 0, 30).at, 12.3, 1e-3);
    const spike = (x: number) => (x === 3.0303 ? 100 : 0);
    expect(bestOnRange(spike, 0, 30, [3.0303])).toMatchObject({ at: 3.0303, value: 100, where: "inside" });
  });
  test("ends and flat functions", () => {
    expect(bestOnRange((x) => x, 0, 3)).toMatchObject({ at: 3, where: "highest" });
    expect(bestOnRange((x) => -x, 0, 3)).toMatchObject({ at: 0, where: "lowest" });
    expect(bestOnRange(() => 4, 0, 3)).toMatchObject({ at: 0, value: 4 });
    expect(bestOnRange((x) => x, 2, 2)).toMatchObject({ at: 2, value: 2 });
  });
  test("wrong calls", () => {
    expect(() => bestOnRange((x) => x, 3, 0)).toThrow(/low must not be above high/);
    expect(() => bestOnRange((x) => x, 0, Number.POSITIVE_INFINITY)).toThrow(/finite/);
    expect(() => bestOnRange(() => Number.NaN, 0, 1)).toThrow(/must be finite/);
    expect(() => profitAtDoses(() => Number.NaN, 1, [2])).toThrow(/profits/);
  });
});

describe("near-optimal range", () => {
  test("a parabola: half-width sqrt(share x best / bend)", () => {
    const range = nearOptimalRange((x) => 36.9 - 0.1 * (x - 13) ** 2, 0, 20, 0.02);
    const half = Math.sqrt((0.02 * 36.9) / 0.1);
    assertClose(range.low, 13 - half, 1e-9);
    assertClose(range.high, 13 + half, 1e-9);
    expect(range.reachesLowest || range.reachesHighest).toBe(false);
    expect(range.stretches.length).toBe(1);
  });
  test("a range cut off by the tested doses, two hills, and a loss", () => {
    const cut = nearOptimalRange((x) => 36.9 - 0.1 * (x - 13) ** 2, 12, 14, 0.02);
    expect(cut).toMatchObject({ low: 12, high: 14, reachesLowest: true, reachesHighest: true });
    const hills = nearOptimalRange((x) => 10 * Math.cos(x), -1, 7, 0.05);
    expect(hills.stretches.length).toBe(2);
    const loss = nearOptimalRange((x) => -10 - (x - 5) ** 2, 0, 10, 0.1);
    assertClose(loss.low, 4, 1e-9);
    assertClose(loss.high, 6, 1e-9);
  });
  test("wrong share", () => {
    expect(() => nearOptimalRange((x) => x, 0, 1, 0)).toThrow(/share/);
  });
});

test("wrong calls", () => {
  const good = { form: "quadratic", parameters: [1, 1, -1], pricePerUnit: 1, costPerUnit: 0, ...tested } as const;
  expect(() => economicOptimum({ ...good, pricePerUnit: 0 })).toThrow(/pricePerUnit/);
  expect(() => economicOptimum({ ...good, costPerUnit: -1 })).toThrow(/costPerUnit/);
  expect(() => economicOptimum({ ...good, parameters: [1, 1] })).toThrow(/3 parameters/);
  expect(() => economicOptimum({ ...good, parameters: [1, 1, Number.NaN] })).toThrow(/finite/);
  expect(() => economicOptimum({ ...good, lowestDose: 30 })).toThrow(/lowestDose/);
  expect(() => economicOptimum({ ...good, form: "cubic" as "quadratic" })).toThrow(/form must be one of/);
});
