import { expect, test } from "vitest";
import { clusteredErrors } from "../../../src/statistics/counts/clustered-errors.ts";
import { clusteredProportion } from "../../../src/statistics/counts/clustered-proportion.ts";
import { indicatorColumns } from "../../../src/statistics/counts/logistic-design.ts";
import { type LogisticRegression, logisticRegression } from "../../../src/statistics/counts/logistic-regression.ts";
import { findSeparation } from "../../../src/statistics/counts/separation.ts";
import { chiSquareUpperTail } from "../../../src/statistics/distributions/chi-square.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import cbpp from "../../reference/logistic-cbpp.json" with { type: "json" };
import mtcars from "../../reference/logistic-mtcars.json" with { type: "json" };

type Pair = readonly [number, number];
const column = (fit: LogisticRegression, key: "estimate" | "standardError" | "z" | "p" | "waldLower" | "waldUpper") =>
  fit.coefficients.map((coefficient) => coefficient[key]);
const zip = (ours: number[], theirs: ReadonlyArray<number>): Pair[] =>
  ours.map((value, index) => [value, theirs[index]!]);

const cbppFit = () =>
  logisticRegression({
    successes: cbpp.data.incidence,
    trials: cbpp.data.size,
    columns: indicatorColumns("period", cbpp.data.period),
  });
const mtcarsColumns = [
  { name: "wt", values: mtcars.data.wt },
  { name: "hp", values: mtcars.data.hp },
];
const mtcarsFit = () => logisticRegression({ successes: mtcars.data.am, columns: mtcarsColumns });

function compare(fit: LogisticRegression, file: typeof cbpp | typeof mtcars, dataset: string, errorDigits: number) {
  const { expected, tolerance } = file;
  const row = { method: "logistic regression", dataset, source: "R 4.2.2" };
  const digits = -Math.log10(tolerance.relative);
  expect(fit.coefficients.map((coefficient) => coefficient.name)).toHaveLength(expected.coefNames.length);
  expectAgreement(
    { ...row, statistic: "coefficients, deviances, likelihood, fitted" },
    [
      ...zip(column(fit, "estimate"), expected.estimate),
      [fit.deviance, expected.deviance],
      [fit.nullDeviance, expected.nullDeviance],
      [fit.degreesOfFreedom, expected.dfResidual],
      [fit.logLikelihood, expected.logLik],
      [fit.akaikeInformation, expected.AIC],
      ...zip(fit.fitted, expected.fitted),
    ],
    digits,
    tolerance.absolute,
  );
  expectAgreement(
    { ...row, statistic: "standard errors, z, Wald limits" },
    [
      ...zip(column(fit, "standardError"), expected.se),
      ...zip(column(fit, "z"), expected.z),
      ...zip(column(fit, "waldLower"), expected.waldLower95),
      ...zip(column(fit, "waldUpper"), expected.waldUpper95),
    ],
    Math.min(digits, errorDigits),
    tolerance.absolute,
  );
  expectAgreement(
    { ...row, statistic: "p" },
    [...zip(column(fit, "p"), expected.p), [fit.likelihoodRatio.p, expected.LRp]],
    Math.min(-Math.log10(tolerance.pValueRelative), errorDigits),
  );
}

test("cbpp, Lesnoff and others 2004: counts out of n", () => {
  compare(cbppFit(), cbpp, "cbpp", 9);
});

test("mtcars: 0/1 outcomes", () => {
  // the source takes its errors from the weights one step before the last, which leaves them 5e-8 short here; mpmath decides
  compare(mtcarsFit(), mtcars, "mtcars", 6);
});

const mpmath = "mpmath 1.3.0, direct maximisation, 30 digits";

function compareProfiles(
  fit: LogisticRegression,
  dataset: string,
  expected: ReadonlyArray<readonly [estimate: number, error: number, lower: number, upper: number, chiSquare: number]>,
) {
  expectAgreement(
    {
      method: `logistic regression, ${fit.method}`,
      dataset,
      statistic: "estimates, errors, profile limits",
      source: mpmath,
    },
    fit.coefficients.flatMap((ours, index): Pair[] => {
      const [estimate, error, lower, upper, chiSquare] = expected[index]!;
      return [
        [ours.estimate, estimate],
        [ours.standardError, error],
        [ours.lower, lower],
        [ours.upper, upper],
        [ours.likelihoodRatioP, chiSquareUpperTail(chiSquare, 1)],
      ];
    }),
    9.5,
  );
}

test("profile limits and likelihood-ratio tests of each coefficient", () => {
  compareProfiles(mtcarsFit(), "mtcars", [
    [18.8662987172, 7.443558427982, 8.36649781893, 40.550747573, 26.9806157904],
    [-8.083475182445, 3.068675275391, -17.2071281789, -3.76953015351, 31.1684551533],
    [0.03625559608222, 0.01773415433195, 0.010594272765, 0.0905523562994, 9.11697433518],
  ]);
});

test("bias-reduced fits: overlapping, completely separated, quasi-completely separated", () => {
  compareProfiles(
    logisticRegression({ successes: mtcars.data.am, columns: mtcarsColumns, biasReduced: "always" }),
    "mtcars",
    [
      [13.43282274162, 4.809789706133, 5.93934060578, 27.6336706245, 21.8904165924],
      [-5.70413827964, 1.916376437912, -11.3291332777, -2.70605925052, 25.842198631],
      [0.02445603570871, 0.01192183519231, 0.00611198054985, 0.0590701704517, 7.28233678281],
    ],
  );
  const split = { successes: [0, 0, 0, 0, 1, 1, 1, 1], columns: [{ name: "dose", values: [1, 2, 3, 4, 5, 6, 7, 8] }] };
  const complete = logisticRegression(split);
  expect(complete.separation).toEqual({ kind: "complete", columns: ["intercept", "dose"] });
  compareProfiles(complete, "invented, split at 4.5", [
    [-4.647349769979, 3.198079849012, -26.0942473107, -0.330222913803, 4.7144611525],
    [1.032744393329, 0.6726647810622, 0.134140562563, 5.74649614226, 5.73568203251],
  ]);
  const quasi = logisticRegression({
    successes: [0, 0, 0, 5],
    trials: [8, 8, 8, 8],
    columns: [{ name: "dose", values: [0, 1, 2, 4] }],
  });
  expect(quasi.separation.kind).toBe("quasi-complete");
  expect(quasi.method).toBe("bias-reduced likelihood");
  compareProfiles(quasi, "invented, losses at one dose", [
    [-6.159378792944, 2.500596214936, -15.3873152229, -2.73581362755, 27.9435673017],
    [1.645559052252, 0.6845799045294, 0.624493174977, 4.00384322953, 13.924830618],
  ]);
});

test("a bias-reduced fit of two groups is the log odds with half a unit added to each cell (Firth 1993; algebra)", () => {
  const fit = logisticRegression({ successes: [0, 3], trials: [10, 10], columns: [{ name: "B", values: [0, 1] }] });
  const logOdds = (won: number, lost: number) => Math.log(won / lost);
  expectAgreement(
    {
      method: "logistic regression, bias-reduced likelihood",
      dataset: "0/10 and 3/10",
      statistic: "coefficients",
      source: "algebra",
    },
    [
      [fit.coefficients[0]!.estimate, logOdds(0.5, 10.5)],
      [fit.coefficients[1]!.estimate, logOdds(3.5, 7.5) - logOdds(0.5, 10.5)],
    ],
    9,
  );
});

test("a two-by-two table fits exactly: log odds ratio and Woolf's error (algebra)", () => {
  const fit = logisticRegression({ successes: [3, 9], trials: [20, 20], columns: [{ name: "B", values: [0, 1] }] });
  const slope = fit.coefficients[1]!;
  assertClose(slope.estimate, Math.log((9 * 17) / (11 * 3)), 1e-12);
  assertClose(slope.standardError, Math.sqrt(1 / 3 + 1 / 17 + 1 / 9 + 1 / 11), 1e-12);
  assertClose(fit.deviance, 0, 1e-12);
});

test("order of rows, units of a column, and 0/1 rows against counts give the same fit", () => {
  const successes = [1, 4, 2, 6];
  const trials = [9, 8, 10, 8];
  const dose = [2, 4, 3, 6];
  const grouped = logisticRegression({ successes, trials, columns: [{ name: "dose", values: dose }] });
  const rows = dose.flatMap((value, row) =>
    Array.from({ length: trials[row]! }, (_, unit) => ({
      value: value * 1000,
      outcome: unit < successes[row]! ? 1 : 0,
    })),
  );
  rows.reverse();
  const single = logisticRegression({
    successes: rows.map((row) => row.outcome),
    columns: [{ name: "dose", values: rows.map((row) => row.value) }],
  });
  const [a, b] = [grouped.coefficients[1]!, single.coefficients[1]!];
  assertClose(b.estimate * 1000, a.estimate, 1e-12);
  assertClose(b.lower * 1000, a.lower, 1e-9);
  assertClose(b.upper * 1000, a.upper, 1e-9);
  assertClose(b.likelihoodRatioP, a.likelihoodRatioP, 1e-12);
});

test("separation: intercept alone, mixed rows, overlap", () => {
  const values = [1, 2, 3, 4];
  expect(findSeparation({ successes: [0, 1, 0, 1], columns: [{ name: "dose", values }] })).toEqual({
    kind: "none",
    columns: [],
  });
  expect(findSeparation({ successes: [0, 0, 0, 0], columns: [] })).toEqual({
    kind: "complete",
    columns: ["intercept"],
  });
  expect(
    findSeparation({ successes: [0, 1, 2, 2], trials: [2, 2, 2, 2], columns: [{ name: "dose", values }] }).kind,
  ).toBe("quasi-complete");
  const groups = indicatorColumns("jar", ["A", "A", "B", "B"]);
  expect(findSeparation({ successes: [0, 1, 1, 1], columns: groups })).toEqual({
    kind: "quasi-complete",
    columns: ["jar B"],
  });
});

test("which column separates does not depend on the units of another", () => {
  // jar B held no loss at any dose; in jar A both doses saw both
  const jar = { name: "jar B", values: [0, 0, 0, 0, 1, 1] };
  const dose = [1, 1, 2, 2, 1, 2];
  for (const unit of [1e-12, 1, 1e12]) {
    const columns = [jar, { name: "dose", values: dose.map((one) => one * unit) }];
    expect(findSeparation({ successes: [0, 1, 0, 1, 1, 1], columns })).toEqual({
      kind: "quasi-complete",
      columns: ["jar B"],
    });
    const alone = [{ name: "dose", values: [1, 2, 3, 4].map((one) => one * unit) }];
    expect(findSeparation({ successes: [0, 0, 1, 1], columns: alone })).toEqual({
      kind: "complete",
      columns: ["intercept", "dose"],
    });
  }
});

test("wrong calls", () => {
  const dose = { name: "dose", values: [1, 2, 3, 4] };
  const fails = (options: Parameters<typeof logisticRegression>[0], message: string) =>
    expect(() => logisticRegression(options)).toThrow(message);
  fails(
    { successes: [0, 0, 1, 1], columns: [dose], biasReduced: "never" },
    "received complete separation by intercept, dose",
  );
  fails({ successes: [0, 2, 0, 1], columns: [dose] }, "successes must not exceed trials; received 2 of 1 in row 2");
  fails({ successes: [0, 1, 0], columns: [dose] }, "equally long");
  fails(
    { successes: [0, 1, 0, 1], columns: [dose, { ...dose, name: "twice" }] },
    'the column "twice" must not follow from the others',
  );
  fails({ successes: [0, 1, 0, 1], columns: [dose, dose] }, "every column needs its own name");
  fails(
    { successes: [0, 1], columns: [dose, dose, dose].map((c, i) => ({ name: `c${i}`, values: c.values.slice(0, 2) })) },
    "needs at least 4 rows; received 2",
  );
  fails({ successes: [0, 1, 0, 1], columns: [{ name: "dose", values: [1, 2, 3, Number.NaN] }] }, "value 4 is NaN");
  fails({ successes: [0, 1, 0, 1], columns: [dose], level: 1 }, "level must lie between 0 and 1");
  const fit = logisticRegression({ successes: [0, 1, 0, 1], columns: [dose] });
  expect(() => clusteredErrors(fit, ["a", "a", "b", "b"])).toThrow("more clusters than coefficients (2); received 2");
  expect(() => indicatorColumns("jar", ["A", "A"])).toThrow("needs two different labels");
  expect(() => clusteredProportion([1], [4])).toThrow("needs at least 2 clusters; received 1");
  expect(clusteredProportion([0, 0], [5, 5])).toMatchObject({
    proportion: 0,
    lower: 0,
    designEffect: 1,
    effectiveUnits: 10,
  });
});

// Firth 1993, Biometrika 80(1):27-38; the place of the maximum was found by an independent search of the penalised likelihood
test("a lone tray at an outlying dose that was lost: the bias-reduced fit settles at its finite maximum", () => {
  const dose = { name: "dose", values: [3, 6, 9, 12, 90] };
  const { coefficients, method } = logisticRegression({
    successes: [0, 0, 0, 0, 1],
    trials: [14, 14, 14, 14, 1],
    columns: [dose],
  });
  expect(method).toBe("bias-reduced likelihood");
  expect(coefficients[0]!.estimate).toBeCloseTo(-5.2792, 4);
  expect(coefficients[1]!.estimate).toBeCloseTo(0.07084, 5);
});

test("no sheet of doses, however far apart, keeps the fit from settling", () => {
  const random = seededRandom(5);
  for (let book = 0; book < 300; book++) {
    const doses = Array.from({ length: 3 + random.integer(5) }, () =>
      random.integer(8) === 0 ? 10 ** (1 + random.integer(5)) + random.integer(9) : random.integer(200) / 10,
    );
    const trials = doses.map(() => (random.integer(3) === 0 ? 1 : 1 + random.integer(20)));
    const successes = trials.map((count) =>
      random.integer(3) === 0 ? random.integer(count + 1) : random.integer(4) === 0 ? count : 0,
    );
    if (new Set(doses).size < 3) continue;
    const { coefficients } = logisticRegression({ successes, trials, columns: [{ name: "dose", values: doses }] });
    expect(coefficients.every(({ estimate }) => Number.isFinite(estimate))).toBe(true);
  }
});
