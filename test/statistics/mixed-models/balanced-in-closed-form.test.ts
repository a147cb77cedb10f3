import { describe, expect, test } from "vitest";
import { designColumns } from "../../../src/statistics/linear-models/design-columns.ts";
import { contrastTest } from "../../../src/statistics/mixed-models/contrast-test.ts";
import { fitMixedModel, type MixedModelInput } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import { numberRandomFactors } from "../../../src/statistics/mixed-models/random-factor.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";

/** Cooks of equal size with trays in them, and their mean squares by the textbook. */
function balanced(cooks: number, trays: number, cookSpread: number, seed: number) {
  const random = seededRandom(seed);
  const response: number[] = [];
  const groups: string[] = [];
  const means: number[] = [];
  for (let c = 0; c < cooks; c++) {
    const effect = 40 + cookSpread * random.normal();
    const own = Array.from({ length: trays }, () => effect + 2 * random.normal());
    response.push(...own);
    groups.push(...own.map(() => `cook ${c}`));
    means.push(own.reduce((sum, one) => sum + one / trays, 0));
  }
  const grand = means.reduce((sum, one) => sum + one / cooks, 0);
  const between = (trays * means.reduce((sum, one) => sum + (one - grand) ** 2, 0)) / (cooks - 1);
  const squares = response.reduce((sum, one, i) => sum + (one - means[Math.floor(i / trays)]!) ** 2, 0);
  return { response, groups, grand, between, within: squares / (cooks * (trays - 1)) };
}

const fitOf = ({ response, groups }: { response: number[]; groups: string[] }, more: Partial<MixedModelInput> = {}) =>
  fitMixedModel({ response, terms: [], random: [{ name: "cook", groups }], ...more });

/** Searle, Casella and McCulloch 1992, Variance Components, section 4.7 (from memory; each follows by algebra). */
describe("balanced cooks: the textbook's closed forms", () => {
  const [cooks, trays] = [7, 5];
  const trial = balanced(cooks, trays, 3, 2);
  const count = cooks * trays;

  test("variances, error of the mean, and its test with the cooks' degrees of freedom", () => {
    const fit = fitOf(trial);
    const variance = (trial.between - trial.within) / trays;
    assertClose(fit.residual.variance, trial.within, 1e-8);
    assertClose(fit.components[0]!.variance, variance, 1e-8);
    assertClose(fit.components[0]!.standardDeviation, Math.sqrt(variance), 1e-8);
    expect([fit.components[0]!.atBoundary, fit.residual.atBoundary, fit.notes]).toEqual([false, false, []]);
    const found = contrastTest(fit, [2], 0.9);
    const error = 2 * Math.sqrt(trial.between / count);
    assertClose(found.estimate, 2 * trial.grand, 1e-10);
    assertClose(found.standardError, error, 1e-7);
    assertClose(found.df, cooks - 1, 1e-5);
    // Student's t of 6 degrees of freedom, 1.943180280516 at 0.95: any textbook's table, digits by R
    assertClose(found.upper - found.estimate, 1.943180280516 * error, 1e-5);
    assertClose(found.estimate - found.lower, 1.943180280516 * error, 1e-5);
    expect(contrastTest(fit, [2], 0.95)).toEqual(contrastTest(fit, [2]));
  });

  test("cooks that differ less than chance: variance 0, the trays' own mean square, and a sentence", () => {
    const response = [1, 5, 9, 2, 5, 8, 3, 5, 7.3];
    const fit = fitOf({ response, groups: ["a", "a", "a", "b", "b", "b", "c", "c", "c"] });
    const mean = response.reduce((sum, one) => sum + one / 9, 0);
    const squares = response.reduce((sum, one) => sum + (one - mean) ** 2, 0);
    assertClose(fit.residual.variance, squares / 8, 1e-8);
    expect(fit.components[0]).toMatchObject({ variance: 0, standardDeviation: 0, atBoundary: true });
    expect(fit.residual.atBoundary).toBe(false);
    expect(fit.notes).toHaveLength(1);
    expect(fit.notes[0]).toMatch(/groups of "cook" is estimated as 0/);
  });

  test("2,300 cooks of two, more than the wide search looks at, and other groupings of thousands", () => {
    const many = balanced(2300, 2, 1, 3);
    const fit = fitOf(many);
    assertClose(fit.residual.variance, many.within, 1e-8);
    assertClose(fit.components[0]!.variance, (many.between - many.within) / 2, 1e-8);
    // nothing between the loads that hold the cooks: the cooks keep their own
    const loads = many.groups.map((_, i) => `${Math.floor(i / 4)}`);
    const nested = fitOf(many, {
      random: [
        { name: "load", groups: loads },
        { name: "cook", groups: many.groups },
      ],
    });
    const [load, cook] = nested.components;
    assertClose(nested.residual.variance, many.within, 1e-7);
    assertClose(load!.variance + cook!.variance, (many.between - many.within) / 2, 0.05);
  });
});

test("crossed groupings stop at 1,500 groups, which would take minutes", () => {
  const response = Array.from({ length: 1600 }, (_, i) => (i * 37) % 101);
  const random = [
    { name: "jar", groups: response.map((_, i) => `${i % 1000}`) },
    { name: "shelf", groups: response.map((_, i) => `${i % 501}`) },
  ];
  expect(() => fitMixedModel({ response, terms: [], random })).toThrow("at most 1500 groups in all; received 1501");
});

describe("the fixed part as columns", () => {
  test("an intercept, numbers, one column a level but the reference", () => {
    const columns = designColumns(
      "test",
      [
        { kind: "number", name: "dose", values: [1, 2, 3, 4] },
        { kind: "factor", name: "jar", values: ["A", "C", "B", "C"] },
        { kind: "factor", name: "shelf", values: ["top", "top", "low", "low"], reference: "top" },
      ],
      4,
    );
    expect(columns.map(({ name, term, values }) => [name, term, [...values]])).toEqual([
      ["intercept", "intercept", [1, 1, 1, 1]],
      ["dose", "dose", [1, 2, 3, 4]],
      ["jar: B", "jar", [0, 0, 1, 0]],
      ["jar: C", "jar", [0, 1, 0, 1]],
      ["shelf: low", "shelf", [0, 0, 1, 1]],
    ]);
  });

  test("a column of nothing but 0 is left out, and the note says so", () => {
    const trial = balanced(3, 4, 2, 8);
    const values = trial.response.map(() => 0);
    const fit = fitOf(trial, { terms: [{ kind: "number", name: "spilt", values }] });
    expect(fit.notes).toEqual(['Column "spilt" is left out: it is 0 throughout, and nothing determines it.']);
  });
});

test("groups are numbered as they come; labels that start again inside another grouping are groups of their own", () => {
  const cook = { name: "cook", groups: ["b", "b", "a", "a", "b"] };
  const jar = { name: "jar", groups: ["1", "2", "1", "2", "1"] };
  const of = (...factors: Parameters<typeof numberRandomFactors>[1]) =>
    numberRandomFactors("test", factors, 5).map(({ name, index, groups }) => [name, [...index], groups]);
  expect(of(cook, jar)).toEqual([
    ["cook", [0, 0, 1, 1, 0], 2],
    ["jar", [0, 1, 0, 1, 0], 2],
  ]);
  expect(of(cook, { ...jar, within: "cook" })[1]).toEqual(["jar", [0, 1, 2, 3, 0], 4]);
  expect(() => of({ ...jar, within: "cook" }, cook)).toThrow(
    '"jar" lies within "cook", which must be listed before it',
  );
  expect(() => of(cook, { ...jar, name: "cook" })).toThrow('different names; received "cook" twice');
  expect(() => of(cook, { name: "jar", groups: ["x", "x", "y", "y", "x"] })).toThrow('"cook" and "jar" split');
  expect(() => of({ name: "jar", groups: ["1", "2", "3", "4", "5"] })).toThrow("received 5 groups of one");
});

test("a contrast called wrongly is refused by name", () => {
  const trial = balanced(4, 3, 2, 4);
  const fit = fitOf(trial);
  const refused = (weights: number[], message: string, level?: number) =>
    expect(() => contrastTest(fit, weights, level)).toThrow(message);
  refused([1, 0], "one weight per coefficient (1); received 2");
  refused([], "one weight per coefficient (1); received 0");
  refused([Number.NaN], "weights must be finite numbers");
  refused([0], "weights must not all be 0");
  refused([1], "level must lie between 0 and 1", 1);
});
