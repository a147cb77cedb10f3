import { expect, test } from "vitest";
import { dunnett } from "../../../src/statistics/comparisons/dunnett.ts";
import { expectAgreement } from "../../agreement.ts";
import ozone from "../../reference/multcomp-airqualityOzone.json" with { type: "json" };
import insects from "../../reference/multcomp-InsectSprays.json" with { type: "json" };
import plants from "../../reference/multcomp-PlantGrowth.json" with { type: "json" };
import teeth from "../../reference/multcomp-ToothGrowthDose.json" with { type: "json" };

const cases = [
  { dataset: "PlantGrowth", file: plants, values: plants.data.weight, labels: plants.data.group },
  { dataset: "InsectSprays", file: insects, values: insects.data.count, labels: insects.data.spray },
  { dataset: "ToothGrowth by dose", file: teeth, values: teeth.data.len, labels: teeth.data.dose },
  { dataset: "airquality, ozone by month", file: ozone, values: ozone.data.Ozone, labels: ozone.data.Month },
];

/** The reference p-values come from 1 - lower tail and carry an absolute error up to about 1e-9. */
const tailNoise = 2e-9;

for (const { dataset, file, values, labels } of cases) {
  const names = [...new Set(labels)].sort();
  const groups = names.map((name) => values.filter((_, i) => labels[i] === name));
  const { expected } = file;
  const row = (method: string, statistic: string, source: string) => ({ method, dataset, statistic, source });

  test(`against the control on ${dataset}`, () => {
    const ours = dunnett(groups);
    const reference = expected.dunnettVsFirst;
    expect(names[ours.control]).toBe(reference.control);
    expect(ours.degreesOfFreedom).toBe(reference.df);
    expect(ours.comparisons.length).toBe(reference.comparisons.length);
    const matched = reference.comparisons.map((one) => ({
      one,
      own: ours.comparisons.find(({ group }) => `${names[group]} - ${names[0]}` === one.pair)!,
    }));
    expectAgreement(
      row("Dunnett", "differences, standard errors, t", "R 4.2.2"),
      matched.flatMap(({ one, own }) => [
        [own.difference, one.diff] as const,
        [own.standardError, one.se] as const,
        [own.t, one.t] as const,
      ]),
      9,
      1e-12,
    );
    expectAgreement(
      row("Dunnett", "adjusted p", "double integral in R 4.2.2"),
      matched.map(({ one, own }) => [own.p, one.pAdjIntegrated] as const),
      7,
      tailNoise,
    );
    expectAgreement(
      row("Dunnett", "critical value and simultaneous 95 % limits", "double integral in R 4.2.2"),
      [
        [ours.criticalT, reference.criticalT95],
        ...matched.flatMap(({ one, own }) => [[own.lower, one.lower] as const, [own.upper, one.upper] as const]),
      ],
      7,
      1e-7,
    );
    // quasi-Monte-Carlo: p to 1e-4 of itself or 2e-6, limits to about 1e-3 standard errors
    expectAgreement(
      row("Dunnett", "adjusted p", "R multcomp 1.4-22, quasi-Monte-Carlo"),
      matched.map(({ one, own }) => [own.p, one.pAdjMultcomp] as const),
      4,
      2e-6,
    );
    for (const { one, own } of matched) {
      expect(Math.abs(own.lower - one.lowerMultcomp)).toBeLessThan(2e-3 * own.standardError);
      expect(Math.abs(own.upper - one.upperMultcomp)).toBeLessThan(2e-3 * own.standardError);
    }
  });
}
