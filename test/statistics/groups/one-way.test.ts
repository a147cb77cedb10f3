import { expect, test } from "vitest";
import { etaSquared, omegaSquared } from "../../../src/statistics/groups/effect-size-of-f.ts";
import { oneWayAnova } from "../../../src/statistics/groups/one-way-anova.ts";
import { kruskalWallis } from "../../../src/statistics/groups/rank-tests.ts";
import { shapiroWilk } from "../../../src/statistics/groups/shapiro-wilk.ts";
import { bartlettTest, brownForsytheTest, leveneTest } from "../../../src/statistics/groups/spread-tests.ts";
import { welchAnova } from "../../../src/statistics/groups/welch-anova.ts";
import { linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import { expectAgreement } from "../../agreement.ts";
import ozone from "../../reference/oneway-airqualityOzone.json" with { type: "json" };
import insects from "../../reference/oneway-InsectSprays.json" with { type: "json" };
import plants from "../../reference/oneway-PlantGrowth.json" with { type: "json" };
import teeth from "../../reference/oneway-ToothGrowthDose.json" with { type: "json" };
import warp from "../../reference/twoway-warpbreaks.json" with { type: "json" };

interface Normality {
  W: number;
  p: number;
}

interface Expected {
  levels: string[];
  n: number[];
  means: number[];
  sds: number[];
  anova: {
    g: { df: number; ss: number; ms: number; F: number; p: number };
    Residuals: { df: number; ss: number; ms: number };
  };
  etaSquared: number;
  omegaSquared: number;
  welch: { F: number; df1: number; df2: number; p: number };
  kruskalWallisTieCorrected: { H: number; df: number; p: number };
  brownForsytheMedian: { F: number; df1: number; df2: number; p: number };
  leveneMean: { F: number; df1: number; df2: number; p: number };
  bartlett: { K2: number; df: number; p: number };
  shapiroResiduals: Normality;
  shapiroByGroup: Record<string, Normality>;
}

const cases: { dataset: string; expected: Expected; values: number[]; labels: string[] }[] = [
  { dataset: "PlantGrowth", expected: plants.expected, values: plants.data.weight, labels: plants.data.group },
  { dataset: "InsectSprays", expected: insects.expected, values: insects.data.count, labels: insects.data.spray },
  { dataset: "ToothGrowth by dose", expected: teeth.expected, values: teeth.data.len, labels: teeth.data.dose },
  {
    dataset: "airquality, ozone by month",
    expected: ozone.expected,
    values: ozone.data.Ozone,
    labels: ozone.data.Month,
  },
  {
    dataset: "warpbreaks by tension",
    expected: warp.expected.oneWayTension,
    values: warp.data.breaks,
    labels: warp.data.tension,
  },
];

for (const { dataset, expected, values, labels } of cases) {
  const groups = expected.levels.map((level) => values.filter((_, i) => labels[i] === level));
  const row = (method: string, statistic: string) => ({ method, dataset, statistic, source: "R 4.2.2" });

  test(`one-way analysis of variance on ${dataset}`, () => {
    const table = oneWayAnova(groups);
    const { g, Residuals } = expected.anova;
    expect(table.groups.map(({ count }) => count)).toEqual(expected.n);
    expect([table.between.degreesOfFreedom, table.within.degreesOfFreedom]).toEqual([g.df, Residuals.df]);
    expectAgreement(
      row("one-way analysis of variance", "means, sums and mean squares, F, eta², omega²"),
      [
        ...table.groups.map(({ mean }, i) => [mean, expected.means[i]!] as const),
        [table.between.sumOfSquares, g.ss],
        [table.between.meanSquare, g.ms],
        [table.within.sumOfSquares, Residuals.ss],
        [table.within.meanSquare, Residuals.ms],
        [table.f, g.F],
        [table.rSquared, expected.etaSquared],
        [etaSquared(table.between.sumOfSquares, table.total.sumOfSquares), expected.etaSquared],
        [
          omegaSquared({
            ...table.between,
            residualMeanSquare: table.within.meanSquare,
            totalSumOfSquares: table.total.sumOfSquares,
          }),
          expected.omegaSquared,
        ],
      ],
      9,
    );
    expectAgreement(row("one-way analysis of variance", "p"), [[table.p, g.p]], 7);
    expectAgreement(
      row("one-way analysis of variance", "standard deviations"),
      groups.map(
        (own, i) => [linearModel({ response: own, terms: [] }).residualStandardDeviation, expected.sds[i]!] as const,
      ),
      9,
    );
  });

  test(`other tests of location on ${dataset}`, () => {
    const welch = welchAnova(groups);
    const ranks = kruskalWallis(groups);
    expect([welch.numeratorDf, ranks.degreesOfFreedom]).toEqual([
      expected.welch.df1,
      expected.kruskalWallisTieCorrected.df,
    ]);
    expectAgreement(
      row("Welch's analysis of variance", "F, denominator df"),
      [
        [welch.f, expected.welch.F],
        [welch.denominatorDf, expected.welch.df2],
      ],
      9,
    );
    expectAgreement(row("Welch's analysis of variance", "p"), [[welch.p, expected.welch.p]], 7);
    expectAgreement(
      row("Kruskal-Wallis", "H corrected for ties"),
      [[ranks.statistic, expected.kruskalWallisTieCorrected.H]],
      9,
    );
    expectAgreement(row("Kruskal-Wallis", "p"), [[ranks.p, expected.kruskalWallisTieCorrected.p]], 7);
  });

  test(`spread on ${dataset}`, () => {
    for (const [name, own, reference] of [
      ["Brown-Forsythe", brownForsytheTest(groups), expected.brownForsytheMedian],
      ["Levene", leveneTest(groups), expected.leveneMean],
    ] as const) {
      expect([own.numeratorDf, own.denominatorDf]).toEqual([reference.df1, reference.df2]);
      expectAgreement(row(name, "F"), [[own.f, reference.F]], 9);
      expectAgreement(row(name, "p"), [[own.p, reference.p]], 7);
    }
    const bartlett = bartlettTest(groups);
    expect(bartlett.degreesOfFreedom).toBe(expected.bartlett.df);
    expectAgreement(row("Bartlett", "statistic"), [[bartlett.statistic, expected.bartlett.K2]], 9);
    expectAgreement(row("Bartlett", "p"), [[bartlett.p, expected.bartlett.p]], 7);
  });

  test(`normality on ${dataset}`, () => {
    const { residuals } = linearModel({ response: values, terms: [{ kind: "factor", name: "group", values: labels }] });
    expect(Object.keys(expected.shapiroByGroup).sort()).toEqual([...expected.levels].sort());
    const pairs = [
      [shapiroWilk(residuals), expected.shapiroResiduals] as const,
      ...expected.levels.map((level, i) => [shapiroWilk(groups[i]!), expected.shapiroByGroup[level]!] as const),
    ];
    expectAgreement(
      row("Shapiro-Wilk", "W of residuals and of each group"),
      pairs.map(([own, reference]) => [own.w, reference.W] as const),
      9,
    );
    expectAgreement(
      row("Shapiro-Wilk", "p of residuals and of each group"),
      pairs.map(([own, reference]) => [own.p, reference.p] as const),
      7,
    );
  });
}
