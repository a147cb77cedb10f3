import { describe, expect, test } from "vitest";
import { orthonormalColumns, removeParts } from "../../../src/statistics/linear-algebra/orthonormal-columns.ts";
import { designColumns, type ModelTerm } from "../../../src/statistics/linear-models/design-columns.ts";
import { fitMixedModel } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import { numberRandomFactors } from "../../../src/statistics/mixed-models/random-factor.ts";
import { randomStructure } from "../../../src/statistics/mixed-models/random-structure.ts";
import { type VarianceModel, varianceState } from "../../../src/statistics/mixed-models/variance-likelihood.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";

/** An invented unbalanced trial: two strains, a dose, cooks and jars within cooks. */
function inventedTrial(cooks: number, trays: number, seed: number) {
  const random = seededRandom(seed);
  const [yields, dose, strain, cook, jar]: [number[], number[], string[], string[], string[]] = [[], [], [], [], []];
  for (let c = 0; c < cooks; c++) {
    const cookEffect = 3 * random.normal();
    const jarEffects = [2 * random.normal(), 2 * random.normal(), 2 * random.normal()];
    for (let t = 0; t < trays; t++) {
      if (random.uniform() < 0.15) continue;
      const j = random.integer(3);
      const d = random.integer(5);
      const s = random.uniform() < 0.5 ? "grey" : "white";
      dose.push(d);
      strain.push(s);
      cook.push(`c${c}`);
      jar.push(`${j}`);
      yields.push(50 + 2 * d + (s === "grey" ? 4 : 0) + cookEffect + jarEffects[j]! + 2.5 * random.normal());
    }
  }
  return { yields, dose, strain, cook, jar };
}

describe("properties on an invented unbalanced trial", () => {
  const trial = inventedTrial(9, 12, 5);
  const termsOf = (dose: number[], strain: string[]): ModelTerm[] => [
    { kind: "number", name: "dose", values: dose },
    { kind: "number", name: "dose squared", values: dose.map((one) => one * one) },
    { kind: "factor", name: "strain", values: strain },
    { kind: "number", name: "dose of white", values: dose.map((one, i) => (strain[i] === "white" ? one : 0)) },
  ];
  const terms = termsOf(trial.dose, trial.strain);
  const random = [
    { name: "cook", groups: trial.cook },
    { name: "jar", groups: trial.jar, within: "cook" },
  ];
  const nested = fitMixedModel({ response: trial.yields, terms, random });

  test("the score is 0 and matches differences of the deviance", () => {
    const { state } = nested.working;
    for (const slope of state.score) assertClose(slope, 0, 1e-9);
    const rows = trial.yields.length;
    const { basis } = orthonormalColumns(designColumns("test", terms, rows).map(({ values }) => values));
    const left = Float64Array.from(trial.yields, (value) => value / 3);
    removeParts(left, basis);
    const structure = randomStructure([...basis, left], numberRandomFactors("test", random, rows));
    const model: VarianceModel = { structure, columns: basis.length, kind: "REML", designLogDeterminant: 0 };
    const away = Float64Array.from(state.variances, (variance, i) => variance * (1.3 + 0.2 * i));
    const at = varianceState(model, away)!;
    away.forEach((variance, i) => {
      const step = 1e-5 * variance;
      const moved = (by: number) =>
        varianceState(
          model,
          away.map((v, k) => (k === i ? v + by : v)),
        )!;
      const [up, down] = [moved(step), moved(-step)];
      assertClose(at.score[i]!, (up.deviance - down.deviance) / (2 * step), 1e-5 * (1 + Math.abs(at.score[i]!)));
      away.forEach((_, j) => {
        const difference = (up.score[j]! - down.score[j]!) / (2 * step);
        assertClose(at.hessian[i]![j]!, difference, 1e-5 * (1 + Math.abs(difference)));
      });
    });
  });
  test("order of rows and unit of the response do not matter", () => {
    const order = seededRandom(3).shuffle(trial.yields.map((_, i) => i));
    const take = <T>(values: ReadonlyArray<T>) => order.map((i) => values[i]!);
    const other = fitMixedModel({
      response: take(trial.yields).map((value) => value * 1000),
      terms: termsOf(take(trial.dose), take(trial.strain)),
      random: [
        { name: "cook", groups: take(trial.cook) },
        { name: "jar", groups: take(trial.jar), within: "cook" },
      ],
    });
    nested.components.forEach((component, k) => {
      assertClose(other.components[k]!.variance / 1e6, component.variance, 1e-9 * component.variance + 1e-12);
    });
  });
});

describe("collinear columns", () => {
  const trial = inventedTrial(6, 10, 9);
  const random = [{ name: "cook", groups: trial.cook }];
  test("are left out and named", () => {
    const double = trial.dose.map((value) => 2 * value + 1);
    const model = fitMixedModel({
      response: trial.yields,
      terms: [
        { kind: "number", name: "dose", values: trial.dose },
        { kind: "number", name: "twice the dose", values: double },
      ],
      random,
    });
    expect(model.coefficientNames).toEqual(["intercept", "dose"]);
    expect(model.notes).toEqual(['Column "twice the dose" is left out: intercept, dose determines it.']);
  });
});
