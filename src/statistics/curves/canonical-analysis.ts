import { studentTQuantile } from "../distributions/student-t.ts";
import { requireFinite } from "../require-numbers.ts";

/** Coefficients of y = b0 + b1 x1 + b2 x2 + b11 x1^2 + b22 x2^2 + b12 x1 x2. */
export interface SurfaceCoefficients {
  b0: number;
  b1: number;
  b2: number;
  b11: number;
  b22: number;
  b12: number;
}

export type SurfaceShape = "maximum" | "minimum" | "saddle" | "stationary ridge" | "rising ridge" | "plane";

export interface CanonicalAnalysis {
  shape: SurfaceShape;
  /** where both slopes are 0; undefined when the surface has no single such point */
  stationary: { x1: number; x2: number; value: number; insideRegion: boolean } | undefined;
  /** one plain sentence without a full stop */
  says: string;
}

export interface CanonicalAnalysisInput {
  coefficients: SurfaceCoefficients;
  /** covariance of (b0, b1, b2, b11, b22, b12) with the degrees of freedom behind it, for intervals of the bends */
  covariance: ReadonlyArray<ReadonlyArray<number>>;
  degreesOfFreedom: number;
  /** tested ranges, to say whether the stationary point lies among the doses tried */
  region: { x1: readonly [number, number]; x2: readonly [number, number] };
}

/** One of the surface's own axes. */
interface Axis {
  /** bend along the axis: below 0 falls away from the stationary point, above 0 climbs */
  eigenvalue: number;
  /** direction of length 1, first component not below 0 */
  direction: { x1: number; x2: number };
  /** whether the 95 % interval of the bend holds 0 */
  flat: boolean;
}

/**
 * Canonical analysis of a second-order surface in two factors: where it is level, and how it bends along its own axes.
 * Bends depend on the units of x1 and x2, so code both to comparable ranges (for instance -1 to 1) before fitting.
 * @throws RangeError if a coefficient is not finite
 * @source Box and Wilson 1951, Journal of the Royal Statistical Society B 13(1):1-45; Myers, Montgomery and
 *   Anderson-Cook, Response Surface Methodology; standard errors of the bends: Bisgaard and Ankenman 1996, Technometrics
 *   38(3):238-246
 * @internal
 */
export function canonicalAnalysis(input: CanonicalAnalysisInput): CanonicalAnalysis {
  const { b0, b1, b2, b11, b22, b12 } = input.coefficients;
  requireFinite("canonicalAnalysis", "coefficients", [b0, b1, b2, b11, b22, b12]);
  const determinant = 4 * b11 * b22 - b12 * b12;
  const size = 4 * (Math.abs(b11 * b22) + b12 * b12);
  let stationary: CanonicalAnalysis["stationary"];
  if (Math.abs(determinant) > 1e-12 * size && size > 0) {
    const x1 = (b12 * b2 - 2 * b22 * b1) / determinant;
    const x2 = (b12 * b1 - 2 * b11 * b2) / determinant;
    const { x1: across, x2: up } = input.region;
    const insideRegion = x1 >= across[0] && x1 <= across[1] && x2 >= up[0] && x2 <= up[1];
    stationary = { x1, x2, value: b0 + (b1 * x1 + b2 * x2) / 2, insideRegion };
  }
  const shape = shapeOf(principalAxes(input), stationary, input.coefficients);
  return { shape, stationary, says: sentence(shape, stationary) };
}

/** Eigenvalues and vectors of [[b11, b12/2], [b12/2, b22]], strongest bend first. */
function principalAxes({ coefficients, covariance, degreesOfFreedom }: CanonicalAnalysisInput): [Axis, Axis] {
  const { b11, b22, b12 } = coefficients;
  const turn = b12 === 0 && b11 === b22 ? 0 : Math.atan2(b12, b11 - b22) / 2;
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  const t = studentTQuantile(0.975, degreesOfFreedom);
  const along = (x1: number, x2: number): Axis => {
    const sign = x1 < 0 || (x1 === 0 && x2 < 0) ? -1 : 1;
    const eigenvalue = b11 * x1 * x1 + b22 * x2 * x2 + b12 * x1 * x2;
    // the bend along a fixed direction is a linear function of b11, b22 and b12
    const slope = [x1 * x1, x2 * x2, x1 * x2];
    let variance = 0;
    for (let a = 0; a < 3; a++)
      for (let b = 0; b < 3; b++) variance += slope[a]! * slope[b]! * covariance[3 + a]![3 + b]!;
    const flat = Math.abs(eigenvalue) <= t * Math.sqrt(Math.max(variance, 0));
    return { eigenvalue, direction: { x1: sign * x1, x2: sign * x2 }, flat };
  };
  const [first, second] = [along(cosine, sine), along(-sine, cosine)];
  return Math.abs(first.eigenvalue) >= Math.abs(second.eigenvalue) ? [first, second] : [second, first];
}

function shapeOf(
  [strong, weak]: [Axis, Axis],
  stationary: CanonicalAnalysis["stationary"],
  { b1, b2 }: SurfaceCoefficients,
): SurfaceShape {
  if (strong.flat && weak.flat) return "plane";
  if (weak.flat || strong.flat) {
    const { x1, x2 } = (weak.flat ? weak : strong).direction;
    const climbs = Math.abs(b1 * x1 + b2 * x2) > 1e-9 * Math.hypot(b1, b2);
    return (stationary?.insideRegion ?? !climbs) ? "stationary ridge" : "rising ridge";
  }
  if (strong.eigenvalue < 0 && weak.eigenvalue < 0) return "maximum";
  if (strong.eigenvalue > 0 && weak.eigenvalue > 0) return "minimum";
  return "saddle";
}

function sentence(shape: SurfaceShape, stationary: CanonicalAnalysis["stationary"]): string {
  const outside = stationary?.insideRegion === false;
  switch (shape) {
    case "maximum":
      return outside ? "the surface has a top, but outside the doses tried" : "the surface has a single top";
    case "minimum":
      return "the surface has a lowest point, and is best at an edge of the doses tried";
    case "saddle":
      return "a saddle: it climbs in one direction and falls in the other, so the best lies at an edge of the doses tried";
    case "stationary ridge":
      return "a level ridge: along one line the two factors can be traded without loss";
    case "rising ridge":
      return "a rising ridge: the best lies outside the doses tried, along the ridge";
    case "plane":
      return "no bend to speak of: the surface is a plane within its uncertainty";
  }
}
