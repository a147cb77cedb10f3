import { describe, expect, test } from "vitest";
import { weighedCells } from "../../../src/decisions/dose/cell-sums.ts";
import { curveWriter } from "../../../src/decisions/dose/curve-draws.ts";
import { doseGrid } from "../../../src/decisions/dose/dose-grid.ts";
import { testedDoses } from "../../../src/decisions/dose/tested-doses.ts";
import { type YieldComponent, yieldMixture } from "../../../src/decisions/dose/yield-mixture.ts";
import { assertClose, expectAgreement } from "../../agreement.ts";
import { decided, twelveTrays } from "./dose-books.ts";

// Source of every expected value in this file: Gramwright's own specification of the dose decision, sections 8 and 10.9,
// and a second implementation written from its text alone; nothing outside exists for them.
const source = "Gramwright's own specification, second implementation from the text";

const tested = testedDoses(twelveTrays, 1);
const grid = doseGrid(tested.doses, 1);
const mixture = yieldMixture(weighedCells(tested), tested.doses, grid);

const writer = curveWriter(mixture);

/** Mean and variance (per tray variance) of a component on the grid. */
function momentsOf(component: YieldComponent): { mean: Float64Array; variance: Float64Array } {
  const points = grid.doses.length;
  writer.take(component);
  const at = (deviates: Float64Array): Float64Array => {
    const curve = new Float64Array(points);
    writer.write(deviates, curve, 0);
    return curve;
  };
  const mean = at(new Float64Array(mixture.size + 1));
  const variance = new Float64Array(points);
  for (let k = 0; k <= mixture.size; k++) {
    const curve = at(Float64Array.from({ length: mixture.size + 1 }, (_, i) => (i === k ? 1 : 0)));
    for (let j = 0; j < points; j++) variance[j]! += (curve[j]! - mean[j]!) ** 2;
  }
  return { mean, variance };
}

describe("twelve trays, two cooks, 3, 6 and 9 mL", () => {
  test("grid: steps of 1 mL over the range, half the lowest below, the last gap above", () => {
    expect(grid.doses).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 12]);
    expect(grid.doses.slice(grid.first, grid.last + 1)).toEqual([3, 4, 5, 6, 7, 8, 9]);
  });

  test("one component: the line, amplitude 1, cooks 1, cook by dose 0.1", () => {
    const lines = mixture.components.filter(
      ({ shape, block }) => shape.name === "line" && block.cookRatio === 1 && block.cellRatio === 0.1,
    );
    const [one, two] = [1, 2].map((size) => lines.find(({ block }) => block.amplitude === size)!);
    assertClose(one!.rss, 78.469, 0.0005);
    const { mean } = momentsOf(one!);
    const at = grid.tested.map((place) => mean[place]!);
    [29.145, 31.944, 34.411].forEach((value, i) => {
      assertClose(at[i]!, value, 0.0005);
    });
    // both sizes have the same prior
    assertClose(two!.logWeight - one!.logWeight, 1.6146, 0.00005);
  });

  test("the mixture before curves with valleys are left out", () => {
    const records = twelveTrays.length;
    const places = [1, 2, 3, 4, 5, 6, 7];
    const moments = mixture.components.map((component) => ({ component, ...momentsOf(component) }));
    const means = places.map((j) => moments.reduce((sum, { component, mean }) => sum + component.weight * mean[j]!, 0));
    const sds = places.map((j, i) =>
      Math.sqrt(
        moments.reduce(
          (sum, { component, mean, variance }) =>
            sum + component.weight * ((component.rss / (records - 3)) * variance[j]! + (mean[j]! - means[i]!) ** 2),
          0,
        ),
      ),
    );
    // a second implementation from the specification's text (it gives the specification's own values with its four plateaus),
    // with the plateaus at every tenth of the range
    const row = { method: "dose decision, yield over dose", dataset: "twelve trays", source };
    expectAgreement(
      { ...row, statistic: "means of the mixture" },
      [27.71, 30.107, 31.799, 33.145, 34.13, 34.602, 34.646].map((value, i) => [means[i]!, value] as const),
      4,
      0.0005,
    );
    expectAgreement(
      { ...row, statistic: "standard deviations of the mixture" },
      [2.206, 2.296, 2.208, 2.03, 2.236, 2.241, 2.089].map((value, i) => [sds[i]!, value] as const),
      3,
      0.0006,
    );
  });

  test("decision at 0.30 a gram and 0.10 a mL", () => {
    const decision = decided({
      trays: twelveTrays,
      prices: { perGram: 0.3, perDoseUnit: 0.1 },
      settings: { draws: 40_000 },
    });
    expect(decision.use.dose).toBe(8);
    expect(decision.use.tested).toBe(false);
    expect(decision.use.over!.dose).toBe(9);
    assertClose(decision.risk.mean, 0.1, 0.01);
    assertClose(decision.risk.high, 0.34, 0.01);
    for (const [dose, left] of [
      [3, 8.01],
      [6, 9.35],
      [9, 9.51],
    ] as const) {
      assertClose(decision.expected.find((one) => one.dose === dose)!.left.mean, left, 0.011);
    }
    // the check value is at a cut of .95, where 4 mL is on the edge and the seed decides; the decision cuts at .90
    const keptAt = (cut: number): number[] =>
      decision.expected
        .filter(({ beyond, chanceBelowUse }) => !beyond && chanceBelowUse <= cut)
        .map(({ dose }) => dose);
    expect([
      [4, 5, 6, 7, 8, 9],
      [5, 6, 7, 8, 9],
    ]).toContainEqual(keptAt(0.95));
    assertClose(decision.expected.find(({ dose }) => dose === 4)!.chanceBelowUse, 0.945, 0.005);
    expect(decision.notRuledOut).toMatchObject({ low: 5, high: 9, ruledOut: [3] });
    expect(decision.certainty).toBe("leaning");
    expect(decision.gap).toEqual({ low: 6, high: 9 });
  });
});
