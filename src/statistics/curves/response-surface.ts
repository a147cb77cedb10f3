import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { orthogonalFactor } from "../linear-algebra/orthogonal-factor.ts";
import { inverseCrossProduct } from "../linear-algebra/triangle.ts";
import { requireOpenProbability, requireSameLength, requireSample } from "../require-numbers.ts";
import { type CanonicalAnalysis, canonicalAnalysis, type SurfaceCoefficients } from "./canonical-analysis.ts";
import { type CurveData, curveData, fillOffsetColumns, offsetCount } from "./curve-data.ts";

export interface ResponseSurfaceInput {
  /** the two factors, coded to comparable ranges (for instance -1 to 1) */
  x1: ReadonlyArray<number>;
  x2: ReadonlyArray<number>;
  responses: ReadonlyArray<number>;
  /** block of each value: each gets an additive offset, and the offsets sum to 0 */
  blocks?: ReadonlyArray<string | number>;
  level?: number;
}

export interface FittedSurface {
  kind: "fitted";
  coefficients: SurfaceCoefficients;
  /** of b0, b1, b2, b11, b22, b12 in this order */
  covariance: number[][];
  residualSumOfSquares: number;
  degreesOfFreedom: number;
  sigma: number;
  canonical: CanonicalAnalysis;
  valueAt(x1: number, x2: number): number;
}

export type ResponseSurface = FittedSurface | { kind: "not-fitted"; reason: string };

const names = ["b0", "b1", "b2", "b11", "b22", "b12"] as const;

/**
 * Fits a second-order surface in two factors by least squares and analyses its shape.
 * @returns the surface, or why the design cannot support one (a factor with two levels only, too few values, factors tied together)
 * @throws RangeError if columns are empty, of different lengths or not finite, or the level is not between 0 and 1
 * @source Box and Wilson 1951, Journal of the Royal Statistical Society B 13(1):1-45
 * @example responseSurface({ x1: [-1, -1, 1, 1], x2: [-1, 1, -1, 1], responses: [1, 2, 3, 5] }).kind // "not-fitted"
 */
export function responseSurface(input: ResponseSurfaceInput): ResponseSurface {
  const { x1, x2, responses } = input;
  const level = input.level ?? 0.95;
  requireOpenProbability("responseSurface", "level", level);
  requireSample("responseSurface", "x1", x1, 1);
  requireSample("responseSurface", "x2", x2, 1);
  requireSameLength("responseSurface", "x1", x1, "x2", x2);
  const data = curveData("responseSurface", {
    doses: x1,
    responses,
    ...(input.blocks ? { blocks: input.blocks } : {}),
  });
  const rows = x1.length;
  const total = names.length + offsetCount(data);
  const refused = tooThin(input, total);
  if (refused !== undefined) return { kind: "not-fitted", reason: refused };
  const factor = orthogonalFactor(ordinary, designColumns(x1, x2, data), 0);
  if (factor.independence < 1e-10) {
    return {
      kind: "not-fitted",
      reason: "the levels of the two factors (or the blocks) are tied together, so their effects cannot be separated",
    };
  }
  const rotated = factor.rotate(Float64Array.from(responses));
  const solution = factor.solve(rotated);
  let residualSumOfSquares = 0;
  for (let i = total; i < rows; i++) residualSumOfSquares += rotated[i]! ** 2;
  const degreesOfFreedom = rows - total;
  const variance = residualSumOfSquares / degreesOfFreedom;
  const inverse = inverseCrossProduct(factor.upper);
  const covariance = names.map((_, a) => names.map((__, b) => inverse[a]![b]! * variance));
  const [b0, b1, b2, b11, b22, b12] = solution as [number, number, number, number, number, number];
  const coefficients = { b0, b1, b2, b11, b22, b12 };
  return {
    kind: "fitted",
    coefficients,
    covariance,
    residualSumOfSquares,
    degreesOfFreedom,
    sigma: Math.sqrt(variance),
    canonical: canonicalAnalysis({
      coefficients,
      covariance,
      degreesOfFreedom,
      level,
      region: { x1: [Math.min(...x1), Math.max(...x1)], x2: [Math.min(...x2), Math.max(...x2)] },
    }),
    valueAt: (u, v) => b0 + b1 * u + b2 * v + b11 * u * u + b22 * v * v + b12 * u * v,
  };
}

/** Why a design cannot support a surface, whatever its values. */
function tooThin({ x1, x2 }: ResponseSurfaceInput, parameters: number): string | undefined {
  for (const [name, values] of [
    ["x1", x1],
    ["x2", x2],
  ] as const) {
    const levels = new Set(values).size;
    if (levels < 3)
      return `a bend in ${name} needs 3 different levels; there ${levels === 1 ? "is 1" : `are ${levels}`}`;
  }
  return x1.length <= parameters
    ? `${x1.length} values for ${parameters} parameters leave nothing to measure the scatter with`
    : undefined;
}

function designColumns(x1: ReadonlyArray<number>, x2: ReadonlyArray<number>, data: CurveData): Float64Array[] {
  const terms: ((u: number, v: number) => number)[] = [
    () => 1,
    (u) => u,
    (_, v) => v,
    (u) => u * u,
    (_, v) => v * v,
    (u, v) => u * v,
  ];
  const columns = terms.map((term) => Float64Array.from(x1, (u, i) => term(u, x2[i]!)));
  for (let j = 0; j < offsetCount(data); j++) columns.push(new Float64Array(x1.length));
  fillOffsetColumns(data, columns, terms.length);
  return columns;
}
