import fc from "fast-check";
import { expect, test } from "vitest";
import { decimalRemainder } from "../../../src/statistics/linear-algebra/typed-decimal.ts";
import { linearContrast } from "../../../src/statistics/linear-models/linear-contrast.ts";
import { linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import type { ModelTerm } from "../../../src/statistics/linear-models/model-term.ts";
import { sequentialTests } from "../../../src/statistics/linear-models/term-sums-of-squares.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";

const dose = [0, 5, 10, 15, 20, 25];
const grams = [10, 14, 17, 21, 22, 24];
const number = (name: string, values: number[]): ModelTerm => ({ kind: "number", name, values });
const factor = (name: string, values: string[], reference?: string): ModelTerm => ({
  kind: "factor",
  name,
  values,
  reference,
});

test("a tenth-degree polynomial keeps its digits: exact rational arithmetic (Python fractions) on the same decimals", () => {
  const x = Array.from({ length: 82 }, (_, i) => Number(`${(-900 + 7 * i) / 100}`));
  const response = x.map((_, i) => ((i * 37) % 101) / 100);
  const powers = [2, 3, 4, 5, 6, 7, 8, 9, 10].map((exponent) => ({
    kind: "power" as const,
    name: `x to the ${exponent}`,
    values: x,
    exponent,
  }));
  const model = linearModel({ response, terms: [number("x", x), ...powers] });
  expect(model.dropped).toEqual([]);
  expectAgreement(
    {
      method: "linear model",
      dataset: "tenth-degree polynomial, 82 rows",
      statistic: "coefficients, standard errors, residual sum",
      source: "exact rational arithmetic",
    },
    [
      ...[
        -18381.378515340915, -33091.96544094844, -26444.21139049172, -12359.4136682204, -3743.65583630498,
        -768.3576597299248, -108.28175462108824, -10.352029883294316, -0.6428815153170564, -0.023429804301957485,
        -0.00038070098706170747,
      ].map((reference, i) => [model.coefficients[i]!.estimate, reference] as const),
      [model.coefficients[0]!.standardError, 35570.99901022743],
      [model.coefficients[5]!.standardError, 1523.1337227172116],
      [model.coefficients[10]!.standardError, 0.0007582344980623609],
      [model.residual.sumOfSquares, 6.645252038436933],
    ],
    13,
  );
});

test("columns that depend on others are dropped and named", () => {
  const twice = linearModel({
    response: grams,
    terms: [
      number("dose", dose),
      number(
        "dose in drops",
        dose.map((one) => one * 20),
      ),
    ],
  });
  expect(twice.dropped).toEqual([{ name: "dose in drops", term: "dose in drops", because: "equals 20 × dose" }]);
  expect(twice.coefficients.map(({ name }) => name)).toEqual(["intercept", "dose"]);
  expect(sequentialTests(twice).map(({ term }) => term)).toEqual(["dose"]);

  const sum = linearModel({
    response: grams,
    terms: [
      number("water", [1, 4, 2, 6, 3, 5]),
      number("grain", [3, 3, 5, 1, 2, 9]),
      number("filled", [4, 7, 7, 7, 5, 14]),
    ],
  });
  expect(sum.dropped[0]).toMatchObject({ name: "filled", because: "equals water + grain" });

  // fractions that only add up to 1 after rounding to doubles
  const parts = linearModel({
    response: grams,
    terms: [number("rice", [0.1, 0.3, 0.7, 0.6, 0.2, 0.45]), number("bran", [0.9, 0.7, 0.3, 0.4, 0.8, 0.55])],
  });
  expect(parts.dropped[0]).toMatchObject({ name: "bran", because: "equals intercept - rice" });
  const computed = linearModel({
    response: grams,
    terms: [
      number(
        "rice",
        dose.map((one) => one / 7),
      ),
      number(
        "bran",
        dose.map((one) => 1 - one / 7),
      ),
    ],
  });
  expect(computed.dropped.map(({ name }) => name)).toEqual(["bran"]);

  const constant = linearModel({
    response: grams,
    terms: [number("temperature", [22, 22, 22, 22, 22, 22]), number("dose", dose), number("none", [0, 0, 0, 0, 0, 0])],
  });
  expect(constant.dropped.map(({ name, because }) => `${name} ${because}`)).toEqual([
    "temperature is 22 in every row",
    "none is 0 in every row",
  ]);
});

test("a dose given by one cook only cannot be separated from the cook", () => {
  const model = linearModel({
    response: grams,
    terms: [factor("cook", ["A", "A", "A", "B", "B", "B"]), factor("dose", ["5", "5", "5", "10", "10", "10"])],
  });
  expect(model.dropped).toEqual([{ name: "dose: 5", term: "dose", because: "equals intercept - cook: B" }]);
  expect(() => linearContrast(model, { "dose: 5": 1 })).toThrow(/was left out of the model because it equals/);
});

test("an empty combination of an interaction is named, and a factor of one level tells nothing", () => {
  const cook = ["A", "A", "A", "B", "B", "B"];
  const shelf = ["1", "1", "2", "1", "1", "1"];
  const model = linearModel({
    response: grams,
    terms: [factor("cook", cook), factor("shelf", shelf), { kind: "interaction", of: ["cook", "shelf"] }],
  });
  expect(model.dropped).toEqual([{ name: "cook: B × shelf: 2", term: "cook × shelf", because: "is 0 in every row" }]);
  const one = linearModel({ response: grams, terms: [factor("cook", ["A", "A", "A", "A", "A", "A"])] });
  expect([one.coefficients.length, one.regression.degreesOfFreedom, one.regression.f, one.regression.p]).toEqual([
    1, 0, 0, 1,
  ]);
});

test("an exact fit has no error, and says so", () => {
  const model = linearModel({
    response: dose.map((one) => 0.1 + 0.3 * one),
    terms: [number("dose", dose), number("other", [3, 1, 2, 2, 1, 5])],
  });
  expect([model.exactFit, model.residualStandardDeviation, model.rSquared]).toEqual([true, 0, 1]);
  expect(model.regression.f).toBe(Number.POSITIVE_INFINITY);
  expect(model.coefficients.map(({ t, p }) => [t, p])).toEqual([
    [Number.POSITIVE_INFINITY, 0],
    [Number.POSITIVE_INFINITY, 0],
    [0, 1],
  ]);
  expect(sequentialTests(model).map(({ f }) => f)).toEqual([Number.POSITIVE_INFINITY, 0]);
});

test("no number in a result is ever NaN", () => {
  const small = fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 7, maxLength: 7 });
  fc.assert(
    fc.property(
      small,
      small,
      fc.array(fc.constantFrom("A", "B", "C"), { minLength: 7, maxLength: 7 }),
      (response, values, cook) => {
        fc.pre(new Set(response).size > 1);
        const model = linearModel({ response, terms: [number("x", values), factor("cook", cook)] });
        const text = JSON.stringify([{ ...model, working: 0 }, sequentialTests(model)], (_, value) =>
          Number.isNaN(value) ? "NaN" : value,
        );
        expect(text).not.toContain("NaN");
      },
    ),
    { numRuns: 150, seed: 11 },
  );
});

test("weights: rows repeated and rows weighted give one set of estimates", () => {
  const weights = [1, 3, 2, 1, 2, 4];
  const weighted = linearModel({ response: grams, terms: [number("dose", dose)], weights });
  const repeat = <T>(values: T[]): T[] => values.flatMap((value, i) => new Array<T>(weights[i]!).fill(value));
  const repeated = linearModel({ response: repeat(grams), terms: [number("dose", repeat(dose))] });
  weighted.coefficients.forEach(({ estimate }, i) => {
    assertClose(estimate, repeated.coefficients[i]!.estimate, 1e-12);
  });
  assertClose(weighted.residual.sumOfSquares, repeated.residual.sumOfSquares, 1e-10);
  assertClose(weighted.rSquared, repeated.rSquared, 1e-12);
  assertClose(
    weighted.coefficients[1]!.standardError * Math.sqrt(4 / 11),
    repeated.coefficients[1]!.standardError,
    1e-12,
  );
  // only ratios of weights matter, except for a new observation of weight 1
  const scaled = linearModel({
    response: grams,
    terms: [number("dose", dose)],
    weights: weights.map((one) => one * 7),
  });
  assertClose(scaled.coefficients[1]!.standardError, weighted.coefficients[1]!.standardError, 1e-12);
});

test("without an intercept everything is measured from 0", () => {
  const model = linearModel({ response: [2, 4, 7], terms: [number("dose", [1, 2, 3])], intercept: false });
  // by hand: slope 31 / 14, total 69
  assertClose(model.coefficients[0]!.estimate, 31 / 14, 1e-14);
  assertClose(model.rSquared, 31 ** 2 / 14 / 69, 1e-14);
  expect(model.total.degreesOfFreedom).toBe(3);
});

test("order of rows and unit of the response change no test", () => {
  const cook = ["A", "B", "A", "C", "B", "C"];
  const turn = <T>(values: T[]): T[] => [3, 0, 5, 1, 4, 2].map((i) => values[i]!);
  const plain = linearModel({ response: grams, terms: [number("dose", dose), factor("cook", cook)] });
  const moved = linearModel({
    response: turn(grams).map((one) => one / 28.349523125),
    terms: [number("dose", turn(dose)), factor("cook", turn(cook))],
  });
  expect(moved.coefficients.map(({ name }) => name)).toEqual(plain.coefficients.map(({ name }) => name));
  plain.coefficients.forEach(({ t }, i) => {
    assertClose(moved.coefficients[i]!.t, t, 1e-9);
  });
  // the reference level changes what is compared, not what is fitted
  const other = linearModel({ response: grams, terms: [number("dose", dose), factor("cook", cook, "C")] });
  assertClose(linearContrast(other, { "cook: B": 1, "cook: A": -1 }).t, plain.coefficients[2]!.t, 1e-10);
});

test("a contrast of kept columns is answered where another column was dropped", () => {
  const terms = [
    number("dose", dose),
    number(
      "twice",
      dose.map((one) => 2 * one),
    ),
  ];
  const model = linearModel({ response: grams, terms });
  const plain = linearModel({ response: grams, terms: terms.slice(0, 1) });
  expect(linearContrast(model, { dose: 1 })).toEqual(linearContrast(plain, { dose: 1 }));
  expect(() => linearContrast(model, { twice: 1 })).toThrow(
    '"twice" was left out of the model because it equals 2 × dose',
  );
});

test("wrong calls name what was received", () => {
  const attempt =
    (terms: ModelTerm[], more = {}) =>
    () =>
      linearModel({ response: grams, terms, ...more });
  expect(attempt([number("dose", [1, 2])])).toThrow(/response and dose must be equally long; received 6 and 2/);
  expect(attempt([number("dose", [1, 2, 3, 4, 5, Number.NaN])])).toThrow(/dose must be finite numbers; value 6 is NaN/);
  expect(attempt([number("dose", [1, 2, 3, 4, 5, 1e200])])).toThrow(/must stay below 1e\+140; received 1e\+200/);
  expect(attempt([number("dose", dose), number("dose", dose)])).toThrow(
    /different names, none empty or "intercept"; received "dose"/,
  );
  expect(attempt([number("intercept", dose)])).toThrow(/received "intercept"/);
  expect(attempt([{ kind: "power", name: "half", values: dose, exponent: 0.5 }])).toThrow(
    /whole number of 2 or more; received 0.5/,
  );
  expect(attempt([factor("cook", ["A", "A", "A", "B", "B", "B"], "C")])).toThrow(
    /must be one of its levels; received "C"/,
  );
  expect(attempt([{ kind: "interaction", of: ["dose", "cook"] }])).toThrow(/listed before it; received dose, cook/);
  expect(attempt([number("dose", dose)], { weights: [1, 1, 1, 1, 1, 0] })).toThrow(
    /a weight must be a number above 0; received 0/,
  );
  expect(attempt([number("dose", dose)], { level: 95 })).toThrow(/level must lie between 0 and 1/);
  expect(attempt([], { intercept: false })).toThrow(/a term or an intercept; received neither/);
  expect(() => linearModel({ response: [5], terms: [] })).toThrow(/at least 2 values; received 1/);
  expect(() => linearModel({ response: [1, 2], terms: [number("dose", [1, 2])] })).toThrow(
    /more rows than coefficients; received 2 rows and 2 coefficients/,
  );
  expect(() => linearModel({ response: [0.1, 0.1, 0.1], terms: [number("dose", [1, 2, 4])] })).toThrow(
    /the response must vary; received 0.1 in every row/,
  );
  expect(() => linearModel({ response: [1, Number.POSITIVE_INFINITY, 2], terms: [] })).toThrow(RangeError);
  const model = linearModel({
    response: grams,
    terms: [number("dose", dose), factor("cook", ["A", "B", "A", "B", "A", "B"])],
  });
  expect(() => linearContrast(model, { "cook: C": 1 })).toThrow(/must name a coefficient .*; received "cook: C"/);
  expect(() => linearContrast(model, { "cook: B": 0 })).toThrow(/must not all be 0/);
});

test("what a double misses of the decimal it was typed as", () => {
  expect(decimalRemainder(0.1)).toBe(-5.551115123125783e-18);
  expect([decimalRemainder(0.5), decimalRemainder(3), decimalRemainder(1e22), decimalRemainder(-0.25)]).toEqual([
    0, 0, 0, 0,
  ]);
  expect(decimalRemainder(-0.1)).toBe(5.551115123125783e-18);
  // the result of arithmetic is taken as stored
  expect([decimalRemainder(1 / 3), decimalRemainder(0.1 + 0.2)]).toEqual([0, 0]);
});

test("two rows and a mean", () => {
  const model = linearModel({ response: [1, 3], terms: [] });
  expect([model.coefficients[0]!.estimate, model.residual.sumOfSquares, model.residual.degreesOfFreedom]).toEqual([
    2, 2, 1,
  ]);
});
