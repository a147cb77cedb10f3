import type { CurveData } from "./curve-data.ts";
import type { CurveForm } from "./curve-form.ts";
import { curveProblem } from "./curve-problem.ts";
import { hasValueAt, levenbergMarquardt } from "./levenberg-marquardt.ts";

/** An interval for one parameter; an open side is one the data set no limit to, and its end is the edge of the parameter's range. */
export interface ParameterInterval {
  low: number;
  high: number;
  lowOpen: boolean;
  highOpen: boolean;
}

/** What a profile needs to know of a fit. */
export interface ProfiledFit {
  form: CurveForm;
  data: CurveData;
  /** the form's parameters, then the block offsets */
  parameters: Float64Array;
  residualSumOfSquares: number;
  standardErrors: ReadonlyArray<number>;
  /** error variance */
  variance: number;
}

/**
 * Profile-likelihood interval of a parameter: the values at which the best fit of all the others is not significantly worse.
 * @param critical the two-sided t quantile for the level and the residual degrees of freedom
 * @source profile t: Bates and Watts 1988, Nonlinear Regression Analysis and Its Applications, chapter 6
 * @internal
 */
export function profileInterval(fit: ProfiledFit, index: number, critical: number): ParameterInterval {
  const low = profileEnd(fit, index, critical, -1);
  const high = profileEnd(fit, index, critical, 1);
  return { low: low.value, high: high.value, lowOpen: low.open, highOpen: high.open };
}

function profileEnd(fit: ProfiledFit, index: number, critical: number, side: 1 | -1): { value: number; open: boolean } {
  const centre = fit.parameters[index]!;
  const edge = fit.form.range[index]![side === 1 ? 1 : 0];
  const distanceAt = profiler(fit, index);
  let inside = centre;
  let insideT = 0;
  let step = critical * fit.standardErrors[index]!;
  if (!(step > 0)) step = Math.abs(centre) || 1;
  let flat = 0;
  for (let round = 0; round < 60; round++) {
    // a limit at the edge of the range is approached by halves, never stepped over
    const proposal = centre + side * step;
    const beyond = side === 1 ? proposal >= edge : proposal <= edge;
    const next = beyond ? inside + (edge - inside) * 0.7 : proposal;
    const t = distanceAt(next);
    if (t >= critical) return { value: findEnd(distanceAt, critical, inside, insideT, next, t), open: false };
    if (beyond && Math.abs(edge - next) < 1e-9 * Math.abs(edge - centre)) return { value: edge, open: true };
    flat = t <= insideT * (1 + 1e-4) ? flat + 1 : 0;
    inside = next;
    insideT = Math.max(t, 0);
    if (flat >= 6 && step > 50 * critical * fit.standardErrors[index]!) break;
    if (!beyond) step *= 1.6;
  }
  return { value: edge, open: true };
}

/** Where the profile t reaches the critical value between a place inside and one outside: regula falsi with halving (Illinois). */
function findEnd(
  distanceAt: (value: number) => number,
  critical: number,
  inside: number,
  insideT: number,
  outside: number,
  outsideT: number,
): number {
  let [a, fa] = [inside, insideT - critical];
  let [b, fb] = [outside, Math.min(outsideT, 1e6) - critical];
  let lastSide = 0;
  for (let round = 0; round < 80; round++) {
    let middle = b - (fb * (b - a)) / (fb - fa);
    if (!Number.isFinite(middle) || round % 8 === 7) middle = (a + b) / 2;
    const f = Math.min(distanceAt(middle), 1e6) - critical;
    if (Math.abs(f) < 1e-10 * critical || Math.abs(b - a) <= 1e-13 * Math.max(Math.abs(a), Math.abs(b))) return middle;
    if (f < 0) {
      [a, fa] = [middle, f];
      if (lastSide === -1) fb /= 2;
      lastSide = -1;
    } else {
      [b, fb] = [middle, f];
      if (lastSide === 1) fa /= 2;
      lastSide = 1;
    }
  }
  return (a + b) / 2;
}

/** The square root of the rise in the sum of squares, in units of the error variance, with one parameter held at a value. */
function profiler(fit: ProfiledFit, index: number): (value: number) => number {
  const { form, data } = fit;
  let warm = Array.from(fit.parameters).filter((_, j) => j !== index);
  return (value) => {
    let sum: number;
    if (form.solve) {
      sum = form.solve(data, { index, value })?.residualSumOfSquares ?? Number.POSITIVE_INFINITY;
    } else {
      const problem = curveProblem(form, data, { index, value });
      const near = Array.from(fit.parameters).filter((_, j) => j !== index);
      const start = hasValueAt(problem, warm) ? warm : near;
      if (!hasValueAt(problem, start)) return Number.POSITIVE_INFINITY;
      const found = levenbergMarquardt(problem, start, true, 200);
      sum = found.residualSumOfSquares;
      warm = Array.from(found.parameters);
    }
    return Math.sqrt(Math.max(sum - fit.residualSumOfSquares, 0) / fit.variance);
  };
}
