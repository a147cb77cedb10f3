import { describe, expect, test } from "vitest";
import { fitCurves } from "../../../src/statistics/curves/fit-curves.ts";
import { optimaAcrossForms } from "../../../src/statistics/optimum/optima-across-forms.ts";
import { optimumBootstrap } from "../../../src/statistics/optimum/optimum-bootstrap.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";

function trial(seed: number, perCell: number) {
  const random = seededRandom(seed);
  const doses: number[] = [];
  const responses: number[] = [];
  const blocks: string[] = [];
  for (let cook = 0; cook < 4; cook++) {
    const offset = 3 * random.normal();
    for (const dose of [4, 8, 12, 16, 20]) {
      for (let tray = 0; tray < perCell; tray++) {
        doses.push(dose);
        blocks.push(`cook ${cook + 1}`);
        responses.push(40 + 6 * dose - 0.2 * dose * dose + offset + 4 * random.normal());
      }
    }
  }
  return { doses, responses, blocks };
}
const prices = { pricePerUnit: 0.5, costPerUnit: 0.4 };

describe("bootstrap of the optimum", () => {
  test("60 trays, 10,000 refits: the true optimum 13 lies inside, the same seed gives the same interval", () => {
    const columns = trial(8, 3);
    expect(columns.doses.length).toBe(60);
    const first = optimumBootstrap({ ...columns, ...prices, form: "quadratic", replicates: 10_000, seed: 42 });
    const second = optimumBootstrap({ ...columns, ...prices, form: "quadratic", replicates: 10_000, seed: 42 });
    if (first.kind !== "interval" || second.kind !== "interval") throw new Error("an interval was expected");
    expect([second.low, second.high]).toEqual([first.low, first.high]);
    expect(first.low).toBeLessThan(13);
    expect(first.high).toBeGreaterThan(13);
    expect(first.resampled).toBe("trays within dose and block");
    expect(first.margin.low).toBeLessThan(first.optimum.margin);
  });

  test("one tray per cell: residuals are resampled instead, and it says so", () => {
    const found = optimumBootstrap({ ...trial(2, 1), ...prices, form: "quadratic", replicates: 500, seed: 1 });
    if (found.kind !== "interval") throw new Error(found.reason);
    expect(found.resampled).toBe("residuals of the curve");
    expect(found.high).toBeGreaterThan(found.low);
  });

  test("other forms refit as well", () => {
    for (const form of ["linear-plateau", "quadratic-plateau", "asymptotic-exponential", "mitscherlich"] as const) {
      const found = optimumBootstrap({ ...trial(5, 3), ...prices, form, replicates: 300, seed: 1 });
      if (found.kind !== "interval") throw new Error(found.reason);
      expect(found.low).toBeLessThanOrEqual(found.optimum.dose);
      expect(found.high).toBeGreaterThanOrEqual(found.optimum.dose);
      expect(found.unsettled).toBeLessThan(60);
    }
  });

  test("an optimum at the end of the tested doses shows in the share of refits that end there", () => {
    const { doses, blocks } = trial(1, 3);
    const random = seededRandom(77);
    const responses = doses.map((dose) => 2 * dose + random.normal());
    const found = optimumBootstrap({
      doses,
      responses,
      blocks,
      ...prices,
      form: "quadratic",
      replicates: 500,
      seed: 3,
    });
    if (found.kind !== "interval") throw new Error(found.reason);
    expect(found.optimum).toMatchObject({ where: "highest", dose: 20 });
    expect(found.shareAtHighest).toBeGreaterThan(0.99);
  });

  test("coverage of the true optimum over 150 trials (simulation, seed 100 on)", () => {
    let covered = 0;
    for (let k = 0; k < 150; k++) {
      const found = optimumBootstrap({ ...trial(100 + k, 3), ...prices, form: "quadratic", replicates: 400, seed: k });
      if (found.kind === "interval" && found.low <= 13 && found.high >= 13) covered++;
    }
    expect(covered / 150).toBeGreaterThan(0.9);
  });

  test("two doses: no quadratic, said plainly; wrong calls", () => {
    const two = optimumBootstrap({
      doses: [1, 1, 2, 2, 2],
      responses: [1, 2, 2, 3, 4],
      ...prices,
      form: "quadratic",
      replicates: 100,
      seed: 1,
    });
    expect(two).toMatchObject({ kind: "none" });
    const columns = trial(1, 2);
    expect(() => optimumBootstrap({ ...columns, ...prices, form: "quadratic", replicates: 10, seed: 1 })).toThrow(
      /replicates/,
    );
    expect(() => optimumBootstrap({ ...columns, ...prices, form: "quadratic", replicates: 100, seed: -1 })).toThrow(
      /seed/,
    );
    expect(() =>
      optimumBootstrap({ ...columns, ...prices, pricePerUnit: 0, form: "quadratic", replicates: 100, seed: 1 }),
    ).toThrow(/pricePerUnit/);
  });
});

describe("optima across forms", () => {
  test("each form's best dose, the spread, and the averaged curve between them", () => {
    const across = optimaAcrossForms(fitCurves({ ...trial(8, 3), profile: false }), {
      ...prices,
      lowestDose: 4,
      highestDose: 20,
    });
    expect(across.forms.length).toBeGreaterThanOrEqual(4);
    assertClose(
      across.forms.reduce((sum, { weight }) => sum + weight, 0),
      1,
      1e-12,
    );
    expect(across.low).toBeLessThanOrEqual(across.averaged.at);
    expect(across.high).toBeGreaterThanOrEqual(across.averaged.at);
    for (const { lossUnderAverage, optimum } of across.forms) {
      assertClose(lossUnderAverage, across.averaged.value - across.averagedMarginAt(optimum.dose), 1e-9);
    }
    assertClose(
      across.weightedDose,
      across.forms.reduce((sum, { weight, optimum }) => sum + weight * optimum.dose, 0),
      1e-12,
    );
  });
  test("nothing fitted", () => {
    expect(() =>
      optimaAcrossForms({ ranked: [], notFitted: [] }, { ...prices, lowestDose: 0, highestDose: 1 }),
    ).toThrow(/no form was fitted/);
  });
});
