import { test } from "vitest";
import { robustCentre } from "../../../src/cleaning/plausibility/robust-centre.ts";
import { mean } from "../../../src/statistics/descriptive/mean.ts";
import { meanInterval } from "../../../src/statistics/descriptive/mean-interval.ts";
import { quantileType7 } from "../../../src/statistics/descriptive/quantile.ts";
import { studentTQuantile, studentTTwoTailed } from "../../../src/statistics/distributions/student-t.ts";
import { brownForsytheMeans } from "../../../src/statistics/groups/brown-forsythe-means.ts";
import { linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import { expectAgreement } from "../../agreement.ts";
import toothGrowth from "../../reference/descriptives-ToothGrowth.json" with { type: "json" };
import sleep from "../../reference/paired-sleep.json" with { type: "json" };

type Pair = readonly [number, number];
type Described = (typeof toothGrowth.expected.bySuppDose)["all"];
type TwoSamples = typeof toothGrowth.expected.OJvsVCdose1;

function describePairs(values: number[], expected: Described): Pair[] {
  const at95 = meanInterval(values);
  const at99 = meanInterval(values, 0.99);
  return [
    [values.length, expected.n],
    [mean(values), expected.mean],
    [at95.standardError, expected.standardError],
    [quantileType7(values, 0), expected.min],
    [quantileType7(values, 1), expected.max],
    [quantileType7(values, 0.5), expected.median],
    [robustCentre(values)!.deviation, expected.madRaw],
    ...Object.entries(expected.quantileType7).map(
      ([name, value]) => [quantileType7(values, Number(name.slice(1)) / 100), value] as const,
    ),
    [at95.lower, expected.t95[0]!],
    [at95.upper, expected.t95[1]!],
    [at99.lower, expected.t99[0]!],
    [at99.upper, expected.t99[1]!],
  ];
}

/** Welch's test as that of means without one variance, the pooled one as a line of 0 and 1. */
function twoSamplePairs(a: number[], b: number[], { welch, pooled }: TwoSamples): Pair[] {
  const { f, denominatorDf, p } = brownForsytheMeans([a, b]);
  const difference = linearModel({
    response: [...b, ...a],
    terms: [{ kind: "number", name: "first", values: [...b.map(() => 0), ...a.map(() => 1)] }],
  });
  const { estimate, standardError } = difference.coefficients[1]!;
  const df = difference.residual.degreesOfFreedom;
  const reach = studentTQuantile(0.975, df) * standardError;
  return [
    [f, welch.t ** 2],
    [denominatorDf, welch.df],
    [p, welch.p],
    [estimate, pooled.estimate[0]! - pooled.estimate[1]!],
    [estimate / standardError, pooled.t],
    [df, pooled.df],
    [studentTTwoTailed(estimate / standardError, df), pooled.p],
    [estimate - reach, pooled.ci95[0]!],
    [estimate + reach, pooled.ci95[1]!],
  ];
}

const digitsOf = (tolerance: { relative: number }) => -Math.log10(tolerance.relative);

test("ToothGrowth, Crampton 1947: summaries of every arm", () => {
  const { len, supp, dose } = toothGrowth.data;
  const arm = (name: string) => len.filter((_, row) => name === "all" || name === `${supp[row]}_${dose[row]}`);
  const pairs = Object.entries(toothGrowth.expected.bySuppDose).flatMap(([name, expected]) =>
    describePairs(arm(name), expected),
  );
  const row = { dataset: "ToothGrowth", source: "R 4.2.2" };
  const { tolerance } = toothGrowth;
  expectAgreement(
    { ...row, method: "mean, spread, quantiles, t interval", statistic: "7 arms" },
    pairs,
    digitsOf(tolerance),
    tolerance.absolute,
  );
  expectAgreement(
    { ...row, method: "two-sample t tests", statistic: "dose 1" },
    twoSamplePairs(arm("OJ_1"), arm("VC_1"), toothGrowth.expected.OJvsVCdose1),
    digitsOf(tolerance),
    tolerance.absolute,
  );
});

test("sleep, Cushny and Peebles 1905: summaries and unpaired tests", () => {
  const { extra, group, ID } = sleep.data;
  const of = (name: string) => extra.filter((_, row) => name === "all" || group[row] === name);
  const [a, b] = [of("1"), of("2")];
  const digits = digitsOf(sleep.tolerance);
  const row = { dataset: "sleep", source: "R 4.2.2" };
  expectAgreement(
    { ...row, method: "pairing by person", statistic: "identifiers", source: "the data" },
    a.map((_, index) => [Number(ID[index]), Number(ID[index + 10])] as const),
    15,
  );
  expectAgreement(
    { ...row, method: "mean, spread, quantiles, t interval", statistic: "3 groups" },
    Object.entries(sleep.expected.byGroup).flatMap(([name, expected]) => describePairs(of(name), expected)),
    digits,
    sleep.tolerance.absolute,
  );
  expectAgreement(
    { ...row, method: "two-sample t tests", statistic: "2 groups" },
    twoSamplePairs(a, b, sleep.expected.unpaired),
    digits,
    sleep.tolerance.absolute,
  );
});
