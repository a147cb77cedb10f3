import { expect, test } from "vitest";
import { clusteredErrors } from "../../../src/statistics/counts/clustered-errors.ts";
import { type LogisticRegression, logisticRegression } from "../../../src/statistics/counts/logistic-regression.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import cbpp from "../../reference/logistic-cbpp.json" with { type: "json" };
import mtcars from "../../reference/logistic-mtcars.json" with { type: "json" };
import { indicatorColumns } from "./indicator-columns.ts";

type Pair = readonly [number, number];
const zip = (ours: ReadonlyArray<number>, theirs: ReadonlyArray<number>): Pair[] =>
  ours.map((value, index) => [value, theirs[index]!]);
const estimates = (fit: LogisticRegression) => fit.coefficients.map(({ estimate }) => estimate);
const errors = (fit: LogisticRegression) => fit.covariance.map((row, index) => Math.sqrt(row[index]!));

const cbppRows = {
  successes: cbpp.data.incidence,
  trials: cbpp.data.size,
  columns: indicatorColumns("period", cbpp.data.period),
};
const mtcarsRows = {
  successes: mtcars.data.am,
  columns: [
    { name: "wt", values: mtcars.data.wt },
    { name: "hp", values: mtcars.data.hp },
  ],
};

// the errors of mtcars' source come from the weights one step before the last, 5e-8 short; mpmath decides below
test.each([
  ["cbpp, Lesnoff and others 2004: counts out of n", cbppRows, cbpp, 9],
  ["mtcars: 0/1 outcomes", mtcarsRows, mtcars, 6],
] as const)("%s", (dataset, rows, { expected, tolerance }, errorDigits) => {
  const fit = logisticRegression({ ...rows, profiles: false });
  const row = { method: "logistic regression", dataset, source: "R 4.2.2" };
  const digits = -Math.log10(tolerance.relative);
  expect(fit.coefficients).toHaveLength(expected.coefNames.length);
  expectAgreement(
    { ...row, statistic: "coefficients, fitted" },
    [...zip(estimates(fit), expected.estimate), ...zip(fit.fitted, expected.fitted)],
    digits,
    tolerance.absolute,
  );
  expectAgreement(
    { ...row, statistic: "standard errors, Wald limits" },
    [
      ...zip(errors(fit), expected.se),
      ...zip(
        fit.coefficients.map(({ lower }) => lower),
        expected.waldLower95,
      ),
      ...zip(
        fit.coefficients.map(({ upper }) => upper),
        expected.waldUpper95,
      ),
    ],
    Math.min(digits, errorDigits),
    tolerance.absolute,
  );
});

const mpmath = "mpmath 1.3.0, direct maximisation, 30 digits";

function compareProfiles(
  fit: LogisticRegression,
  dataset: string,
  expected: ReadonlyArray<readonly [estimate: number, error: number, lower: number, upper: number]>,
) {
  expectAgreement(
    {
      method: `logistic regression${fit.separated ? ", bias-reduced" : ""}`,
      dataset,
      statistic: "estimates, errors, profile limits",
      source: mpmath,
    },
    fit.coefficients.flatMap((ours, index): Pair[] => [
      ...zip([ours.estimate, errors(fit)[index]!, ours.lower, ours.upper], expected[index]!),
    ]),
    9.5,
  );
}

test("profile limits of each coefficient: overlapping, completely separated, quasi-completely separated", () => {
  compareProfiles(logisticRegression(mtcarsRows), "mtcars", [
    [18.8662987172, 7.443558427982, 8.36649781893, 40.550747573],
    [-8.083475182445, 3.068675275391, -17.2071281789, -3.76953015351],
    [0.03625559608222, 0.01773415433195, 0.010594272765, 0.0905523562994],
  ]);
  const split = { successes: [0, 0, 0, 0, 1, 1, 1, 1], columns: [{ name: "dose", values: [1, 2, 3, 4, 5, 6, 7, 8] }] };
  const complete = logisticRegression(split);
  expect(complete.separated).toBe(true);
  compareProfiles(complete, "invented, split at 4.5", [
    [-4.647349769979, 3.198079849012, -26.0942473107, -0.330222913803],
    [1.032744393329, 0.6726647810622, 0.134140562563, 5.74649614226],
  ]);
  const quasi = logisticRegression({
    successes: [0, 0, 0, 5],
    trials: [8, 8, 8, 8],
    columns: [{ name: "dose", values: [0, 1, 2, 4] }],
  });
  expect(quasi.separated).toBe(true);
  compareProfiles(quasi, "invented, losses at one dose", [
    [-6.159378792944, 2.500596214936, -15.3873152229, -2.73581362755],
    [1.645559052252, 0.6845799045294, 0.624493174977, 4.00384322953],
  ]);
});

test("a bias-reduced fit of two groups is the log odds with half a unit added to each cell (Firth 1993; algebra)", () => {
  const fit = logisticRegression({ successes: [0, 3], trials: [10, 10], columns: [{ name: "B", values: [0, 1] }] });
  const logOdds = (won: number, lost: number) => Math.log(won / lost);
  expectAgreement(
    {
      method: "logistic regression, bias-reduced",
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
  assertClose(estimates(fit)[1]!, Math.log((9 * 17) / (11 * 3)), 1e-12);
  assertClose(errors(fit)[1]!, Math.sqrt(1 / 3 + 1 / 17 + 1 / 9 + 1 / 11), 1e-12);
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
});

test("separation: intercept alone, mixed rows, overlap, labels; whatever the units of a column", () => {
  const separated = (successes: number[], columns: { name: string; values: number[] }[], trials?: number[]) =>
    logisticRegression({ successes, columns, ...(trials === undefined ? {} : { trials }), profiles: false }).separated;
  expect(separated([0, 0, 0, 0], [])).toBe(true);
  // jar B held no loss at any dose; in jar A both doses saw both
  const jar = { name: "jar B", values: [0, 0, 0, 0, 1, 1] };
  for (const unit of [1e-12, 1, 1e12]) {
    const dose = [{ name: "dose", values: [1, 2, 3, 4].map((one) => one * unit) }];
    expect(separated([0, 1, 0, 1], dose)).toBe(false);
    expect(separated([0, 0, 1, 1], dose)).toBe(true);
    expect(separated([0, 1, 2, 2], dose, [2, 2, 2, 2])).toBe(true);
    const both = [jar, { name: "dose", values: [1, 1, 2, 2, 1, 2].map((one) => one * unit) }];
    expect(separated([0, 1, 0, 1, 1, 1], both)).toBe(true);
    expect(separated([0, 1, 0, 1, 0, 1], both)).toBe(false);
  }
});

test("wrong calls", () => {
  const dose = { name: "dose", values: [1, 2, 3, 4] };
  const fails = (options: Parameters<typeof logisticRegression>[0], message: string) =>
    expect(() => logisticRegression(options)).toThrow(message);
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
});

// Firth 1993, Biometrika 80(1):27-38; the place of the maximum was found by an independent search of the penalised likelihood
test("a lone tray at an outlying dose that was lost: the bias-reduced fit settles at its finite maximum", () => {
  const dose = { name: "dose", values: [3, 6, 9, 12, 90] };
  const { coefficients, separated } = logisticRegression({
    successes: [0, 0, 0, 0, 1],
    trials: [14, 14, 14, 14, 1],
    columns: [dose],
  });
  expect(separated).toBe(true);
  expect(coefficients[0]!.estimate).toBeCloseTo(-5.2792, 4);
  expect(coefficients[1]!.estimate).toBeCloseTo(0.07084, 5);
});

test("no sheet of doses, however far apart, keeps the fit from settling", () => {
  const random = seededRandom(5);
  for (let book = 0; book < 100; book++) {
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
