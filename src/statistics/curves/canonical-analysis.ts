import { studentTQuantile } from "../distributions/student-t.ts";
import { requireFinite, requireOpenProbability } from "../require-numbers.ts";

/** Coefficients of y = b0 + b1 x1 + b2 x2 + b11 x1^2 + b22 x2^2 + b12 x1 x2. */
export interface SurfaceCoefficients {
  b0: number;
  b1: number;
  b2: number;
  b11: number;
  b22: number;
  b12: number;
}

/** What the surface does along one of its own axes. */
export interface CanonicalAxis {
  /** bend along the axis: below 0 falls away from the stationary point, above 0 climbs, near 0 is a ridge */
  eigenvalue: number;
  /** direction of length 1, first component not below 0 */
  direction: { x1: number; x2: number };
  /** standard error and interval of the eigenvalue; only with a covariance */
  standardError?: number;
  interval?: { low: number; high: number };
  /** whether it counts as flat: its interval holds 0, or without a covariance it is below `flatShare` of the other */
  flat: boolean;
}

export type SurfaceShape = "maximum" | "minimum" | "saddle" | "stationary ridge" | "rising ridge" | "plane";

export interface CanonicalAnalysis {
  shape: SurfaceShape;
  /** where both slopes are 0; absent kind "none" when the surface has no single such point */
  stationary:
    | { kind: "at"; x1: number; x2: number; value: number; insideRegion?: boolean }
    | { kind: "none"; reason: string };
  /** strongest bend first */
  axes: [CanonicalAxis, CanonicalAxis];
  /** one plain sentence without a full stop */
  says: string;
}

export interface CanonicalAnalysisInput {
  coefficients: SurfaceCoefficients;
  /** covariance of (b0, b1, b2, b11, b22, b12) with the degrees of freedom behind it, for intervals of the bends */
  covariance?: ReadonlyArray<ReadonlyArray<number>>;
  degreesOfFreedom?: number;
  level?: number;
  /** tested ranges, to say whether the stationary point lies among the doses tried */
  region?: { x1: readonly [number, number]; x2: readonly [number, number] };
  /** without a covariance: a bend weaker than this share of the other counts as flat; 0.05 when absent */
  flatShare?: number;
}

/**
 * Canonical analysis of a second-order surface in two factors: where it is level, and how it bends along its own axes.
 * Bends depend on the units of x1 and x2, so code both to comparable ranges (for instance -1 to 1) before fitting.
 * @throws RangeError if a coefficient is not finite, a covariance has not 6 rows or comes without degrees of freedom
 * @source Box and Wilson 1951, Journal of the Royal Statistical Society B 13(1):1-45; Myers, Montgomery and
 *   Anderson-Cook, Response Surface Methodology; standard errors of the bends: Bisgaard and Ankenman 1996, Technometrics
 *   38(3):238-246
 * @example canonicalAnalysis({ coefficients: { b0: 0, b1: 2, b2: 4, b11: -1, b22: -1, b12: 0 } }).shape // "maximum"
 */
export function canonicalAnalysis(input: CanonicalAnalysisInput): CanonicalAnalysis {
  const { b0, b1, b2, b11, b22, b12 } = input.coefficients;
  requireFinite("canonicalAnalysis", "coefficients", [b0, b1, b2, b11, b22, b12]);
  const level = input.level ?? 0.95;
  requireOpenProbability("canonicalAnalysis", "level", level);
  const axes = principalAxes(b11, b22, b12);
  const described = describeAxes(axes, input, level);
  const determinant = 4 * b11 * b22 - b12 * b12;
  const size = 4 * (Math.abs(b11 * b22) + b12 * b12);
  const hasPoint = Math.abs(determinant) > 1e-12 * size && size > 0;
  let stationary: CanonicalAnalysis["stationary"] = {
    kind: "none",
    reason:
      size === 0 ? "the surface is a plane" : "the surface is level along a whole line or climbs along one for ever",
  };
  if (hasPoint) {
    const x1 = (b12 * b2 - 2 * b22 * b1) / determinant;
    const x2 = (b12 * b1 - 2 * b11 * b2) / determinant;
    const value = b0 + (b1 * x1 + b2 * x2) / 2;
    stationary = { kind: "at", x1, x2, value };
    if (input.region) {
      const { x1: across, x2: up } = input.region;
      stationary.insideRegion = x1 >= across[0] && x1 <= across[1] && x2 >= up[0] && x2 <= up[1];
    }
  }
  const shape = shapeOf(described, stationary, input.coefficients);
  return { shape, stationary, axes: described, says: sentence(shape, stationary) };
}

type Axis = Pick<CanonicalAxis, "eigenvalue" | "direction">;

/** Eigenvalues and vectors of [[b11, b12/2], [b12/2, b22]], strongest bend first. */
function principalAxes(b11: number, b22: number, b12: number): [Axis, Axis] {
  const turn = b12 === 0 && b11 === b22 ? 0 : Math.atan2(b12, b11 - b22) / 2;
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  const along = (x1: number, x2: number): Axis => {
    const sign = x1 < 0 || (x1 === 0 && x2 < 0) ? -1 : 1;
    return { eigenvalue: b11 * x1 * x1 + b22 * x2 * x2 + b12 * x1 * x2, direction: { x1: sign * x1, x2: sign * x2 } };
  };
  const [first, second] = [along(cosine, sine), along(-sine, cosine)];
  return Math.abs(first.eigenvalue) >= Math.abs(second.eigenvalue) ? [first, second] : [second, first];
}

function describeAxes(
  [strong, weak]: [Axis, Axis],
  input: CanonicalAnalysisInput,
  level: number,
): [CanonicalAxis, CanonicalAxis] {
  const { covariance, degreesOfFreedom } = input;
  if (!covariance) {
    const share = input.flatShare ?? 0.05;
    const flat = Math.abs(weak.eigenvalue) <= share * Math.abs(strong.eigenvalue);
    return [
      { ...strong, flat: strong.eigenvalue === 0 },
      { ...weak, flat },
    ];
  }
  if (covariance.length !== 6 || covariance.some((row) => row.length !== 6)) {
    throw new RangeError(`canonicalAnalysis: the covariance must be 6 by 6; received ${covariance.length} rows`);
  }
  if (degreesOfFreedom === undefined) {
    throw new RangeError("canonicalAnalysis: degreesOfFreedom are needed beside the covariance");
  }
  const t = studentTQuantile((1 + level) / 2, degreesOfFreedom);
  const measure = (axis: Axis): CanonicalAxis => {
    // the bend along a fixed direction is a linear function of b11, b22 and b12
    const { x1, x2 } = axis.direction;
    const slope = [x1 * x1, x2 * x2, x1 * x2];
    let variance = 0;
    for (let a = 0; a < 3; a++)
      for (let b = 0; b < 3; b++) variance += slope[a]! * slope[b]! * covariance[3 + a]![3 + b]!;
    const standardError = Math.sqrt(Math.max(variance, 0));
    const interval = { low: axis.eigenvalue - t * standardError, high: axis.eigenvalue + t * standardError };
    return { ...axis, standardError, interval, flat: interval.low <= 0 && interval.high >= 0 };
  };
  return [measure(strong), measure(weak)];
}

function shapeOf(
  axes: [CanonicalAxis, CanonicalAxis],
  stationary: CanonicalAnalysis["stationary"],
  coefficients: SurfaceCoefficients,
): SurfaceShape {
  const [strong, weak] = axes;
  if (strong.flat && weak.flat) return "plane";
  if (weak.flat || strong.flat) {
    const { x1, x2 } = (weak.flat ? weak : strong).direction;
    const { b1, b2 } = coefficients;
    const climbs = Math.abs(b1 * x1 + b2 * x2) > 1e-9 * Math.hypot(b1, b2);
    const centred = stationary.kind === "at" ? stationary.insideRegion !== false : !climbs;
    return centred ? "stationary ridge" : "rising ridge";
  }
  if (strong.eigenvalue < 0 && weak.eigenvalue < 0) return "maximum";
  if (strong.eigenvalue > 0 && weak.eigenvalue > 0) return "minimum";
  return "saddle";
}

function sentence(shape: SurfaceShape, stationary: CanonicalAnalysis["stationary"]): string {
  const outside = stationary.kind === "at" && stationary.insideRegion === false;
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
