import { normalQuantile } from "../distributions/normal.ts";
import { requireFinite, requireOpenProbability } from "../require-numbers.ts";
import { interceptName } from "./logistic-design.ts";
import type { LogisticRegression } from "./logistic-regression.ts";

/** A predicted proportion with its interval, all between 0 and 1. */
export interface PredictedProportion {
  proportion: number;
  lower: number;
  upper: number;
  level: number;
  logOdds: number;
  /** of the log odds */
  standardError: number;
}

/**
 * The proportion a fitted logistic regression expects at given settings.
 * @param fit by logisticRegression; or the same with another covariance, such as one by cluster
 * @param settings a value for every column, by name
 * @param level confidence level, the fit's unless stated
 * @returns the proportion with an interval made on the log-odds scale, so it stays between 0 and 1
 * @throws RangeError if a column has no value, a name is unknown, a value is not finite, or the level is not between 0 and 1
 * @example predictProportion(logisticRegression({ successes: [1, 3], trials: [4, 4], columns: [{ name: "dose", values: [0, 1] }] }), { dose: 1 }).proportion // 0.75
 * @source Wald interval of a linear predictor: McCullagh and Nelder 1989, Generalized Linear Models, 2nd edition, section
 *   2.5
 */
export function predictProportion(
  fit: Pick<LogisticRegression, "coefficients" | "covariance" | "level">,
  settings: Readonly<Record<string, number>>,
  level = fit.level,
): PredictedProportion {
  requireOpenProbability("predictProportion", "level", level);
  const names = fit.coefficients.map((coefficient) => coefficient.name);
  for (const name of Object.keys(settings)) {
    if (!names.includes(name) || name === interceptName) {
      throw new RangeError(`predictProportion: each setting must be a column of the fit; received ${name}`);
    }
  }
  const row = names.map((name) => {
    if (name === interceptName) return 1;
    const value = settings[name];
    if (value === undefined)
      throw new RangeError(`predictProportion: every column needs a value; received none for ${name}`);
    requireFinite("predictProportion", name, [value]);
    return value;
  });
  const logOdds = row.reduce((sum, value, index) => sum + value * fit.coefficients[index]!.estimate, 0);
  let variance = 0;
  for (let i = 0; i < row.length; i++) {
    for (let j = 0; j < row.length; j++) variance += row[i]! * row[j]! * fit.covariance[i]![j]!;
  }
  const standardError = Math.sqrt(Math.max(0, variance));
  const reach = normalQuantile((1 + level) / 2) * standardError;
  const proportionAt = (value: number): number => 1 / (1 + Math.exp(-value));
  return {
    proportion: proportionAt(logOdds),
    lower: proportionAt(logOdds - reach),
    upper: proportionAt(logOdds + reach),
    level,
    logOdds,
    standardError,
  };
}
