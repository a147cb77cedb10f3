import { describe, expect, test } from "vitest";
import { contrastTest } from "../../../src/statistics/mixed-models/contrast-test.ts";
import { fitMixedModel } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";

// Davies 1949, Statistical Methods in Research and Production: yield of dyestuff, 5 preparations of each of 6 batches
// (from memory). Printed analysis of variance: between batches 56357.5 on 5, within 58830.0 on 24; so the variances by
// equating mean squares are 1764.05 and 2451.25, which is REML in a balanced layout.
const dyestuff = [
  [1545, 1440, 1440, 1520, 1580],
  [1540, 1555, 1490, 1560, 1495],
  [1595, 1550, 1605, 1510, 1560],
  [1445, 1440, 1595, 1465, 1545],
  [1595, 1630, 1515, 1635, 1625],
  [1520, 1455, 1450, 1480, 1445],
];
const response = dyestuff.flat();
const batch = dyestuff.flatMap((rows, k) => rows.map(() => `batch ${k + 1}`));
const fit = fitMixedModel({ response, terms: [], random: [{ name: "batch", groups: batch }] });

describe("dyestuff: balanced, one grouping", () => {
  test("variances from mean squares", () => {
    const mean = contrastTest(fit, [1]);
    expectAgreement(
      {
        method: "mixed model, REML",
        dataset: "dyestuff (Davies)",
        statistic: "mean, variances, standard error",
        source: "Davies 1949, mean squares 11271.5 and 2451.25 (from memory)",
      },
      [
        [mean.estimate, 1527.5],
        [fit.components[0]!.variance, (11271.5 - 2451.25) / 5],
        [fit.residual.variance, 2451.25],
        [mean.standardError, Math.sqrt(11271.5 / 30)],
      ],
      10,
    );
  });
});

// Box and Tiao 1973, Bayesian Inference in Statistical Analysis, table 5.1.4: generated so that batches differ less than chance
// would have it (from memory)
const lowBatches = [
  [7.298, 3.846, 2.434, 9.566, 7.99],
  [5.22, 6.556, 0.608, 11.788, -0.892],
  [0.11, 10.386, 13.434, 5.51, 8.166],
  [2.212, 4.852, 7.092, 9.288, 4.98],
  [0.282, 9.014, 4.458, 9.446, 7.198],
  [1.722, 4.782, 8.106, 0.758, 3.758],
];

describe("variance at the boundary", () => {
  const low = fitMixedModel({ response: lowBatches.flat(), terms: [], random: [{ name: "batch", groups: batch }] });
  test("is 0, flagged and said", () => {
    expect(low.components[0]!.variance).toBe(0);
    expect(low.components[0]!.atBoundary).toBe(true);
    expect(low.notes.join()).toMatch(/"batch" is estimated as 0/);
    assertClose(contrastTest(low, [1]).estimate, 5.6656, 0.0001); // printed in Box and Tiao
    const values = lowBatches.flat();
    const mean = values.reduce((sum, value) => sum + value / 30, 0);
    assertClose(low.residual.variance, values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / 29, 1e-9);
  });
});
