import { test } from "vitest";
import { clusteredErrors } from "../../../src/statistics/counts/clustered-errors.ts";
import { logisticRegression } from "../../../src/statistics/counts/logistic-regression.ts";
import { expectAgreement } from "../../agreement.ts";
import cbpp from "../../reference/logistic-cbpp.json" with { type: "json" };
import { indicatorColumns } from "./indicator-columns.ts";

const zip = (ours: number[], theirs: ReadonlyArray<number>) =>
  ours.map((value, index): readonly [number, number] => [value, theirs[index]!]);

test("errors by cluster, cbpp: rows of one herd", () => {
  const fit = logisticRegression({
    successes: cbpp.data.incidence,
    trials: cbpp.data.size,
    columns: indicatorColumns("period", cbpp.data.period),
  });
  const source = "NumPy, the published formulas written out";
  // limits of Student's t of 14 degrees of freedom: 2.1447866879 at 0.975
  const byHerd = clusteredErrors(fit, cbpp.data.herd).map(({ lower, upper }) => (upper - lower) / 2 / 2.1447866879);
  expectAgreement(
    { method: "logistic regression, errors by cluster", dataset: "cbpp", statistic: "errors, design effects", source },
    [
      ...zip(byHerd, [0.2846790227068017, 0.4549978072767215, 0.5130465837534414, 0.4015776751608557]),
      ...zip(
        byHerd.map((error, index) => error ** 2 / fit.covariance[index]![index]!),
        [3.8588305258835276, 2.4368986872961784, 2.688772277731413, 0.9451925501357434],
      ),
    ],
    10,
  );
});
