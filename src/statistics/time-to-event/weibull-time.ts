import { normalQuantile } from "../distributions/normal.ts";
import { type Setting, weightsAt } from "../mixed-models/settings.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import type { WeibullFit } from "./weibull-regression.ts";

/** Time by which a share of the trays is done. */
export interface WeibullTime {
  estimate: number;
  lower: number;
  upper: number;
  /** share done by then */
  share: number;
  level: number;
}

/**
 * Time by which a share is done at a setting of the terms, with limits symmetric on the log scale.
 * @param share above 0 and below 1; 0.5 for the median
 * @param setting levels and numbers to stand at; factors left out are averaged, numbers left out stay at their mean
 * @throws RangeError if the share is not between 0 and 1 or the setting is not of the model
 * @source Kalbfleisch and Prentice 2002, The Statistical Analysis of Failure Time Data, chapter 3 (from memory)
 * @example weibullTime(weibullRegression({ lower: [2, 5, 7, 9], upper: [2, 5, 7, Infinity], terms: [] }), 0.5).estimate // 5.9435...
 */
export function weibullTime(fit: WeibullFit, share: number, setting: Partial<Setting> = {}): WeibullTime {
  requireOpenProbability("weibullTime", "share", share);
  const { design, columns, covariance } = fit.working;
  const weights = weightsAt("weibullTime", design, columns, { levels: setting.levels ?? {}, at: setting.at ?? {} });
  const quantile = Math.log(-Math.log1p(-share));
  const scale = fit.scale.estimate;
  const logTime = weights.reduce((sum, weight, k) => sum + weight * fit.coefficients[k]!.estimate, scale * quantile);
  // the derivative by the log scale is scale * quantile
  const gradient = [...weights, fit.law === "weibull" ? scale * quantile : 0];
  const variance = gradient.reduce(
    (sum, a, i) => sum + a * gradient.reduce((inner, b, j) => inner + b * covariance[i]![j]!, 0),
    0,
  );
  const reach = normalQuantile((1 + fit.level) / 2) * Math.sqrt(Math.max(0, variance));
  return {
    estimate: Math.exp(logTime),
    lower: Math.exp(logTime - reach),
    upper: Math.exp(logTime + reach),
    share,
    level: fit.level,
  };
}
