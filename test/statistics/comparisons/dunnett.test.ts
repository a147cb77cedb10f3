import { expect, test } from "vitest";
import { dunnett } from "../../../src/statistics/comparisons/dunnett.ts";
import { largestComparisonUpperTail } from "../../../src/statistics/comparisons/largest-comparison.ts";
import { deviationsFromMean } from "../../../src/statistics/descriptive/deviations.ts";
import { studentTQuantile, studentTTwoTailed } from "../../../src/statistics/distributions/student-t.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
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

/** Means of groups with the error variance they share. */
function meansOf(groups: ReadonlyArray<ReadonlyArray<number>>) {
  const parts = groups.map((group) => deviationsFromMean("meansOf", group, 1));
  const degreesOfFreedom = groups.reduce((sum, { length }) => sum + length - 1, 0);
  const squares = parts.flatMap(({ deviations }) => [...deviations].map((one) => one ** 2));
  return {
    means: parts.map(({ mean }) => mean),
    counts: groups.map(({ length }) => length),
    errorVariance: squares.reduce((sum, square) => sum + square, 0) / degreesOfFreedom,
    degreesOfFreedom,
  };
}

for (const { dataset, file, values, labels } of cases) {
  const names = [...new Set(labels)].sort();
  const input = meansOf(names.map((name) => values.filter((_, i) => labels[i] === name)));
  const reference = file.expected.dunnettVsFirst;
  const row = (statistic: string, source: string) => ({ method: "Dunnett", dataset, statistic, source });

  test(`against the control on ${dataset}`, () => {
    const ours = dunnett(input, 0);
    expect(names[0]).toBe(reference.control);
    expect(input.degreesOfFreedom).toBe(reference.df);
    expect(ours.length).toBe(reference.comparisons.length);
    const loadings = input.counts.slice(1).map((count) => Math.sqrt(count / (count + input.counts[0]!)));
    const matched = reference.comparisons.map((one) => {
      const own = ours.find(({ group }) => `${names[group]} - ${names[0]}` === one.pair)!;
      const t = own.difference / own.standardError;
      return { one, own, t, p: largestComparisonUpperTail(Math.abs(t), loadings, input.degreesOfFreedom) };
    });
    expectAgreement(
      row("differences, standard errors, t", "R 4.2.2"),
      matched.flatMap(({ one, own, t }) => [
        [own.difference, one.diff] as const,
        [own.standardError, one.se] as const,
        [t, one.t] as const,
      ]),
      9,
      1e-12,
    );
    expectAgreement(
      row("adjusted p", "double integral in R 4.2.2"),
      matched.map(({ one, p }) => [p, one.pAdjIntegrated] as const),
      7,
      tailNoise,
    );
    expectAgreement(
      row("critical value and simultaneous 95 % limits", "double integral in R 4.2.2"),
      matched.flatMap(({ one, own }) => [
        [(own.upper - own.difference) / own.standardError, reference.criticalT95] as const,
        [own.lower, one.lower] as const,
        [own.upper, one.upper] as const,
      ]),
      7,
      1e-7,
    );
    // quasi-Monte-Carlo: p to 1e-4 of itself or 2e-6, limits to about 1e-3 standard errors
    expectAgreement(
      row("adjusted p", "R multcomp 1.4-22, quasi-Monte-Carlo"),
      matched.map(({ one, p }) => [p, one.pAdjMultcomp] as const),
      4,
      2e-6,
    );
    for (const { one, own } of matched) {
      expect(Math.abs(own.lower - one.lowerMultcomp)).toBeLessThan(2e-3 * own.standardError);
      expect(Math.abs(own.upper - one.upperMultcomp)).toBeLessThan(2e-3 * own.standardError);
    }
  });
}

test("the largest comparison with a control: Dunnett's integral by mpmath 1.3.0, 20 digits; alone a t test", () => {
  for (const [t, loadings, value] of [
    [2.2, [0.7, 0.7, 0.7], 0.07275087813019705],
    [2.2, [0.99, 0.3], 0.05373694933849174],
    [3, [0.2, 0.2, 0.2, 0.2, 0.2, 0.2], 0.01608143040690945],
  ] as const)
    assertClose(largestComparisonUpperTail(t, loadings, Number.POSITIVE_INFINITY), value, 1e-12);
  assertClose(largestComparisonUpperTail(1.7, [0.6], 5), studentTTwoTailed(1.7, 5), 1e-12);
});

test("one group against the control has the limits of a t test, whichever of the two is the control", () => {
  const input = { means: [6, 9], counts: [3, 4], errorVariance: 2, degreesOfFreedom: 5 };
  const [one] = dunnett(input, 0);
  const [turned] = dunnett(input, 1);
  assertClose(one!.standardError, Math.sqrt(2 * (1 / 3 + 1 / 4)), 1e-14);
  assertClose(one!.upper, 3 + studentTQuantile(0.975, 5) * one!.standardError, 1e-12);
  assertClose(turned!.lower, -one!.upper, 1e-12);
  expect([one!.group, turned!.group]).toEqual([1, 0]);
});

test("the control by position: order of the other groups changes nothing", () => {
  const forward = { means: [5, 6, 8], counts: [4, 6, 3], errorVariance: 1, degreesOfFreedom: 10 };
  const backward = { ...forward, means: [8, 6, 5], counts: [3, 6, 4] };
  const [first, second] = dunnett(forward, 0);
  const [last, middle] = dunnett(backward, 2);
  assertClose(first!.lower, middle!.lower, 1e-9);
  assertClose(second!.upper, last!.upper, 1e-9);
});

test("each argument of a comparison with a control is checked by name", () => {
  const good = { means: [5, 6, 8], counts: [4, 4, 4], errorVariance: 1, degreesOfFreedom: 6 };
  const refused: [Partial<typeof good>, string][] = [
    [{ means: [5], counts: [4] }, "2 means or more are needed, each with a count; received 1 and 1"],
    [{ counts: [4, 4] }, "2 means or more are needed, each with a count; received 3 and 2"],
    [{ means: [5, Number.NaN, 8] }, "means must be finite"],
    [{ counts: [4, 0, 4] }, "a count must be a whole number of 1 or more; received 0"],
    [{ errorVariance: 0 }, "errorVariance must be a number above 0; received 0"],
    [{ degreesOfFreedom: 0 }, "degreesOfFreedom must be a number above 0; received 0"],
  ];
  for (const [wrong, message] of refused)
    expect(() => dunnett({ ...good, ...wrong }, 0)).toThrow(`dunnett: ${message}`);
  for (const control of [-1, 3, 0.5, Number.NaN])
    expect(() => dunnett(good, control)).toThrow(`one of the 3 groups; received position ${control}`);
});
