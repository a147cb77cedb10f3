import { expect, test } from "vitest";
import { oneWayAnova } from "../../../src/statistics/groups/one-way-anova.ts";
import { friedmanTest } from "../../../src/statistics/groups/rank-tests.ts";
import { type LinearModel, linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import type { ModelTerm } from "../../../src/statistics/linear-models/model-term.ts";
import {
  adjustedForAllTests,
  marginalTests,
  sequentialTests,
  type TermTest,
} from "../../../src/statistics/linear-models/term-sums-of-squares.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import npk from "../../reference/rcbd-npk.json" with { type: "json" };
import goldenRain from "../../reference/rcbd-OatsGoldenRain.json" with { type: "json" };
import warp from "../../reference/twoway-warpbreaks.json" with { type: "json" };

type Table = Record<string, { df: number; ss: number; ms: number; F: number | null; p: number | null }>;

function compareTable(dataset: string, tests: ReadonlyArray<TermTest>, model: LinearModel, expected: Table): void {
  const row = (statistic: string) => ({ method: "analysis of variance", dataset, statistic, source: "R 4.2.2" });
  const reference = Object.values(expected);
  const residual = reference.at(-1)!;
  expect(tests.map((one) => one.degreesOfFreedom)).toEqual(reference.slice(0, -1).map((one) => one.df));
  expect(model.residual.degreesOfFreedom).toBe(residual.df);
  expectAgreement(
    row("sums and mean squares, F"),
    [
      ...tests.flatMap((one, i) => [
        [one.sumOfSquares, reference[i]!.ss] as const,
        [one.meanSquare, reference[i]!.ms] as const,
        [one.f, reference[i]!.F!] as const,
      ]),
      [model.residual.sumOfSquares, residual.ss],
      [model.residual.meanSquare, residual.ms],
    ],
    9,
  );
  expectAgreement(
    row("p"),
    tests.map((one, i) => [one.p, reference[i]!.p!] as const),
    7,
  );
}

test("randomised complete blocks on Oats, Golden Rain", () => {
  const { data, expected } = goldenRain;
  const layout = { response: data.yield, treatment: data.nitroF, block: data.Block };
  const friedman = friedmanTest(layout);
  expect(friedman.degreesOfFreedom).toBe(expected.friedman.df);
  expectAgreement(
    { method: "Friedman", dataset: "Oats, Golden Rain", statistic: "Q", source: "R 4.2.2" },
    [[friedman.statistic, expected.friedman.Q]],
    9,
  );
  expectAgreement(
    { method: "Friedman", dataset: "Oats, Golden Rain", statistic: "p", source: "R 4.2.2" },
    [[friedman.p, expected.friedman.p]],
    7,
  );
});

test("blocked factorial on npk", () => {
  const { data, expected } = npk;
  const main: ModelTerm[] = [
    { kind: "factor", name: "block", values: data.block },
    { kind: "factor", name: "N", values: data.N },
    { kind: "factor", name: "P", values: data.P },
    { kind: "factor", name: "K", values: data.K },
  ];
  const pairs: ModelTerm[] = [
    { kind: "interaction", of: ["N", "P"] },
    { kind: "interaction", of: ["N", "K"] },
    { kind: "interaction", of: ["P", "K"] },
  ];
  const mainOnly = linearModel({ response: data.yield, terms: main });
  const withPairs = linearModel({ response: data.yield, terms: [...main, ...pairs] });
  compareTable("npk, main effects", sequentialTests(mainOnly), mainOnly, expected.mainOnly);
  compareTable("npk, with two-way interactions", sequentialTests(withPairs), withPairs, expected.mainAndTwoWay);
  const reference = Object.values(expected.coefMainOnly);
  expect(mainOnly.coefficients.length).toBe(reference.length);
  const row = (statistic: string) => ({ method: "linear model", dataset: "npk", statistic, source: "R 4.2.2" });
  expectAgreement(
    row("coefficients, standard errors, t"),
    mainOnly.coefficients.flatMap((one, i) => [
      [one.estimate, reference[i]!.estimate] as const,
      [one.standardError, reference[i]!.se] as const,
      [one.t, reference[i]!.t] as const,
    ]),
    9,
  );
  expectAgreement(
    row("p of coefficients"),
    mainOnly.coefficients.map((one, i) => [one.p, reference[i]!.p] as const),
    7,
  );
  // the interaction of all three is confounded with blocks in this trial, and is named rather than answered
  const confounded = linearModel({
    response: data.yield,
    terms: [...main, ...pairs, { kind: "interaction", of: ["N", "P", "K"] }],
  });
  expect(confounded.dropped.map(({ name }) => name)).toEqual(["N: 1 × P: 1 × K: 1"]);
  expect(confounded.dropped[0]!.because).toMatch(/^equals .*block: /);
  expect(sequentialTests(confounded).map(({ term }) => term)).not.toContain("N × P × K");
  expect(adjustedForAllTests(confounded).map(({ term }) => term)).not.toContain("N × P × K");
});

test("two-way, unbalanced: each line is the difference of two fitted models", () => {
  // the definition, reached by another route: refit without the term and compare residual sums of squares
  const keep = [...warp.data.breaks.keys()].filter((i) => ![0, 1, 2, 10, 20, 21, 30, 45].includes(i));
  const response = keep.map((i) => warp.data.breaks[i]!);
  const wool: ModelTerm = { kind: "factor", name: "wool", values: keep.map((i) => warp.data.wool[i]!) };
  const tension: ModelTerm = { kind: "factor", name: "tension", values: keep.map((i) => warp.data.tension[i]!) };
  const both: ModelTerm = { kind: "interaction", of: ["wool", "tension"] };
  const rss = (terms: ModelTerm[]) => linearModel({ response, terms }).residual.sumOfSquares;
  const full = linearModel({ response, terms: [wool, tension, both] });
  const whole = full.residual.sumOfSquares;
  const row = (statistic: string) => ({
    method: "two-way analysis of variance",
    dataset: "warpbreaks less 8 rows",
    statistic,
    source: "difference of residual sums of squares",
  });
  expectAgreement(
    row("sequential"),
    sequentialTests(full).map(
      (one, i) =>
        [
          one.sumOfSquares,
          [rss([]) - rss([wool]), rss([wool]) - rss([wool, tension]), rss([wool, tension]) - whole][i]!,
        ] as const,
    ),
    11,
  );
  expectAgreement(
    row("marginal"),
    marginalTests(full).map(
      (one, i) =>
        [
          one.sumOfSquares,
          [rss([tension]) - rss([wool, tension]), rss([wool]) - rss([wool, tension]), rss([wool, tension]) - whole][i]!,
        ] as const,
    ),
    11,
  );
  // adjusted for all: cells by hand. With two wools the main effect is a contrast of unweighted cell means
  const cells = new Map<string, number[]>();
  keep.forEach((i, k) => {
    const key = warp.data.wool[i]! + warp.data.tension[i]!;
    cells.set(key, [...(cells.get(key) ?? []), response[k]!]);
  });
  let contrast = 0;
  let spread = 0;
  for (const [key, own] of cells) {
    contrast += ((key.startsWith("A") ? 1 : -1) * own.reduce((sum, value) => sum + value, 0)) / own.length;
    spread += 1 / own.length;
  }
  expectAgreement(
    row("adjusted for all, wool"),
    [[adjustedForAllTests(full)[0]!.sumOfSquares, contrast ** 2 / spread]],
    11,
  );
});

test("randomised blocks that lost units: adjusted means and test as in the linear model", () => {
  const { data } = goldenRain;
  const keep = [...data.yield.keys()].filter((i) => i !== 5 && i !== 14);
  const layout = {
    response: keep.map((i) => data.yield[i]!),
    treatment: keep.map((i) => data.nitroF[i]!),
    block: keep.map((i) => data.Block[i]!),
  };
  expect(() => friedmanTest(layout)).toThrow(/received 0 of "N0.2" in "II"/);
});

test("one-way, resistors: NIST/SEMATECH e-Handbook, section 7.4.3 (from memory)", () => {
  const table = oneWayAnova([
    [6.9, 5.4, 5.8, 4.6, 4.0],
    [8.3, 6.8, 7.8, 9.2, 6.5],
    [8.0, 10.5, 8.1, 6.9, 9.3],
    [5.8, 3.8, 6.1, 5.6, 6.2],
  ]);
  table.groups.forEach(({ mean }, i) => {
    assertClose(mean, [5.34, 7.72, 8.56, 5.5][i]!, 1e-12);
  });
  assertClose(table.between.sumOfSquares, 38.82, 0.0005);
  assertClose(table.between.meanSquare, 12.94, 0.0005);
  assertClose(table.within.sumOfSquares, 21.292, 0.0005);
  assertClose(table.within.meanSquare, 1.331, 0.0005);
  assertClose(table.total.sumOfSquares, 60.112, 0.0005);
  assertClose(table.f, 9.724, 0.0005);
  assertClose(table.p, 0.00068, 0.000005);
});

test("completely randomised rice trial: Gomez and Gomez 1984, chapter 2 (from memory)", () => {
  const groups = [
    [2537, 2069, 2104, 1797],
    [3366, 2591, 2211, 2544],
    [2536, 2459, 2827, 2385],
    [2387, 2453, 1556, 2116],
    [1997, 1679, 1649, 1859],
    [1796, 1704, 1904, 1320],
    [1401, 1516, 1270, 1077],
  ];
  const table = oneWayAnova(groups);
  assertClose(table.between.sumOfSquares, 5_587_175, 0.5);
  assertClose(table.between.meanSquare, 931_196, 0.5);
  assertClose(table.within.sumOfSquares, 1_990_238, 0.5);
  assertClose(table.within.meanSquare, 94_773, 0.5);
  assertClose(table.total.sumOfSquares, 7_577_412, 0.5);
  assertClose(table.f, 9.83, 0.005);
  const mean = groups.flat().reduce((sum, value) => sum + value, 0) / 28;
  assertClose(mean, 2039.6, 0.05);
  assertClose((100 * table.residualStandardDeviation) / mean, 15.1, 0.05);
});
