import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { orthogonalFactor } from "../linear-algebra/orthogonal-factor.ts";
import { inverseCrossProduct } from "../linear-algebra/triangle.ts";
import { requireFinite, requireSameLength, requireSample } from "../require-numbers.ts";
import { type CanonicalAnalysis, canonicalAnalysis, type SurfaceCoefficients } from "./canonical-analysis.ts";

export interface ResponseSurfaceInput {
  /** the two factors, coded to comparable ranges (for instance -1 to 1) */
  x1: ReadonlyArray<number>;
  x2: ReadonlyArray<number>;
  responses: ReadonlyArray<number>;
  /** block of each value: each gets an additive offset, and the offsets sum to 0 */
  blocks?: ReadonlyArray<string>;
}

/** A fitted surface, and its shape. */
export interface ResponseSurface {
  coefficients: SurfaceCoefficients;
  canonical: CanonicalAnalysis;
  valueAt(x1: number, x2: number): number;
}

/**
 * Fits a second-order surface in two factors by least squares and analyses its shape.
 * @returns undefined where the design cannot support one: a factor with two levels only, too few values, factors (or blocks)
 *   tied together
 * @throws RangeError if columns are empty, of different lengths or not finite
 * @source Box and Wilson 1951, Journal of the Royal Statistical Society B 13(1):1-45
 * @example responseSurface({ x1: [-1, -1, 1, 1], x2: [-1, 1, -1, 1], responses: [1, 2, 3, 5] }) // undefined
 */
export function responseSurface(input: ResponseSurfaceInput): ResponseSurface | undefined {
  const { x1, x2, responses, blocks } = input;
  requireSample("responseSurface", "x1", x1, 1);
  requireSample("responseSurface", "x2", x2, 1);
  requireSameLength("responseSurface", "x1", x1, "x2", x2);
  requireSameLength("responseSurface", "x1", x1, "responses", responses);
  requireFinite("responseSurface", "responses", responses);
  if (blocks) requireSameLength("responseSurface", "x1", x1, "blocks", blocks);
  if (new Set(x1).size < 3 || new Set(x2).size < 3) return undefined;
  const columns = [...surfaceColumns(x1, x2), ...blockColumns(blocks ?? [])];
  const total = columns.length;
  const degreesOfFreedom = x1.length - total;
  if (degreesOfFreedom < 1) return undefined;
  const factor = orthogonalFactor(ordinary, columns, 0);
  if (factor.independence < 1e-10) return undefined;
  const rotated = factor.rotate(Float64Array.from(responses));
  const solution = factor.solve(rotated);
  let residualSumOfSquares = 0;
  for (let i = total; i < x1.length; i++) residualSumOfSquares += rotated[i]! ** 2;
  const variance = residualSumOfSquares / degreesOfFreedom;
  const inverse = inverseCrossProduct(factor.upper);
  const [b0, b1, b2, b11, b22, b12] = solution as [number, number, number, number, number, number];
  const coefficients = { b0, b1, b2, b11, b22, b12 };
  return {
    coefficients,
    canonical: canonicalAnalysis({
      coefficients,
      covariance: inverse.map((row) => Array.from(row, (value) => value * variance)),
      degreesOfFreedom,
      region: { x1: [Math.min(...x1), Math.max(...x1)], x2: [Math.min(...x2), Math.max(...x2)] },
    }),
    valueAt: (u, v) => b0 + b1 * u + b2 * v + b11 * u * u + b22 * v * v + b12 * u * v,
  };
}

function surfaceColumns(x1: ReadonlyArray<number>, x2: ReadonlyArray<number>): Float64Array[] {
  const terms: ((u: number, v: number) => number)[] = [
    () => 1,
    (u) => u,
    (_, v) => v,
    (u) => u * u,
    (_, v) => v * v,
    (u, v) => u * v,
  ];
  return terms.map((term) => Float64Array.from(x1, (u, i) => term(u, x2[i]!)));
}

/** Offsets that sum to 0: each block against the last. */
function blockColumns(blocks: ReadonlyArray<string>): Float64Array[] {
  const names = [...new Set(blocks)];
  const last = names.pop();
  return names.map((name) => Float64Array.from(blocks, (block) => (block === name ? 1 : block === last ? -1 : 0)));
}
