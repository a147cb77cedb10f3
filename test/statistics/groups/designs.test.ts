import { expect, test } from "vitest";
import { type LinearModel, linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import type { ModelTerm } from "../../../src/statistics/linear-models/model-term.ts";
import { sequentialTests, type TermTest } from "../../../src/statistics/linear-models/term-sums-of-squares.ts";
import { expectAgreement } from "../../agreement.ts";
import npk from "../../reference/rcbd-npk.json" with { type: "json" };
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
});
