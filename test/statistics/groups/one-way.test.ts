import { expect, test } from "vitest";
import { welchAnova } from "../../../src/statistics/groups/welch-anova.ts";
import { expectAgreement } from "../../agreement.ts";
import ozone from "../../reference/oneway-airqualityOzone.json" with { type: "json" };
import insects from "../../reference/oneway-InsectSprays.json" with { type: "json" };
import plants from "../../reference/oneway-PlantGrowth.json" with { type: "json" };
import teeth from "../../reference/oneway-ToothGrowthDose.json" with { type: "json" };
import warp from "../../reference/twoway-warpbreaks.json" with { type: "json" };

interface Expected {
  levels: string[];
  welch: { F: number; df1: number; df2: number; p: number };
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

  test(`Welch, unequal variances, on ${dataset}`, () => {
    const welch = welchAnova(groups);
    expect(welch.numeratorDf).toBe(expected.welch.df1);
    expectAgreement(
      row("Welch's analysis of variance", "F, denominator df"),
      [
        [welch.f, expected.welch.F],
        [welch.denominatorDf, expected.welch.df2],
      ],
      9,
    );
    expectAgreement(row("Welch's analysis of variance", "p"), [[welch.p, expected.welch.p]], 7);
  });
}
