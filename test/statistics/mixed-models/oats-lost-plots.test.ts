import { readFileSync } from "node:fs";
import { test } from "vitest";
import { fitMixedModel } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import { expectAgreement } from "../../agreement.ts";

// Yates' split-plot oats with thirteen plots taken out, so that nothing is balanced. Expected values: the equations of
// Kenward and Roger 1997 written out with full 59 x 59 matrices in Python (numpy), variances by scoring steps to a score of 1e-16.
const lost = new Set([1, 2, 3, 7, 11, 12, 20, 33, 34, 35, 50, 61, 70]);
const { data } = JSON.parse(readFileSync(new URL("../../reference/lmm-Oats.json", import.meta.url), "utf8")) as {
  data: { Block: string[]; Variety: string[]; nitroF: string[]; yield: number[] };
};
const left = <T>(values: T[]): T[] => values.filter((_, i) => !lost.has(i));

test("split plots with lost plots: three variances", () => {
  const fit = fitMixedModel({
    response: left(data.yield),
    terms: [
      { kind: "factor", name: "nitrogen", values: left(data.nitroF) },
      { kind: "factor", name: "variety", values: left(data.Variety) },
    ],
    random: [
      { name: "block", groups: left(data.Block) },
      { name: "plot", groups: left(data.Variety), within: "block" },
    ],
  });
  const row = (statistic: string) => ({
    method: "mixed model, REML",
    dataset: "Oats, thirteen plots lost",
    statistic,
    source: "Yates (1935); equations of Kenward and Roger 1997 with full matrices, numpy",
  });
  expectAgreement(
    row("variances"),
    [
      [fit.residual.variance, 190.22164811],
      [fit.components[0]!.variance, 194.4923929],
      [fit.components[1]!.variance, 38.01163885],
    ],
    9,
  );
});
