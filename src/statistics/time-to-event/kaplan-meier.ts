import { normalQuantile } from "../distributions/normal.ts";
import { power } from "../power.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { type RiskStep, requireSurvivalSample, riskSteps, type SurvivalSample } from "./survival-sample.ts";

/** Scale on which a limit is symmetric: the log of the share still waiting, or the log of minus that log. */
export type SurvivalIntervalScale = "log" | "log-log";

/** Uncertainty of the share still waiting at one time. */
export type SurvivalLimits =
  | { kind: "interval"; standardError: number; lower: number; upper: number }
  /** the share is 0: the data set no limits there */
  | { kind: "none"; reason: string };

/** One step of the curve. */
export interface KaplanMeierStep extends RiskStep {
  /** share still waiting just after the time, 0 to 1 */
  survival: number;
  limits: SurvivalLimits;
}

/** The curve of the share still waiting. */
export interface KaplanMeierCurve {
  observations: number;
  events: number;
  steps: KaplanMeierStep[];
  /** time by which half are done; Infinity where the curve or its limit never gets down to one half */
  median: { estimate: number; lower: number; upper: number };
  scale: SurvivalIntervalScale;
  level: number;
}

const half = 0.5;
/** Shares this near to one half are one half: products of fractions rarely hit it exactly. */
const halfTolerance = 1e-8;

/**
 * Time at which a curve or limit falls below one half; half-way along the flat piece when it rests exactly on one half.
 * A limit can rise again late, where few are at risk; then the crossing with the limit nearest below one half counts, which
 * is never earlier than the first.
 */
function timeAtHalf(values: ReadonlyArray<{ time: number; value: number }>): number {
  const nearestBelow = (bound: number) =>
    values.reduce<{ time: number; value: number } | undefined>(
      (best, one) => (one.value <= bound && (best === undefined || one.value > best.value) ? one : best),
      undefined,
    );
  const crossing = nearestBelow(half + halfTolerance);
  if (crossing === undefined) return Number.POSITIVE_INFINITY;
  if (crossing.value < half - halfTolerance) return crossing.time;
  const next = nearestBelow(half - halfTolerance);
  return next === undefined ? crossing.time : (crossing.time + next.time) / 2;
}

function limitsAt(survival: number, hazardVariance: number, z: number, scale: SurvivalIntervalScale): SurvivalLimits {
  if (survival === 0) return { kind: "none", reason: "all have had the event, so the share has no standard error" };
  const logError = Math.sqrt(hazardVariance);
  const standardError = survival * logError;
  if (survival === 1) return { kind: "interval", standardError, lower: 1, upper: 1 };
  const log = Math.log(survival);
  if (scale === "log") {
    const lower = Math.exp(log - z * logError);
    return { kind: "interval", standardError, lower, upper: Math.min(1, Math.exp(log + z * logError)) };
  }
  const reach = Math.exp((z * logError) / Math.abs(log));
  return { kind: "interval", standardError, lower: power(survival, reach), upper: power(survival, 1 / reach) };
}

/**
 * Share still waiting over time (product-limit estimate), with Greenwood's standard error, pointwise limits and the median.
 * @param sample times and whether each is an event; censored trays count as at risk up to and including their time
 * @param options scale "log-log" unless stated (limits stay inside 0 to 1); level 0.95 unless stated
 * @throws RangeError if the sample is empty, a time is negative or not finite, or the level is not between 0 and 1
 * @source Kaplan and Meier 1958, Journal of the American Statistical Association 53(282):457-481; Greenwood 1926, Reports
 *   on Public Health and Medical Subjects 33:1-26; median limits: Brookmeyer and Crowley 1982, Biometrics 38(1):29-41
 * @example kaplanMeier({ times: [3, 5, 5], events: [true, true, false] }).steps[0].survival // 2 / 3
 */
export function kaplanMeier(
  sample: SurvivalSample,
  options: { scale?: SurvivalIntervalScale; level?: number } = {},
): KaplanMeierCurve {
  const routine = "kaplanMeier";
  const { scale = "log-log", level = 0.95 } = options;
  requireSurvivalSample(routine, sample);
  requireOpenProbability(routine, "level", level);
  const z = normalQuantile((1 + level) / 2);
  let survival = 1;
  let hazardVariance = 0;
  const steps = riskSteps(sample).map((step): KaplanMeierStep => {
    const left = step.atRisk - step.events;
    survival *= left / step.atRisk;
    if (left > 0) hazardVariance += step.events / (step.atRisk * left);
    return { ...step, survival, limits: limitsAt(survival, hazardVariance, z, scale) };
  });
  const limitTime = (end: "lower" | "upper"): number =>
    timeAtHalf(steps.flatMap(({ time, limits }) => (limits.kind === "interval" ? [{ time, value: limits[end] }] : [])));
  return {
    observations: sample.times.length,
    events: sample.events.filter(Boolean).length,
    steps,
    median: {
      estimate: timeAtHalf(steps.map((step) => ({ time: step.time, value: step.survival }))),
      lower: limitTime("lower"),
      upper: limitTime("upper"),
    },
    scale,
    level,
  };
}
