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
  if (surface === undefined) throw new Error("no surface");

  test("coefficients as printed: 79.94 + 0.995 x1 + 0.515 x2 - 1.376 x1^2 - 1.001 x2^2 + 0.250 x1 x2", () => {
    const printed: SurfaceCoefficients = { b0: 79.94, b1: 0.995, b2: 0.515, b11: -1.376, b22: -1.001, b12: 0.25 };
    for (const [name, value] of Object.entries(printed)) {
      assertClose(surface.coefficients[name as keyof SurfaceCoefficients], value, name === "b0" ? 0.005 : 0.0006);
    }
  });
  test("stationary point (0.389, 0.306), 80.21 there: a maximum", () => {
    const { stationary, shape } = surface.canonical;
    if (stationary === undefined) throw new Error("no stationary point");
    assertClose(stationary.x1, 0.389, 0.001);
    assertClose(stationary.x2, 0.306, 0.001);
    assertClose(stationary.value, 80.21, 0.005);
    expect(stationary.insideRegion).toBe(true);
    expect(shape).toBe("maximum");
    assertClose(surface.valueAt(stationary.x1, stationary.x2), stationary.value, 1e-9);
  });
});

describe("shapes", () => {
  const base: SurfaceCoefficients = { b0: 10, b1: 0, b2: 0, b11: -1, b22: -2, b12: 0 };
  /** A surface known but for the last digits of its bends. */
  const shapeOf = (change: Partial<SurfaceCoefficients>, uncertainty = 1e-24) =>
    canonicalAnalysis({
      coefficients: { ...base, ...change },
      covariance: Array.from({ length: 6 }, (_, a) =>
        Array.from({ length: 6 }, (__, b) => (a === b ? uncertainty : 0)),
      ),
      degreesOfFreedom: 9,
      region: { x1: [-1, 1], x2: [-1, 1] },
    });
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
    const found = shapeOf(change);
    expect(found.shape).toBe(shape);
    expect(found.says).toMatch(says);
  });
  test("a bend is flat where it lies within Student's t of its error: 2.262 of 9 degrees of freedom, any table", () => {
    // along x1 alone the bend is b11, with the error of b11
    for (const [error, shape] of [[0.44, "maximum"], [0.45, "stationary ridge"]] as const)
      expect(shapeOf({}, error ** 2).shape).toBe(shape); // biome-ignore format: pairs
  });
  test("a top outside the tested region is said, and noise makes a weak bend a ridge", () => {
    expect(shapeOf({ b1: 8 }).says).toContain("outside the doses tried");
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
    const ridge = responseSurface({ x1, x2, responses, blocks: x1.map((_, i) => `${i % 3}`) });
    expect(ridge!.canonical.shape).toMatch(/ridge/);
  });
});

describe("designs that cannot support a surface, and wrong calls", () => {
  test("two levels, no value more than parameters, factors or blocks tied together", () => {
    const x1 = [-1, -1, 1, 1, 0, 0, 1, 0];
    const x2 = [-1, 1, -1, 1, 0, 1, 0, -1];
    const responses = [1, 3, 2, 6, 4, 5, 4.5, 3];
    const first = (rows: number, blocks?: string[]) =>
      responseSurface({
        x1: x1.slice(0, rows),
        x2: x2.slice(0, rows),
        responses: responses.slice(0, rows),
        ...(blocks === undefined ? {} : { blocks }),
      });
    expect(first(4)).toBeUndefined();
    expect(first(6)).toBeUndefined();
    expect(first(7)).toBeDefined();
    // one block alone is none; of two, one more parameter; blocks that follow a factor cannot be told from it
    expect(first(7, [..."aaaaaaa"])).toBeDefined();
    expect(first(7, [..."abababa"])).toBeUndefined();
    expect(first(8, [..."abababab"])).toBeDefined();
    expect(first(8, x1.map(String))).toBeUndefined();
    const x = [-1, 0, 1, -1, 0, 1, -1, 0, 1];
    expect(responseSurface({ x1: x, x2: x, responses: x })).toBeUndefined();
  });
  test("blocks take out what they add, whatever it is", () => {
    const x1 = [-1, 0, 1, -1, 0, 1, -1, 0, 1, 0];
    const x2 = [-1, -1, -1, 0, 0, 0, 1, 1, 1, 0];
    const responses = [3, 5, 4, 6, 8, 7, 5, 6, 4.5, 8.5];
    const blocks = [..."abababbaba"];
    const plain = responseSurface({ x1, x2, responses, blocks })!;
    const apart = responses.map((value, i) => value + (blocks[i] === "a" ? 100 : -100));
    const moved = responseSurface({ x1, x2, responses: apart, blocks })!;
    for (const [u, v] of [[0, 0], [0.3, -0.8]] as const) // biome-ignore format: pairs
      assertClose(moved.valueAt(u, v), plain.valueAt(u, v), 1e-10);
  });
  test("throws", () => {
    expect(() => responseSurface({ x1: [1], x2: [1, 2], responses: [1] })).toThrow(/equally long/);
    expect(() => responseSurface({ x1: [1, 2], x2: [1, Number.NaN], responses: [1, 2] })).toThrow(/finite/);
    expect(() => responseSurface({ x1: [], x2: [], responses: [] })).toThrow(/at least 1/);
    expect(() => responseSurface({ x1: [1], x2: [1], responses: [1, 2] })).toThrow(/x1 and responses must be equally/);
    expect(() => responseSurface({ x1: [1], x2: [1], responses: [Number.NaN] })).toThrow(/responses must be finite/);
    expect(() => responseSurface({ x1: [1], x2: [1], responses: [1], blocks: [] })).toThrow(/x1 and blocks/);
  });
});
