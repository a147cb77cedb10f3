import { describe, expect, test } from "vitest";
import { canonicalAnalysis, type SurfaceCoefficients } from "../../../src/statistics/curves/canonical-analysis.ts";
import { responseSurface } from "../../../src/statistics/curves/response-surface.ts";
import { seededRandom } from "../../../src/statistics/random/seeded-random.ts";
import { assertClose } from "../../agreement.ts";

describe("yield of a chemical process, central composite design: Montgomery, Design and Analysis of Experiments, example 11.2 (from memory, recomputed)", () => {
  const far = Math.SQRT2;
  const x1 = [-1, -1, 1, 1, 0, 0, 0, 0, 0, far, -far, 0, 0];
  const x2 = [-1, 1, -1, 1, 0, 0, 0, 0, 0, 0, 0, far, -far];
  const responses = [76.5, 77, 78, 79.5, 79.9, 80.3, 80, 79.7, 79.8, 78.4, 75.6, 78.5, 77];
  const surface = responseSurface({ x1, x2, responses });
  if (surface.kind !== "fitted") throw new Error(surface.reason);

  test("coefficients as printed: 79.94 + 0.995 x1 + 0.515 x2 - 1.376 x1^2 - 1.001 x2^2 + 0.250 x1 x2", () => {
    const printed: SurfaceCoefficients = { b0: 79.94, b1: 0.995, b2: 0.515, b11: -1.376, b22: -1.001, b12: 0.25 };
    for (const [name, value] of Object.entries(printed)) {
      assertClose(surface.coefficients[name as keyof SurfaceCoefficients], value, name === "b0" ? 0.005 : 0.0006);
    }
  });
  test("stationary point (0.389, 0.306), 80.21 there, bends -0.9634 and -1.4141: a maximum", () => {
    const { stationary, axes, shape } = surface.canonical;
    if (stationary.kind !== "at") throw new Error(stationary.reason);
    assertClose(stationary.x1, 0.389, 0.001);
    assertClose(stationary.x2, 0.306, 0.001);
    assertClose(stationary.value, 80.21, 0.005);
    expect(stationary.insideRegion).toBe(true);
    assertClose(axes[0].eigenvalue, -1.4141, 0.0006);
    assertClose(axes[1].eigenvalue, -0.9634, 0.0006);
    expect(shape).toBe("maximum");
    assertClose(surface.valueAt(stationary.x1, stationary.x2), stationary.value, 1e-9);
  });
  test("error with 7 degrees of freedom, sum of squares 0.4963", () => {
    expect(surface.degreesOfFreedom).toBe(7);
    assertClose(surface.residualSumOfSquares, 0.496, 0.001);
  });
  test("standard error of a bend by another route: refit in factors turned to the surface's own axes", () => {
    const [{ direction, standardError, eigenvalue }] = surface.canonical.axes;
    const along = x1.map((value, i) => value * direction.x1 + x2[i]! * direction.x2);
    const across = x1.map((value, i) => -value * direction.x2 + x2[i]! * direction.x1);
    const turned = responseSurface({ x1: along, x2: across, responses });
    if (turned.kind !== "fitted") throw new Error(turned.reason);
    assertClose(turned.coefficients.b11, eigenvalue, 1e-9);
    assertClose(turned.coefficients.b12, 0, 1e-9);
    assertClose(Math.sqrt(turned.covariance[3]![3]!), standardError!, 1e-9);
  });
});

describe("shapes", () => {
  const base: SurfaceCoefficients = { b0: 10, b1: 0, b2: 0, b11: -1, b22: -2, b12: 0 };
  test.each<[string, Partial<SurfaceCoefficients>, string, RegExp]>([
    ["top", {}, "maximum", /a single top$/],
    ["bottom", { b11: 1, b22: 2 }, "minimum", /a lowest point/],
    ["saddle", { b11: 1 }, "saddle", /^a saddle/],
    ["saddle from the product alone", { b11: 0, b22: 0, b12: 3 }, "saddle", /^a saddle/],
    ["level ridge", { b11: 0 }, "stationary ridge", /^a level ridge/],
    ["climbing ridge", { b11: 0, b1: 1 }, "rising ridge", /^a rising ridge: the best lies outside/],
    ["diagonal level ridge", { b11: -1, b22: -1, b12: 2 }, "stationary ridge", /^a level ridge/],
    ["plane", { b11: 0, b22: 0, b1: 1 }, "plane", /is a plane/],
  ])("%s", (_name, change, shape, says) => {
    const found = canonicalAnalysis({ coefficients: { ...base, ...change } });
    expect(found.shape).toBe(shape);
    expect(found.says).toMatch(says);
  });
  test("directions are of length 1, at right angles, and the eigenvalues keep trace and determinant", () => {
    const { axes } = canonicalAnalysis({ coefficients: { ...base, b12: 0.7 } });
    for (const { direction } of axes) assertClose(Math.hypot(direction.x1, direction.x2), 1, 1e-12);
    assertClose(axes[0].direction.x1 * axes[1].direction.x1 + axes[0].direction.x2 * axes[1].direction.x2, 0, 1e-12);
    assertClose(axes[0].eigenvalue + axes[1].eigenvalue, -3, 1e-12);
    assertClose(axes[0].eigenvalue * axes[1].eigenvalue, 2 - 0.35 ** 2, 1e-12);
  });
  test("a top outside the tested region is said, and noise makes a weak bend a ridge", () => {
    const outside = canonicalAnalysis({ coefficients: { ...base, b1: 8 }, region: { x1: [-1, 1], x2: [-1, 1] } });
    expect(outside.says).toContain("outside the doses tried");
    const random = seededRandom(7);
    const x1: number[] = [];
    const x2: number[] = [];
    const responses: number[] = [];
    for (const u of [-1, 0, 1]) {
      for (const v of [-1, 0, 1]) {
        for (let k = 0; k < 3; k++) {
          x1.push(u);
          x2.push(v);
          responses.push(20 - 6 * u * u + 0.3 * random.normal());
        }
      }
    }
    const ridge = responseSurface({ x1, x2, responses, blocks: x1.map((_, i) => i % 3) });
    if (ridge.kind !== "fitted") throw new Error(ridge.reason);
    expect(ridge.degreesOfFreedom).toBe(27 - 6 - 2);
    expect(ridge.canonical.axes[1].flat).toBe(true);
    expect(ridge.canonical.shape).toMatch(/ridge/);
  });
});

describe("designs that cannot support a surface, and wrong calls", () => {
  test("two levels, too few values, factors tied together", () => {
    const two = responseSurface({ x1: [-1, -1, 1, 1], x2: [-1, 1, -1, 1], responses: [1, 2, 3, 5] });
    expect(two).toMatchObject({
      kind: "not-fitted",
      reason: expect.stringContaining("3 different levels; there are 2"),
    });
    const few = responseSurface({ x1: [-1, 0, 1], x2: [-1, 1, 0], responses: [1, 2, 3] });
    expect(few).toMatchObject({ reason: expect.stringContaining("3 values for 6 parameters") });
    const x = [-1, 0, 1, -1, 0, 1, -1, 0, 1];
    const tied = responseSurface({ x1: x, x2: x, responses: x });
    expect(tied).toMatchObject({ reason: expect.stringContaining("tied together") });
  });
  test("throws", () => {
    expect(() => responseSurface({ x1: [1], x2: [1, 2], responses: [1] })).toThrow(/equally long/);
    expect(() => responseSurface({ x1: [1, 2], x2: [1, Number.NaN], responses: [1, 2] })).toThrow(/finite/);
    expect(() => responseSurface({ x1: [], x2: [], responses: [] })).toThrow(/at least 1/);
    const coefficients = { b0: 0, b1: 0, b2: 0, b11: 1, b22: 1, b12: 0 };
    expect(() => canonicalAnalysis({ coefficients: { ...coefficients, b1: Number.NaN } })).toThrow(/finite/);
    expect(() => canonicalAnalysis({ coefficients, covariance: [[1]], degreesOfFreedom: 3 })).toThrow(/6 by 6/);
    const covariance = Array.from({ length: 6 }, () => new Array<number>(6).fill(0));
    expect(() => canonicalAnalysis({ coefficients, covariance })).toThrow(/degreesOfFreedom/);
  });
});
