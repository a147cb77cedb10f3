import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { studentTQuantile } from "../../../src/statistics/distributions/student-t.ts";
import { decimalRemainder } from "../../../src/statistics/linear-algebra/typed-decimal.ts";
import type { ModelTerm } from "../../../src/statistics/linear-models/design-columns.ts";
import { linearContrast } from "../../../src/statistics/linear-models/linear-contrast.ts";
import { type LinearModel, linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import { assertClose, digitsAgreed, expectAgreement } from "../../agreement.ts";
import tooth from "../../reference/ancova-ToothGrowth.json" with { type: "json" };
import whiteside from "../../reference/ancova-whiteside.json" with { type: "json" };
import longley from "../../reference/nist-Longley.json" with { type: "json" };
import norris from "../../reference/nist-Norris.json" with { type: "json" };
import peers from "../../reference/nist-peer-lre.json" with { type: "json" };
import wampler1 from "../../reference/nist-Wampler1.json" with { type: "json" };
import wampler2 from "../../reference/nist-Wampler2.json" with { type: "json" };
import wampler3 from "../../reference/nist-Wampler3.json" with { type: "json" };
import cars from "../../reference/ols-cars-quadratic.json" with { type: "json" };
import mtcars from "../../reference/ols-mtcars.json" with { type: "json" };
import trees from "../../reference/ols-trees.json" with { type: "json" };
import npk from "../../reference/rcbd-npk.json" with { type: "json" };
import warp from "../../reference/twoway-warpbreaks.json" with { type: "json" };

const number = (name: string, values: number[]): ModelTerm => ({ kind: "number", name, values });
const factor = (name: string, values: string[], reference?: string): ModelTerm => ({
  kind: "factor",
  name,
  values,
  ...(reference === undefined ? {} : { reference }),
});
const numbers = (data: Record<string, number[]>): ModelTerm[] =>
  Object.entries(data).map(([name, values]) => number(name, values));
const dose = [0, 5, 10, 15, 20, 25];
const grams = [10, 14, 17, 21, 22, 24];

// NIST/SEMATECH Statistical Reference Datasets, linear regression, certified to 15 digits; powers of x are whole numbers
const fifthDegree = (x: number[]) =>
  [1, 2, 3, 4, 5].map((exponent) => number(`x to the ${exponent}`, x.map((one) => one ** exponent))); // biome-ignore format: one list
const { y, ...predictors } = longley.data;

test.each([
  ["Norris", norris, norris.data.y, numbers({ x: norris.data.x })],
  ["Longley", longley, y, numbers(predictors)],
  ["Wampler1", wampler1, wampler1.data.y, fifthDegree(wampler1.data.x)],
  ["Wampler2", wampler2, wampler2.data.y, fifthDegree(wampler2.data.x)],
  ["Wampler3", wampler3, wampler3.data.y, fifthDegree(wampler3.data.x)],
] as const)("NIST %s, with no fewer digits than R 4.2.2 has", (name, file, response, terms) => {
  const { coefficients, residual } = linearModel({ response, terms });
  const { certified } = file.expected;
  const parameters = Object.values(certified.parameters) as { estimate: number; sd: number }[];
  expect([coefficients.length, residual.degreesOfFreedom]).toEqual([parameters.length, certified.residual.df]);
  const pairs = {
    "coef(min)": coefficients.map((one, i) => [one.estimate, parameters[i]!.estimate] as const),
    "se(min)": coefficients.map((one, i) => [one.standardError, parameters[i]!.sd] as const),
    sigma: [[Math.sqrt(residual.meanSquare), certified.residualSD] as const],
  };
  for (const [statistic, own] of Object.entries(pairs)) {
    const row = { method: "linear model", dataset: `NIST ${name}`, statistic, source: "NIST StRD certified values" };
    expectAgreement(row, own, 13.5);
    const peer = peers.rows.find(
      (one) => one.dataset === name && one.procedure === "lm" && one.statistic === statistic,
    )!;
    const worst = Math.min(...own.map(([ours, reference]) => digitsAgreed(ours, reference)));
    expect(worst, `${name} ${statistic}`).toBeGreaterThanOrEqual(peer.lre ?? 0);
  }
});

test.each([
  ["trees", trees.expected, trees.data.Volume, numbers({ Girth: trees.data.Girth, Height: trees.data.Height })],
  ["cars, straight line", cars.expected.simple, cars.data.dist, numbers({ speed: cars.data.speed })],
  [
    "cars, quadratic",
    cars.expected.quadratic,
    cars.data.dist,
    numbers({ speed: cars.data.speed, squared: cars.data.speed.map((one) => one * one) }),
  ],
  ["mtcars", mtcars.expected, mtcars.data.mpg, numbers({ wt: mtcars.data.wt, hp: mtcars.data.hp, qsec: mtcars.data.qsec })], // biome-ignore format: rows
] as const)("%s: R 4.2.2", (dataset, { coefficients, ci95, sigma, dfResidual }, response, terms) => {
  const model = linearModel({ response, terms });
  expect([model.dropped, model.residual.degreesOfFreedom]).toEqual([[], dfResidual]);
  const reach = studentTQuantile(0.975, dfResidual);
  expectAgreement(
    { method: "linear model", dataset, statistic: "coefficients, errors, 95 % limits, sigma", source: "R 4.2.2" },
    [
      [Math.sqrt(model.residual.meanSquare), sigma] as const,
      ...model.coefficients.flatMap(({ estimate, standardError }, i) => [
        [estimate, coefficients.estimate[i]!] as const,
        [standardError, coefficients.se[i]!] as const,
        [estimate - reach * standardError, Object.values(ci95)[i]!["2.5 %"]] as const,
      ]),
    ],
    9,
    1e-12,
  );
});

type Tested = { df: number; F: number | null; p: number | null };

function compareLast(dataset: string, { lastTerm }: LinearModel, expected: Tested) {
  const row = { method: "analysis of variance", dataset, source: "R 4.2.2" };
  expect(lastTerm.degreesOfFreedom).toBe(expected.df);
  expectAgreement({ ...row, statistic: "F" }, [[lastTerm.f, expected.F!]], 9);
  expectAgreement({ ...row, statistic: "p" }, [[lastTerm.p, expected.p!]], 7);
}

describe("each term adjusted for those before it", () => {
  test.each([
    [
      "ToothGrowth",
      tooth.data.len,
      factor("supp", tooth.data.supp),
      "VC",
      number("dose", tooth.data.dose),
      tooth.expected,
    ],
    [
      "whiteside",
      whiteside.data.Gas,
      factor("Insul", whiteside.data.Insul, "Before"),
      "After",
      number("Temp", whiteside.data.Temp),
      whiteside.expected,
    ],
  ] as const)("analysis of covariance on %s", (dataset, response, group, second, line, expected) => {
    // biome-ignore format: rows
    const additive = linearModel({ response, terms: [group, line] });
    const product = line.values.map((value, i) => (group.values[i] === second ? Number(value) : 0));
    const sloped = linearModel({ response, terms: [group, line, number("slope beside it", product)] });
    for (const [model, reference] of [[additive, expected.additive], [sloped, expected.interaction]] as const) {
      expectAgreement(
        { method: "analysis of covariance", dataset, statistic: "coefficients", source: "R 4.2.2" },
        Object.values(reference).flatMap(({ estimate, se }, i) => [
          [model.coefficients[i]!.estimate, estimate] as const,
          [model.coefficients[i]!.standardError, se] as const,
        ]),
        9,
        1e-12,
      );
    } // biome-ignore format: pairs
    const { df1, F, p } = expected.slopeHomogeneity;
    compareLast(`${dataset}, equal slopes`, sloped, { df: df1, F, p });
    // equal slopes: the difference of adjusted means is the factor's coefficient, however it is reached
    const { estimate, standardError } = additive.coefficients[1]!;
    expect(linearContrast(additive, { [`${group.name}: ${second}`]: 1 })).toEqual({ estimate, standardError });
  });

  test("blocks on npk, two factors and their cells on warpbreaks", () => {
    const main = Object.entries({ block: npk.data.block, N: npk.data.N, P: npk.data.P, K: npk.data.K });
    const model = linearModel({ response: npk.data.yield, terms: main.map(([name, values]) => factor(name, values)) });
    compareLast("npk, K beside blocks, N and P", model, npk.expected.mainOnly.K);
    expectAgreement(
      { method: "linear model", dataset: "npk", statistic: "coefficients, standard errors", source: "R 4.2.2" },
      Object.values(npk.expected.coefMainOnly).flatMap(({ estimate, se }, i) => [
        [model.coefficients[i]!.estimate, estimate] as const,
        [model.coefficients[i]!.standardError, se] as const,
      ]),
      9,
    );
    const { breaks, wool, tension } = warp.data;
    const terms = [factor("wool", wool), factor("tension", tension), factor("cell", wool.map((one, i) => one + tension[i]))]; // biome-ignore format: terms
    const cells = linearModel({ response: breaks, terms });
    compareLast("warpbreaks, interaction", cells, warp.expected.anova["wool:tension"]);
    // three of the five columns of cells follow from wool and tension
    expect(cells.dropped).toEqual(["cell", "cell", "cell"]);
  });

  test("a line is the difference of two fitted models: unbalanced warpbreaks", () => {
    const keep = [...warp.data.breaks.keys()].filter((i) => ![0, 1, 2, 10, 20, 21, 30, 45].includes(i));
    const response = keep.map((i) => warp.data.breaks[i]!);
    const wool = factor("wool", keep.map((i) => warp.data.wool[i]!)); // biome-ignore format: one line
    const tension = factor("tension", keep.map((i) => warp.data.tension[i]!)); // biome-ignore format: one line
    const squaresOf = (terms: ModelTerm[]) => {
      const { degreesOfFreedom, meanSquare } = linearModel({ response, terms }).residual;
      return degreesOfFreedom * meanSquare;
    };
    const { lastTerm, residual } = linearModel({ response, terms: [wool, tension] });
    const gained = squaresOf([wool]) - squaresOf([wool, tension]);
    assertClose(lastTerm.f, gained / 2 / residual.meanSquare, 1e-10);
  });
});

test("columns that depend on others are left out, and their term named", () => {
  const droppedOf = (...terms: ModelTerm[]) => linearModel({ response: grams, terms }).dropped;
  const times = (factor: number) => dose.map((one) => one * factor);
  expect(droppedOf(number("dose", dose), number("dose in drops", times(20)))).toEqual(["dose in drops"]);
  const water = number("water", [1, 4, 2, 6, 3, 5]);
  const filled = number("filled", [4, 7, 7, 7, 5, 14]);
  expect(droppedOf(water, number("grain", [3, 3, 5, 1, 2, 9]), filled)).toEqual(["filled"]);
  // fractions that only add up to 1 after rounding to doubles
  const rice = number("rice", [0.1, 0.3, 0.7, 0.6, 0.2, 0.45]);
  expect(droppedOf(rice, number("bran", [0.9, 0.7, 0.3, 0.4, 0.8, 0.55]))).toEqual(["bran"]);
  const seventh = number("rice", times(1 / 7));
  expect(droppedOf(seventh, number("bran", dose.map((one) => 1 - one / 7)))).toEqual(["bran"]); // biome-ignore format: one line
  const constant = number("temperature", [22, 22, 22, 22, 22, 22]);
  expect(droppedOf(constant, number("dose", dose), number("none", [0, 0, 0, 0, 0, 0]))).toEqual([
    "temperature",
    "none",
  ]);
  // a dose given by one cook only cannot be separated from the cook; a factor of one level tells nothing
  const cook = factor("cook", ["A", "A", "A", "B", "B", "B"]);
  expect(droppedOf(cook, factor("dose", ["5", "5", "5", "10", "10", "10"]))).toEqual(["dose"]);
  const one = linearModel({ response: grams, terms: [factor("cook", ["A", "A", "A", "A", "A", "A"])] });
  expect([one.coefficients.length, one.lastTerm]).toEqual([1, { degreesOfFreedom: 0, f: 0, p: 1 }]);
});

test("an exact fit has no error", () => {
  const response = dose.map((one) => 0.1 + 0.3 * one);
  const fitOf = (...terms: ModelTerm[]) => linearModel({ response, terms });
  const model = fitOf(number("dose", dose), number("other", [3, 1, 2, 2, 1, 5]));
  expect(model.residual.meanSquare).toBe(0);
  expect(model.coefficients.map(({ standardError }) => standardError)).toEqual([0, 0, 0]);
  expect([model.coefficients[2]!.estimate, model.lastTerm.f]).toEqual([0, 0]);
  expect(fitOf(number("dose", dose)).lastTerm).toMatchObject({ f: Number.POSITIVE_INFINITY, p: 0 });
});

test("no number in a result is ever NaN", () => {
  const small = fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 7, maxLength: 7 });
  const cooks = fc.array(fc.constantFrom("A", "B", "C"), { minLength: 7, maxLength: 7 });
  fc.assert(
    fc.property(small, small, cooks, (response, values, cook) => {
      fc.pre(new Set(response).size > 1);
      const model = linearModel({ response, terms: [number("x", values), factor("cook", cook)] });
      const text = JSON.stringify(model, (_, value) => (Number.isNaN(value) ? "NaN" : value));
      expect(text).not.toContain("NaN");
    }),
    { numRuns: 150, seed: 11 },
  );
});

test("order of rows and unit of the response change no test; the reference level none but the names", () => {
  const cook = ["A", "B", "A", "C", "B", "C"];
  const turn = <T>(values: T[]): T[] => [3, 0, 5, 1, 4, 2].map((i) => values[i]!);
  const plain = linearModel({ response: grams, terms: [number("dose", dose), factor("cook", cook)] });
  const moved = linearModel({
    response: turn(grams).map((one) => one / 28.349523125),
    terms: [number("dose", turn(dose)), factor("cook", turn(cook))],
  });
  const ratio = ({ estimate, standardError }: { estimate: number; standardError: number }) => estimate / standardError;
  expect(moved.coefficients.map(({ name }) => name)).toEqual(plain.coefficients.map(({ name }) => name));
  plain.coefficients.forEach((one, i) => {
    assertClose(ratio(moved.coefficients[i]!), ratio(one), 1e-9);
  });
  const other = linearModel({ response: grams, terms: [number("dose", dose), factor("cook", cook, "C")] });
  assertClose(ratio(linearContrast(other, { "cook: B": 1, "cook: A": -1 })), ratio(plain.coefficients[2]!), 1e-10);
  const twice = [number("dose", dose), number("twice", dose.map((one) => 2 * one))]; // biome-ignore format: terms
  const doubled = linearModel({ response: grams, terms: twice });
  expect(linearContrast(doubled, { dose: 1 })).toEqual(
    linearContrast(linearModel({ response: grams, terms: twice.slice(0, 1) }), { dose: 1 }),
  );
  expect(() => linearContrast(doubled, { twice: 1 })).toThrow('must name a coefficient ("intercept", "dose")');
});

test("wrong calls name what was received", () => {
  const attempt =
    (...terms: ModelTerm[]) =>
    () =>
      linearModel({ response: grams, terms });
  const halves = ["A", "A", "A", "B", "B", "B"];
  expect(attempt(number("dose", [1, 2]))).toThrow(/response and dose must be equally long; received 6 and 2/);
  expect(attempt(number("dose", [1, 2, 3, 4, 5, Number.NaN]))).toThrow(/dose must be finite numbers; value 6 is NaN/);
  expect(attempt(number("dose", [1, 2, 3, 4, 5, 1e200]))).toThrow(/must stay below 1e\+140; received 1e\+200/);
  expect(attempt(number("dose", dose), number("dose", dose))).toThrow(
    /different names, none empty or "intercept"; received "dose"/,
  );
  expect(attempt(number("intercept", dose))).toThrow(/received "intercept"/);
  expect(attempt(factor("cook", halves, "C"))).toThrow(/must be one of its levels; received "C"/);
  expect(() => linearModel({ response: [5], terms: [] })).toThrow(/at least 2 values; received 1/);
  expect(() => linearModel({ response: [1, 2], terms: [number("dose", [1, 2])] })).toThrow(
    /more rows than coefficients; received 2 rows and 2 coefficients/,
  );
  expect(() => linearModel({ response: [0.1, 0.1, 0.1], terms: [number("dose", [1, 2, 4])] })).toThrow(
    /the response must vary; received 0.1 in every row/,
  );
  expect(() => linearModel({ response: [1, Number.POSITIVE_INFINITY, 2], terms: [] })).toThrow(RangeError);
  const model = linearModel({ response: grams, terms: [number("dose", dose), factor("cook", halves)] });
  expect(() => linearContrast(model, { "cook: C": 1 })).toThrow(/must name a coefficient .*; received "cook: C"/);
  expect(() => linearContrast(model, { "cook: B": 0 })).toThrow(/must not all be 0/);
});

test("what a double misses of the decimal it was typed as", () => {
  expect(decimalRemainder(0.1)).toBe(-5.551115123125783e-18);
  expect([0.5, 3, 1e22, -0.25].map(decimalRemainder)).toEqual([0, 0, 0, 0]);
  expect(decimalRemainder(-0.1)).toBe(5.551115123125783e-18);
  // the result of arithmetic is taken as stored
  expect([decimalRemainder(1 / 3), decimalRemainder(0.1 + 0.2)]).toEqual([0, 0]);
});
