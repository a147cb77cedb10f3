import { describe, expect, test } from "vitest";
import { customForm } from "../../../src/statistics/curves/curve-form.ts";
import { type CurveFormName, curveForms } from "../../../src/statistics/curves/curve-forms.ts";
import { type FitCurveInput, type FittedCurve, fitCurve } from "../../../src/statistics/curves/fit-curve.ts";
import { fitCurves } from "../../../src/statistics/curves/fit-curves.ts";
import { studentTQuantile } from "../../../src/statistics/distributions/student-t.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import { type NonlinearReference, reference } from "./fixtures.ts";

function fitted(input: FitCurveInput): FittedCurve {
  const fit = fitCurve(input);
  if (fit.kind !== "fitted") throw new Error(fit.reason);
  return fit;
}

function reasonOf(input: FitCurveInput): string {
  const fit = fitCurve(input);
  if (fit.kind !== "not-fitted") throw new Error(`${fit.name} was fitted`);
  return fit.reason;
}

const puromycin = reference<NonlinearReference>("nonlinear-Puromycin").data;
const treated = puromycin.state!.flatMap((state, i) => (state === "treated" ? [i] : []));
const concentration = treated.map((i) => Number(puromycin.conc![i]));
const rate = treated.map((i) => Number(puromycin.rate![i]));

/** Doses 4 to 20 in four blocks, `perCell` trays each, about a given curve. */
function blockedTrial(seed: number, perCell: number, curve: (dose: number) => number, noise: number) {
  const random = seededRandom(seed);
  const doses: number[] = [];
  const responses: number[] = [];
  const blocks: string[] = [];
  for (const block of ["a", "b", "c", "d"]) {
    const offset = 6 * random.normal();
    for (const dose of [4, 8, 12, 16, 20]) {
      for (let tray = 0; tray < perCell; tray++) {
        doses.push(dose);
        blocks.push(block);
        responses.push(curve(dose) + offset + noise * random.normal());
      }
    }
  }
  return { doses, responses, blocks };
}

describe("profile intervals", () => {
  test("Puromycin, treated: R's profile of the Michaelis-Menten fit (from memory; R interpolates, hence 4 digits)", () => {
    const [ceiling, half] = fitted({ form: "hyperbola", doses: concentration, responses: rate }).parameters;
    expectAgreement(
      {
        method: "profile-likelihood interval, saturating hyperbola",
        dataset: "Puromycin mmTreated",
        statistic: "both ends, both parameters",
        source: "R, confint of nls (from memory)",
      },
      [
        [ceiling!.interval.low, 197.30213],
        [ceiling!.interval.high, 229.29006],
        [half!.interval.low, 0.04692517],
        [half!.interval.high, 0.08615995],
      ],
      3.5,
    );
    expect(half!.intervalMethod).toBe("profile likelihood");
  });

  test("another route: with K held at an end, a straight-line fit through 0 is worse by t^2 variances", () => {
    const fit = fitted({ form: "hyperbola", doses: concentration, responses: rate });
    const t = studentTQuantile(0.975, fit.degreesOfFreedom);
    const { low, high } = fit.parameters[1]!.interval;
    for (const half of [low, high]) {
      const z = concentration.map((x) => x / (half + x));
      const slope =
        z.reduce((sum, value, i) => sum + value * rate[i]!, 0) / z.reduce((sum, value) => sum + value ** 2, 0);
      const left = z.reduce((sum, value, i) => sum + (rate[i]! - slope * value) ** 2, 0);
      assertClose((left - fit.residualSumOfSquares) / fit.sigma ** 2, t * t, 1e-6);
    }
  });

  test("plateau joins: with the join held at an end, the two-column fit is worse by t^2 variances", () => {
    for (const form of ["linear-plateau", "quadratic-plateau"] as const) {
      const fit = fitted({ form, doses: concentration, responses: rate });
      const t = studentTQuantile(0.975, fit.degreesOfFreedom);
      const { low, high, lowOpen, highOpen } = fit.parameters[2]!.interval;
      for (const [join, open] of [
        [low, lowOpen],
        [high, highOpen],
      ] as const) {
        if (open) continue;
        const z = concentration.map((x) =>
          form === "linear-plateau" ? Math.min(x, join) : (Math.min(x, join) - join) ** 2,
        );
        const line = fitted({ form: "straight-line", doses: z, responses: rate });
        assertClose((line.residualSumOfSquares - fit.residualSumOfSquares) / fit.sigma ** 2, t * t, 1e-5);
      }
    }
  });

  test("linear forms: the profile is the t interval", () => {
    const fit = fitted({ form: "quadratic", doses: concentration, responses: rate });
    for (const { interval, waldInterval } of fit.parameters) {
      expect([interval.low, interval.high]).toEqual([waldInterval.low, waldInterval.high]);
    }
  });

  test("a side without a limit is said: nitrogen on oats hardly bends, so the rise has no upper limit", () => {
    const oats = reference<NonlinearReference>("nonlinear-OatsNitro").data;
    const fit = fitted({
      form: "asymptotic-exponential",
      doses: oats.nitro!.map(Number),
      responses: oats.yield!.map(Number),
    });
    const [, rise, speed] = fit.parameters;
    expect(rise!.interval).toMatchObject({ highOpen: true, high: Number.POSITIVE_INFINITY, lowOpen: false });
    expect(speed!.interval).toMatchObject({ lowOpen: true, low: 0 });
    expect(fit.remarks.join()).toContain("no limit on one side of b and k");
  });

  test("profile left out on request", () => {
    const [ceiling] = fitted({ form: "hyperbola", doses: concentration, responses: rate, profile: false }).parameters;
    expect(ceiling!.intervalMethod).toBe("t interval, approximate");
  });
});

describe("lack of fit against pure error", () => {
  test("six sizes of gift and new accounts: Kutner, Nachtsheim, Neter and Li, Applied Linear Statistical Models, section 3.7 (from memory, recomputed)", () => {
    const doses = [125, 100, 200, 75, 150, 175, 75, 175, 125, 200, 100];
    const responses = [160, 112, 124, 28, 152, 156, 42, 124, 150, 104, 136];
    const fit = fitted({ form: "straight-line", doses, responses });
    assertClose(fit.residualSumOfSquares, 14741.6, 0.05);
    if (fit.lackOfFit.kind !== "tested") throw new Error(fit.lackOfFit.reason);
    const { lackSumOfSquares, pureSumOfSquares, lackDegreesOfFreedom, pureDegreesOfFreedom, f, p, replicates } =
      fit.lackOfFit;
    assertClose(pureSumOfSquares, 1148, 0.05);
    assertClose(lackSumOfSquares, 13593.6, 0.05);
    expect([lackDegreesOfFreedom, pureDegreesOfFreedom]).toEqual([4, 5]);
    assertClose(f, 14.8, 0.005);
    assertClose(p, 0.006, 0.0005);
    expect(replicates).toBe("same dose");
  });
  test("with blocks, replicates share the dose and the block", () => {
    const { lackOfFit } = fitted({ form: "quadratic", ...blockedTrial(3, 2, (x) => 40 + 6 * x - 0.2 * x * x, 3) });
    expect(lackOfFit).toMatchObject({
      kind: "tested",
      replicates: "same dose and block",
      pureDegreesOfFreedom: 20,
      lackDegreesOfFreedom: 14,
    });
  });
  test("not tested without replicates, or with as many parameters as doses, or when replicates agree exactly", () => {
    const single = fitted({ form: "straight-line", doses: [1, 2, 3, 4], responses: [1, 2, 3, 5] });
    expect(single.lackOfFit).toMatchObject({
      kind: "not-tested",
      reason: expect.stringContaining("pure error is unknown"),
    });
    const full = fitted({ form: "straight-line", doses: [1, 1, 2, 2], responses: [1, 2, 3, 5] });
    expect(full.lackOfFit).toMatchObject({ reason: expect.stringContaining("as many parameters") });
    const same = fitted({ form: "straight-line", doses: [1, 1, 2, 2, 3, 3], responses: [1, 1, 3, 3, 4, 4] });
    expect(same.lackOfFit).toMatchObject({ reason: expect.stringContaining("pure error is 0") });
  });
});

describe("blocks and weights", () => {
  const trial = blockedTrial(5, 3, (x) => 20 + 60 * (1 - Math.exp(-0.25 * x)), 2);
  test("in a balanced trial the curve stays put and the block sum of squares leaves the residual", () => {
    const { doses, responses, blocks } = trial;
    const grand = responses.reduce((sum, y) => sum + y, 0) / responses.length;
    const means = ["a", "b", "c", "d"].map((name) => {
      const own = responses.filter((_, i) => blocks[i] === name);
      return own.reduce((sum, y) => sum + y, 0) / own.length;
    });
    const between = means.reduce((sum, mean) => sum + 15 * (mean - grand) ** 2, 0);
    for (const form of [
      "straight-line",
      "quadratic",
      "asymptotic-exponential",
      "linear-plateau",
      "quadratic-plateau",
    ] as const) {
      const plain = fitted({ form, doses, responses });
      const blocked = fitted({ form, doses, responses, blocks });
      plain.estimates.forEach((value, j) => {
        assertClose(blocked.estimates[j]!, value, 1e-6 * Math.abs(value));
      });
      assertClose(
        blocked.residualSumOfSquares,
        plain.residualSumOfSquares - between,
        1e-7 * plain.residualSumOfSquares,
      );
      expect(blocked.degreesOfFreedom).toBe(plain.degreesOfFreedom - 3);
      blocked.blockOffsets.forEach(({ offset }, k) => {
        assertClose(offset, means[k]! - grand, 1e-6);
      });
      expect(blocked.meanAt(10).standardError).toBeLessThan(plain.meanAt(10).standardError);
    }
  });
  test("block offsets sum to 0 in an unbalanced trial, and fitted values are curve plus offset", () => {
    const keep = trial.doses.flatMap((_, i) => (i % 7 === 3 || i % 11 === 0 ? [] : [i]));
    const doses = keep.map((i) => trial.doses[i]!);
    const fit = fitted({
      form: "asymptotic-exponential",
      doses,
      responses: keep.map((i) => trial.responses[i]!),
      blocks: keep.map((i) => trial.blocks[i]!),
    });
    assertClose(
      fit.blockOffsets.reduce((sum, { offset }) => sum + offset, 0),
      0,
      1e-9,
    );
    const first = fit.blockOffsets.find(({ block }) => block === trial.blocks[keep[0]!])!;
    assertClose(fit.fitted[0]!, fit.meanAt(doses[0]!).mean + first.offset, 1e-9);
    const free = fitted({ form: "hyperbola-with-offset", ...trial });
    expect(free.parameters.every(({ standardError }) => standardError > 0)).toBe(true);
  });
  test("one dose per block: blocks and doses cannot be separated", () => {
    const doses = [1, 1, 2, 2, 3, 3, 4, 4];
    const blocks = doses.map((dose) => `cook ${dose}`);
    const responses = [1, 2, 2, 3, 4, 4, 5, 6];
    expect(reasonOf({ form: "straight-line", doses, responses, blocks })).toContain("apart");
  });
  test("a weight of 2 is a tray counted twice", () => {
    const weights = concentration.map((_, i) => (i % 3 === 0 ? 2 : 1));
    const repeated = concentration.flatMap((_, i) => (i % 3 === 0 ? [i, i] : [i]));
    for (const form of [
      "quadratic",
      "hyperbola",
      "linear-plateau",
      "quadratic-plateau",
      "asymptotic-exponential",
    ] as const) {
      const weighted = fitted({ form, doses: concentration, responses: rate, weights, profile: false });
      const counted = fitted({
        form,
        doses: repeated.map((i) => concentration[i]!),
        responses: repeated.map((i) => rate[i]!),
        profile: false,
      });
      weighted.estimates.forEach((value, j) => {
        assertClose(counted.estimates[j]!, value, 1e-8 * Math.abs(value));
      });
      assertClose(weighted.residualSumOfSquares, counted.residualSumOfSquares, 1e-9 * counted.residualSumOfSquares);
    }
  });
});

describe("properties", () => {
  test("order of trays and units of dose and response do not matter", () => {
    const order = seededRandom(2).shuffle(concentration.map((_, i) => i));
    for (const form of Object.keys(curveForms) as CurveFormName[]) {
      const plain = fitCurve({ form, doses: concentration, responses: rate, profile: false });
      const changed = fitCurve({
        form,
        doses: order.map((i) => 1000 * concentration[i]!),
        responses: order.map((i) => rate[i]! / 28.35),
        profile: false,
      });
      expect(changed.kind).toBe(plain.kind);
      if (plain.kind !== "fitted" || changed.kind !== "fitted") continue;
      assertClose(changed.sigma * 28.35, plain.sigma, 1e-7 * plain.sigma);
      assertClose(changed.meanAt(300).mean * 28.35, plain.meanAt(0.3).mean, 1e-6 * plain.meanAt(0.3).mean);
    }
  });
  test("Mitscherlich and the asymptotic exponential are one curve: A = a + b, s = ln(A / b) / k", () => {
    const [a, b, k] = fitted({ form: "asymptotic-exponential", doses: concentration, responses: rate }).estimates;
    const fit = fitted({ form: "mitscherlich", doses: concentration, responses: rate });
    assertClose(fit.estimates[0]!, a! + b!, 1e-8);
    assertClose(fit.estimates[1]!, k!, 1e-9);
    assertClose(fit.estimates[2]!, Math.log((a! + b!) / b!) / k!, 1e-9);
  });
  test("the band of a straight line: sigma sqrt(1/n + (x - mean)^2 / Sxx), Draper and Smith section 1.4 (from memory)", () => {
    const fit = fitted({ form: "straight-line", doses: concentration, responses: rate });
    const n = concentration.length;
    const mean = concentration.reduce((sum, x) => sum + x, 0) / n;
    const spread = concentration.reduce((sum, x) => sum + (x - mean) ** 2, 0);
    const at = fit.meanAt(0.9);
    assertClose(at.standardError, fit.sigma * Math.sqrt(1 / n + (0.9 - mean) ** 2 / spread), 1e-10);
    assertClose(at.high - at.low, 2 * studentTQuantile(0.975, n - 2) * at.standardError, 1e-10);
    expect(fit.meanAt(0.9, 0.5).high).toBeLessThan(at.high);
  });
  test("analytic derivatives of every form agree with differences", () => {
    const places: Record<string, number[]> = {
      "no-response": [3],
      "straight-line": [3, 2],
      quadratic: [3, 2, -0.1],
      "asymptotic-exponential": [3, 20, 0.3],
      mitscherlich: [30, 0.3, 1.5],
      "exponential-through-origin": [30, 0.3],
      hyperbola: [30, 2.5],
      "hyperbola-with-offset": [3, 30, 2.5],
      "linear-plateau": [3, 2, 6.3],
      "quadratic-plateau": [30, -0.4, 6.3],
      logistic: [30, 4, 1.2],
      "logistic-with-floor": [3, 30, 4, 1.2],
      richards: [30, 3, 0.8, 1.4],
    };
    for (const form of Object.values(curveForms)) {
      const parameters = places[form.name]!;
      const own = new Float64Array(parameters.length);
      const other = new Float64Array(parameters.length);
      const numeric = customForm({ name: "n", parameters: form.parameters, value: form.value, starts: [parameters] });
      for (const x of [0, 1, 4, 9]) {
        form.gradient(x, parameters, own);
        numeric.gradient(x, parameters, other);
        own.forEach((value, j) => {
          assertClose(value, other[j]!, 1e-7 * (1 + Math.abs(value)));
        });
      }
    }
  });
});

describe("a form of one's own", () => {
  test("without derivatives: NIST Misra1b, y = b1 (1 - (1 + b2 x / 2)^-2), on the Misra1a data (certified values from memory)", () => {
    const file = reference<{ data: { x: number[]; y: number[] } }>("nist-Misra1a");
    const form = customForm({
      name: "misra1b",
      parameters: ["b1", "b2"],
      value: (x, p) => p[0]! * (1 - (1 + (p[1]! * x) / 2) ** -2),
      starts: [[500, 0.0001]],
    });
    const fit = fitted({ form, doses: file.data.x, responses: file.data.y });
    expectAgreement(
      {
        method: "nonlinear least squares, a form of one's own without derivatives",
        dataset: "NIST Misra1b",
        statistic: "parameters and residual sum of squares",
        source: "NIST Statistical Reference Datasets (from memory)",
      },
      [
        [fit.estimates[0]!, 337.99746163],
        [fit.estimates[1]!, 3.9039091287e-4],
        [fit.residualSumOfSquares, 0.075464681533],
      ],
      8,
    );
  });
  test("wrong calls", () => {
    const value = () => 1;
    expect(() => customForm({ name: "x", parameters: [], value, starts: [[]] })).toThrow(/parameter/);
    expect(() => customForm({ name: "x", parameters: ["a"], value, starts: [] })).toThrow(/starts/);
  });
});

describe("what cannot be fitted is said in words", () => {
  const doses = [1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4];
  const flat = doses.map(() => 7);
  const convex = doses.map((x, i) => x * x + 0.01 * (i % 3));
  const step = doses.map((x, i) => (x > 1 ? 9 : 2) + 0.1 * (i % 3));
  test.each<[string, FitCurveInput, RegExp]>([
    [
      "two doses",
      { form: "quadratic", doses: [1, 1, 2, 2], responses: [1, 2, 3, 4] },
      /at least 3 different doses; there are 2/,
    ],
    [
      "one dose",
      { form: "straight-line", doses: [2, 2, 2], responses: [1, 2, 3] },
      /at least 2 different doses; there is 1/,
    ],
    [
      "as many parameters as values",
      { form: "quadratic", doses: [1, 2, 3], responses: [1, 2, 2] },
      /3 values for 3 parameters/,
    ],
    ["flat", { form: "asymptotic-exponential", doses, responses: flat }, /flat data cannot fix b and k/],
    ["flat, plateau", { form: "linear-plateau", doses, responses: flat }, /flat data cannot fix b and c/],
    ["bends upwards", { form: "asymptotic-exponential", doses, responses: convex }, /no flattening: the rate k/],
    ["bends upwards, hyperbola", { form: "hyperbola-with-offset", doses, responses: convex }, /no flattening/],
    [
      "bends upwards, plateau",
      { form: "linear-plateau", doses, responses: convex },
      /no plateau within the tested doses/,
    ],
    ["bends upwards, quadratic plateau", { form: "quadratic-plateau", doses, responses: convex }, /no flattening/],
    ["all in one step", { form: "asymptotic-exponential", doses, responses: step }, /no upper limit/],
    [
      "all in one step, quadratic plateau",
      { form: "quadratic-plateau", doses, responses: step },
      /at or below the second dose/,
    ],
    [
      "negative doses",
      { form: "hyperbola", doses: doses.map((x) => x - 3), responses: step },
      /hyperbola|starting values|minimum/,
    ],
  ])("%s", (_name, input, reason) => {
    expect(reasonOf(input)).toMatch(reason);
  });
  test("a step leaves the join of a linear plateau at the second dose, with a remark", () => {
    const fit = fitted({ form: "linear-plateau", doses, responses: step });
    expect(fit.estimates[2]).toBe(2);
    expect(fit.remarks.join()).toContain("at or below the second dose");
  });
  test("a start where the curve has no value: the data's own start is used, and it is said", () => {
    const input: FitCurveInput = { form: "hyperbola", doses: concentration, responses: rate };
    const fit = fitted({ ...input, start: [1, -1] });
    expect(fit.estimates).toEqual(fitted(input).estimates);
    expect(fit.remarks.join()).toContain("given starting values failed");
    const value = (x: number, p: ArrayLike<number>) => Math.log(p[0]!) * x;
    const form = customForm({ name: "log slope", parameters: ["a"], value, starts: [[-1]] });
    expect(reasonOf({ form, doses, responses: flat.map((y, i) => y + i), start: [-2] })).toContain(
      "no value at the starting values -2",
    );
  });
  test("flat data still have a straight line", () => {
    const fit = fitted({ form: "straight-line", doses, responses: flat });
    assertClose(fit.estimates[0]!, 7, 1e-12);
    assertClose(fit.estimates[1]!, 0, 1e-12);
    expect(fit.residualSumOfSquares).toBe(0);
    expect(fit.aicc).toBe(Number.NEGATIVE_INFINITY);
  });
  test("a perfect curve: no residual, no NaN", () => {
    const fit = fitted({ form: "quadratic", doses, responses: doses.map((x) => 1 + 2 * x - 0.5 * x * x) });
    expect(fit.sigma).toBe(0);
    expect(fit.parameters.map(({ p }) => p)).toEqual([0, 0, 0]);
    assertClose(fit.estimates[2]!, -0.5, 1e-12);
  });
});

test("bootstrap intervals on request: the same seed, the same interval, near the profile", () => {
  const trial = blockedTrial(5, 3, (x) => 20 + 60 * (1 - Math.exp(-0.25 * x)), 2);
  const input: FitCurveInput = { form: "asymptotic-exponential", ...trial, bootstrap: { replicates: 500, seed: 4 } };
  const [first, second] = [fitted(input), fitted(input)];
  const [a, b] = [first, second].map((fit) => fit.parameters[2]!.bootstrapInterval!);
  expect(a).toEqual(b);
  const profile = first.parameters[2]!.interval;
  expect((a!.high - a!.low) / (profile.high - profile.low)).toBeGreaterThan(0.6);
  expect((a!.high - a!.low) / (profile.high - profile.low)).toBeLessThan(1.5);
  expect(first.bootstrapUnsettled).toBeLessThan(25);
});

test("profile intervals cover the true rate at their level (simulation, 200 trials)", () => {
  let [covered, found] = [0, 0];
  for (let seed = 1; seed <= 200; seed++) {
    const trial = blockedTrial(seed, 2, (x) => 20 + 60 * (1 - Math.exp(-0.2 * x)), 4);
    const fit = fitCurve({ form: "asymptotic-exponential", ...trial });
    if (fit.kind !== "fitted") continue;
    found++;
    const { low, high } = fit.parameters[2]!.interval;
    if (low <= 0.2 && 0.2 <= high) covered++;
  }
  expect(found).toBeGreaterThan(190);
  expect(covered / found).toBeGreaterThan(0.95 - 2 * Math.sqrt((0.95 * 0.05) / 200));
});

describe("several forms at once", () => {
  test("ranked by AICc with weights; the form the data came from does well; failures carry their reason", () => {
    const trial = blockedTrial(12, 3, (x) => 40 + 6 * x - 0.2 * x * x, 1.5);
    const { ranked, notFitted } = fitCurves({ ...trial, profile: false });
    expect(ranked.length + notFitted.length).toBe(6);
    assertClose(
      ranked.reduce((sum, { weight }) => sum + weight, 0),
      1,
      1e-12,
    );
    for (let k = 1; k < ranked.length; k++) {
      expect(ranked[k]!.aicc).toBeGreaterThanOrEqual(ranked[k - 1]!.aicc);
      assertClose(ranked[k]!.weight / ranked[0]!.weight, Math.exp(-ranked[k]!.difference / 2), 1e-12);
    }
    expect(ranked[0]!.fit.name).toBe("quadratic");
    for (const { reason } of notFitted) expect(reason.length).toBeGreaterThan(20);
  });
  test("a plateau that would start beyond the doses is the quadratic, and is not counted twice", () => {
    const oats = reference<NonlinearReference>("nonlinear-OatsNitro").data;
    const { ranked, notFitted } = fitCurves({
      doses: oats.nitro!.map(Number),
      responses: oats.yield!.map(Number),
      profile: false,
    });
    expect(ranked.map(({ fit }) => fit.name)).not.toContain("quadratic-plateau");
    expect(notFitted.find(({ name }) => name === "quadratic-plateau")!.reason).toContain("same curve as the quadratic");
  });
  test("two doses leave the straight line only; one dose nothing", () => {
    const two = fitCurves({ doses: [1, 1, 2, 2], responses: [1, 2, 3, 4] });
    expect(two.ranked.map(({ fit }) => fit.name)).toEqual(["straight-line"]);
    const one = fitCurves({ doses: [1, 1, 1, 1], responses: [1, 2, 3, 4] });
    expect(one.ranked).toEqual([]);
    expect(one.notFitted.length).toBe(6);
  });
});

test("wrong calls", () => {
  const good: FitCurveInput = { form: "straight-line", doses: [1, 2, 3], responses: [1, 2, 4] };
  expect(() => fitCurve({ ...good, doses: [] })).toThrow(/must not be empty/);
  expect(() => fitCurve({ ...good, doses: [1, 2] })).toThrow(/equally long/);
  expect(() => fitCurve({ ...good, responses: [1, Number.NaN, 2] })).toThrow(/responses must be finite/);
  expect(() => fitCurve({ ...good, doses: [1, Number.POSITIVE_INFINITY, 2] })).toThrow(/doses must be finite/);
  expect(() => fitCurve({ ...good, weights: [1, 0, 1] })).toThrow(/weights must be above 0/);
  expect(() => fitCurve({ ...good, blocks: ["a"] })).toThrow(/equally long/);
  expect(() => fitCurve({ ...good, level: 1 })).toThrow(/level/);
  expect(() => fitCurve({ ...good, start: [1] })).toThrow(/start must hold a, b/);
  expect(() => fitCurve({ ...good, form: "cubic" as "quadratic" })).toThrow(/form must be one of/);
  expect(() => fitCurve({ ...good, bootstrap: { replicates: 0, seed: 1 } })).toThrow(/replicates/);
  const fit = fitted(good);
  expect(() => fit.meanAt(Number.NaN)).toThrow(/dose/);
  expect(() => fit.meanAt(1, 2)).toThrow(/level/);
});
