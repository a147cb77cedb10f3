import { describe, expect, test } from "vitest";
import { visitBootstrapRefits } from "../../../src/statistics/curves/bootstrap-curve.ts";
import { curveData } from "../../../src/statistics/curves/curve-data.ts";
import { type CurveFormName, curveForms } from "../../../src/statistics/curves/curve-forms.ts";
import { dosesBesideBlocks } from "../../../src/statistics/curves/doses-beside-blocks.ts";
import { estimateCurve } from "../../../src/statistics/curves/estimate-curve.ts";
import { type FittedCurve, fitCurve } from "../../../src/statistics/curves/fit-curve.ts";
import { linearModel } from "../../../src/statistics/linear-models/linear-model.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";

/** Twelve blocks of unequal size, some doses missing from some blocks, weights that differ. */
function unevenTrial() {
  const random = seededRandom(5);
  const trial = {
    doses: [] as number[],
    responses: [] as number[],
    blocks: [] as string[],
    weights: [] as number[],
  };
  for (let block = 0; block < 12; block++) {
    const offset = 5 * random.normal();
    [3, 6, 9, 14].forEach((dose, place) => {
      const trays = (block + 2 * place) % 4;
      for (let tray = 0; tray < trays; tray++) {
        trial.doses.push(dose);
        trial.blocks.push(`b${block}`);
        trial.weights.push(1 + ((block + tray) % 3));
        trial.responses.push(20 + 30 * (1 - Math.exp(-0.12 * dose)) + offset + 2 * random.normal());
      }
    });
  }
  return trial;
}

const trial = unevenTrial();

function fitted(form: CurveFormName): FittedCurve {
  const fit = fitCurve({ form, ...trial, profile: false });
  if (fit.kind !== "fitted") throw new Error(fit.reason);
  return fit;
}

describe("many blocks", () => {
  test("the trial is one the blocks are taken out of", () => {
    expect(dosesBesideBlocks(curveData("test", trial))?.data.doses).toHaveLength(4);
  });

  test("a quadratic is the linear model with an indicator for each block", () => {
    const names = [...new Set(trial.blocks)];
    const last = names.at(-1)!;
    const model = linearModel({
      response: trial.responses,
      weights: trial.weights,
      terms: [
        { name: "dose", kind: "number", values: trial.doses },
        { name: "dose squared", kind: "number", values: trial.doses.map((dose) => dose ** 2) },
        ...names.slice(0, -1).map((name) => ({
          name,
          kind: "number" as const,
          values: trial.blocks.map((block) => (block === name ? 1 : block === last ? -1 : 0)),
        })),
      ],
    });
    const fit = fitted("quadratic");
    fit.parameters.forEach(({ estimate, standardError }, j) => {
      assertClose(estimate, model.coefficients[j]!.estimate, 1e-9 * Math.abs(estimate));
      assertClose(standardError, model.coefficients[j]!.standardError, 1e-9 * standardError);
    });
    fit.blockOffsets.slice(0, -1).forEach(({ offset }, j) => {
      assertClose(offset, model.coefficients[3 + j]!.estimate, 1e-9);
    });
  });

  test.each<CurveFormName>(["asymptotic-exponential", "hyperbola-with-offset", "quadratic-plateau", "hyperbola"])(
    "%s: the residuals are at right angles to every direction the fit can move in, and the offsets sum to 0",
    (form) => {
      const fit = fitted(form);
      const { gradient, parameters } = curveForms[form];
      const slope = new Float64Array(parameters.length);
      const along = new Float64Array(parameters.length);
      const size = new Float64Array(parameters.length);
      const byBlock = new Map<string, number>();
      fit.residuals.forEach((residual, i) => {
        const pull = trial.weights[i]! * residual;
        gradient(trial.doses[i]!, fit.estimates, slope);
        slope.forEach((value, j) => {
          along[j]! += value * pull;
          size[j]! += Math.abs(value * pull);
        });
        byBlock.set(trial.blocks[i]!, (byBlock.get(trial.blocks[i]!) ?? 0) + pull);
      });
      along.forEach((sum, j) => void assertClose(sum, 0, 1e-7 * size[j]!));
      // one multiplier for all blocks holds their sum at 0
      const pulls = [...byBlock.values()];
      pulls.forEach((pull) => void assertClose(pull, pulls[0]!, 1e-6));
      assertClose(
        fit.blockOffsets.reduce((sum, { offset }) => sum + offset, 0),
        0,
        1e-9,
      );
      const sum = fit.residuals.reduce((total, residual, i) => total + trial.weights[i]! * residual ** 2, 0);
      assertClose(fit.residualSumOfSquares, sum, 1e-9 * sum);
    },
  );

  test("refits of resampled trays centre on the estimate and spread as its standard error says", () => {
    const random = seededRandom(11);
    const blocks: string[] = [];
    const doses: number[] = [];
    const responses: number[] = [];
    for (let block = 0; block < 20; block++) {
      for (const dose of [3, 6, 9, 12]) {
        for (let tray = 0; tray < 4; tray++) {
          blocks.push(`b${block}`);
          doses.push(dose);
          responses.push(10 + 2 * dose + block + 3 * random.normal());
        }
      }
    }
    const data = curveData("test", { doses, responses, blocks });
    const estimate = estimateCurve(curveForms["straight-line"], data);
    if (estimate.kind === "none") throw new Error(estimate.reason);
    const slopes: number[] = [];
    visitBootstrapRefits(
      { form: curveForms["straight-line"], data, estimate, replicates: 4000, seed: 1 },
      (parameters) => void slopes.push(parameters[1]!),
    );
    const mean = slopes.reduce((sum, slope) => sum + slope, 0) / slopes.length;
    const spread = Math.sqrt(slopes.reduce((sum, slope) => sum + (slope - mean) ** 2, 0) / slopes.length);
    // least squares beside blocks: sigma / sqrt(sum of squared deviations of the doses)
    const expected = Math.sqrt(estimate.residualSumOfSquares / (doses.length - 21)) / Math.sqrt(80 * 45);
    assertClose(mean, estimate.parameters[1]!, 4 * (expected / Math.sqrt(4000)));
    assertClose(spread / expected, 1, 0.1);
  });

  test("doses that never differ within a block are not taken apart from the blocks", () => {
    const blocks = Array.from({ length: 40 }, (_, i) => `b${Math.floor(i / 4)}`);
    const doses = blocks.map((name) => (Number(name.slice(1)) % 2 === 0 ? 5 : 10));
    const responses = blocks.map((_, i) => (i * 7) % 5);
    expect(dosesBesideBlocks(curveData("test", { doses, responses, blocks }))).toBeUndefined();
    const fit = fitCurve({ form: "straight-line", doses, responses, blocks });
    expect(fit.kind).toBe("not-fitted");
  });
});
