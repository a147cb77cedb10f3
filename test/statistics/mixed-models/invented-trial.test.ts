import { describe, expect, test } from "vitest";
import type { ModelTerm } from "../../../src/statistics/linear-models/model-term.ts";
import { fitMixedModel } from "../../../src/statistics/mixed-models/fit-mixed-model.ts";
import { varianceState } from "../../../src/statistics/mixed-models/variance-likelihood.ts";
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
  const terms: ModelTerm[] = [
    { kind: "number", name: "dose", values: trial.dose },
    { kind: "power", name: "dose squared", values: trial.dose, exponent: 2 },
    { kind: "factor", name: "strain", values: trial.strain },
    { kind: "interaction", of: ["strain", "dose"] },
  ];
  const random = [
    { name: "cook", groups: trial.cook },
    { name: "jar", groups: trial.jar, within: "cook" },
  ];
  const nested = fitMixedModel({ response: trial.yields, terms, random });

  test("the score is 0 and matches differences of the deviance", () => {
    const { model, state } = nested.working;
    for (const slope of state.score) assertClose(slope, 0, 1e-9);
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
      terms: [
        { kind: "number", name: "dose", values: take(trial.dose) },
        { kind: "power", name: "dose squared", values: take(trial.dose), exponent: 2 },
        { kind: "factor", name: "strain", values: take(trial.strain) },
        { kind: "interaction", of: ["strain", "dose"] },
      ],
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

describe("collinear columns and empty cells", () => {
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
    expect(model.collinear).toEqual([{ column: "twice the dose", determinedBy: ["intercept", "dose"] }]);
    expect(model.notes.join()).toMatch(/"twice the dose" is left out/);
  });
  test("a mean that needs an empty cell is refused, its term tested as far as it goes", () => {
    const medium = trial.strain.map((strain, i) => (strain === "grey" || i % 2 === 0 ? "oat" : "rye"));
    const model = fitMixedModel({
      response: trial.yields,
      terms: [
        { kind: "factor", name: "strain", values: trial.strain },
        { kind: "factor", name: "medium", values: medium },
        { kind: "interaction", of: ["strain", "medium"] },
      ],
      random,
    });
    expect(model.collinear.map((one) => one.column)).toEqual(["strain: white × medium: rye"]);
  });
});
