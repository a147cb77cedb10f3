import { expect, test } from "vitest";
import { canonicalAnalysis } from "../../../src/statistics/curves/canonical-analysis.ts";
import { fitCurve } from "../../../src/statistics/curves/fit-curve.ts";
import { fitCurves } from "../../../src/statistics/curves/fit-curves.ts";
import { economicOptimum } from "../../../src/statistics/optimum/economic-optimum.ts";
import { fiellerOptimum } from "../../../src/statistics/optimum/fieller-optimum.ts";
import { optimaAcrossForms } from "../../../src/statistics/optimum/optima-across-forms.ts";
import { optimumBootstrap } from "../../../src/statistics/optimum/optimum-bootstrap.ts";
import { assertClose } from "../../agreement.ts";

/** The examples of the README pages of curves and optimum. */
const columns = { doses: [2, 2, 8, 8, 14, 14, 20, 20], responses: [50, 52, 74, 77, 84, 86, 79, 81] };
const prices = { pricePerUnit: 0.5, costPerUnit: 0.4, lowestDose: 2, highestDose: 20 };

test("curves", () => {
  const fit = fitCurve({ form: "quadratic", ...columns });
  if (fit.kind !== "fitted") throw new Error(fit.reason);
  assertClose(fit.estimates[2]!, -0.20486, 5e-6);
  assertClose(fit.meanAt(10).low, 78.189, 5e-4);
  assertClose(fit.aicc, 46.231, 5e-4);
  expect(fitCurve({ form: "quadratic", doses: [1, 1, 2, 2], responses: [3, 4, 5, 6] })).toMatchObject({
    kind: "not-fitted",
    reason: 'the form "quadratic" needs at least 3 different doses; there are 2',
  });
  const { ranked } = fitCurves(columns);
  expect(ranked[0]!.fit.name).toBe("quadratic");
  assertClose(ranked[0]!.weight, 0.98, 0.01);
  const top = canonicalAnalysis({ coefficients: { b0: 0, b1: 2, b2: 4, b11: -1, b22: -1, b12: 0 } });
  expect(top).toMatchObject({ shape: "maximum", stationary: { x1: 1, x2: 2 } });
});

test("optimum", () => {
  const fit = fitCurve({ form: "quadratic", ...columns });
  if (fit.kind !== "fitted") throw new Error(fit.reason);
  const best = economicOptimum({ form: "quadratic", parameters: fit.estimates, ...prices });
  assertClose(best.dose, 12.973, 5e-4);
  const fieller = fiellerOptimum(fit, prices);
  if (fieller.set.kind !== "bounded") throw new Error(fieller.set.kind);
  assertClose(fieller.set.low, 12.429, 5e-4);
  assertClose(fieller.set.high, 13.647, 5e-4);
  const boot = optimumBootstrap({
    form: "quadratic",
    ...columns,
    pricePerUnit: 0.5,
    costPerUnit: 0.4,
    replicates: 2000,
    seed: 1,
  });
  if (boot.kind !== "interval") throw new Error(boot.reason);
  assertClose(boot.low, 12.531, 5e-4);
  assertClose(boot.high, 13.536, 5e-4);
  expect(optimaAcrossForms(fitCurves(columns), prices).high).toBe(20);
});
