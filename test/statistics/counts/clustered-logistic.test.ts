import { expect, test } from "vitest";
import { clusteredErrors } from "../../../src/statistics/counts/clustered-errors.ts";
import { clusteredProportion } from "../../../src/statistics/counts/clustered-proportion.ts";
import { indicatorColumns } from "../../../src/statistics/counts/logistic-design.ts";
import { logisticRegression } from "../../../src/statistics/counts/logistic-regression.ts";
import { expectAgreement } from "../../agreement.ts";
import cbpp from "../../reference/logistic-cbpp.json" with { type: "json" };

const zip = (ours: number[], theirs: ReadonlyArray<number>) =>
  ours.map((value, index): readonly [number, number] => [value, theirs[index]!]);

test("errors by cluster, cbpp: rows of one herd", () => {
  const fit = logisticRegression({
    successes: cbpp.data.incidence,
    trials: cbpp.data.size,
    columns: indicatorColumns("period", cbpp.data.period),
  });
  const source = "NumPy, the published formulas written out";
  expectAgreement(
    { method: "logistic regression", dataset: "cbpp", statistic: "Pearson chi-square", source },
    [[fit.pearsonChiSquare, 113.88786994465775]],
    9,
  );
  const byHerd = clusteredErrors(fit, cbpp.data.herd);
  expect(byHerd.clusters).toBe(15);
  expectAgreement(
    { method: "logistic regression, errors by cluster", dataset: "cbpp", statistic: "errors, design effects", source },
    [
      ...zip(
        byHerd.coefficients.map((coefficient) => coefficient.standardError),
        [0.2846790227068017, 0.4549978072767215, 0.5130465837534414, 0.4015776751608557],
      ),
      ...zip(
        byHerd.coefficients.map((coefficient) => coefficient.designEffect),
        [3.8588305258835276, 2.4368986872961784, 2.688772277731413, 0.9451925501357434],
      ),
    ],
    10,
  );
  // limits and t from those errors: Student's t of 14 degrees of freedom, 2.1447866879 at 0.975
  for (const { estimate, standardError, lower, upper, t, degreesOfFreedom, p } of byHerd.coefficients) {
    expect(degreesOfFreedom).toBe(14);
    expect(t).toBeCloseTo(estimate / standardError, 12);
    expect(lower).toBeCloseTo(estimate - 2.1447866879 * standardError, 9);
    expect(upper).toBeCloseTo(estimate + 2.1447866879 * standardError, 9);
    expect(p < 0.05).toBe(lower > 0 || upper < 0);
  }
  const herds = [...new Set(cbpp.data.herd)];
  const total = (values: number[], herd: string) =>
    values.reduce((sum, value, row) => (cbpp.data.herd[row] === herd ? sum + value : sum), 0);
  const pooled = clusteredProportion(
    herds.map((herd) => total(cbpp.data.incidence, herd)),
    herds.map((herd) => total(cbpp.data.size, herd)),
  );
  expectAgreement(
    { method: "clustered proportion", dataset: "cbpp", statistic: "estimates, errors, limits", source },
    [
      [pooled.proportion, 0.11757719714964371],
      [pooled.standardError, 0.023148245796868222],
      [pooled.designEffect, 4.348589737260881],
      [pooled.effectiveUnits, 842 / 4.348589737260881],
    ],
    11,
  );
});
