import { normalQuantile } from "../distributions/normal.ts";
import { type KaplanMeierCurve, requireWithin } from "./kaplan-meier.ts";

/** Mean time to the event, counting at most `upTo`. */
export interface RestrictedMean {
  estimate: number;
  lower: number;
  upper: number;
  standardError: number;
  upTo: number;
  level: number;
}

/**
 * Mean time counted up to a limit: the area under the curve. Unlike the median it exists even when fewer than half are done.
 * @param upTo limit in the unit of the times; the last observation unless stated
 * @throws RangeError if the limit is not above 0, or lies after the last observation of a curve that has not reached 0
 * @source Klein and Moeschberger 2003, Survival Analysis, 2nd edition, section 4.5 (from memory)
 * @example restrictedMean(kaplanMeier({ times: [2, 4], events: [true, true] })).estimate // 3
 */
export function restrictedMean(curve: KaplanMeierCurve, upTo = curve.steps.at(-1)!.time): RestrictedMean {
  requireWithin("restrictedMean", curve, upTo);
  if (upTo === 0) throw new RangeError("restrictedMean: upTo must be above 0; received 0");
  const inside = curve.steps.filter((step) => step.time <= upTo);
  let area = 0;
  let variance = 0;
  // from the right, so that the area beyond each event is at hand
  for (let k = inside.length - 1; k >= 0; k--) {
    const step = inside[k]!;
    const next = inside[k + 1]?.time ?? upTo;
    area += step.survival * (next - step.time);
    const left = step.atRisk - step.events;
    if (left > 0) variance += (area * area * step.events) / (step.atRisk * left);
  }
  const estimate = area + (inside[0]?.time ?? upTo);
  const standardError = Math.sqrt(variance);
  const reach = normalQuantile((1 + curve.level) / 2) * standardError;
  return {
    estimate,
    lower: Math.max(0, estimate - reach),
    upper: Math.min(upTo, estimate + reach),
    standardError,
    upTo,
    level: curve.level,
  };
}
