import { studentTQuantile } from "../distributions/student-t.ts";
import { add, type DoubleDouble, divide } from "../linear-algebra/double-double.ts";
import { entry } from "../linear-algebra/double-double-column.ts";
import { requireFinite, requireOpenProbability, requirePositive } from "../require-numbers.ts";
import { designColumns } from "./design-columns.ts";
import { estimableSum } from "./estimable-sum.ts";
import { type ContrastEstimate, contrastEstimate } from "./linear-contrast.ts";
import type { LinearModel } from "./linear-model.ts";
import type { TermCoding } from "./model-term.ts";

/** A value for each number and a level for each factor of a model, by term name. A power of a number in the model needs none. */
export type Setting = Readonly<Record<string, number | string>>;

/** What one new observation would be. */
export interface Prediction {
  /** the expected value, also the mean's estimate */
  estimate: number;
  /** limits for one new observation */
  lower: number;
  upper: number;
  /** of the difference between a new observation and the estimate */
  standardError: number;
  degreesOfFreedom: number;
  level: number;
}

/**
 * The mean response at a setting, with its interval.
 * @param setting every number and factor of the model: { dose: 12, cook: "B" }
 * @param level of the interval; the model's unless stated
 * @throws RangeError if a term is missing or unknown, a level was not in the data, a number is not finite, or the data
 *   cannot tell the mean there because columns were dropped
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 4.5.1.1
 * @example meanAt(model, { dose: 1.5 }).estimate // 4.125, with the set-up of linearModel
 */
export function meanAt(model: LinearModel, setting: Setting, level = model.level): ContrastEstimate {
  return averageOverSettings("meanAt", model, [setting], level);
}

/**
 * One new observation at a setting, with the limits that would hold it.
 * @param setting as for `meanAt`
 * @param level of the interval; the model's unless stated
 * @param weight of the new observation in a weighted model; 1 unless stated
 * @throws RangeError as `meanAt`, or if the weight is not above 0
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 4.5.1.2
 * @example predictAt(model, { dose: 1.5 }).upper // 5.5479..., with the set-up of linearModel
 */
export function predictAt(model: LinearModel, setting: Setting, level = model.level, weight = 1): Prediction {
  requirePositive("predictAt", "weight", weight);
  const mean = averageOverSettings("predictAt", model, [setting], level);
  const { estimate, degreesOfFreedom } = mean;
  const standardError = Math.hypot(mean.standardError, model.residualStandardDeviation / Math.sqrt(weight));
  const half = studentTQuantile((1 + level) / 2, degreesOfFreedom) * standardError;
  return { estimate, lower: estimate - half, upper: estimate + half, standardError, degreesOfFreedom, level };
}

/**
 * The plain average of the mean responses at several settings.
 * @internal
 */
export function averageOverSettings(
  routine: string,
  model: LinearModel,
  settings: ReadonlyArray<Setting>,
  level: number,
): ContrastEstimate {
  requireOpenProbability(routine, "level", level);
  const { estimate, spread } = estimableSum(routine, model, averageRow(routine, model, settings));
  return contrastEstimate(model, estimate, spread, level);
}

/**
 * The average over settings of the row of the design at each.
 * @internal
 */
export function averageRow(routine: string, model: LinearModel, settings: ReadonlyArray<Setting>): DoubleDouble[] {
  const { codings, intercept } = model.working;
  for (const setting of settings) requireSetting(routine, codings, setting);
  const values = new Map(
    codings.flatMap((coding) =>
      coding.kind === "interaction" ? [] : [[coding.name, settings.map((setting) => valueFor(coding, setting))]],
    ),
  ) as Map<string, number[] | string[]>;
  return designColumns(codings, values, settings.length, intercept).map(({ values: column }) => {
    let sum: DoubleDouble = entry(column, 0);
    for (let i = 1; i < settings.length; i++) sum = add(sum, entry(column, i));
    return divide(sum, { high: settings.length, low: 0 });
  });
}

function valueFor(coding: TermCoding, setting: Setting): number | string {
  if (coding.kind === "power" && !Object.hasOwn(setting, coding.name)) return setting[coding.base]!;
  return setting[coding.name]!;
}

function requireSetting(routine: string, codings: ReadonlyArray<TermCoding>, setting: Setting): void {
  for (const name of Object.keys(setting)) {
    if (!codings.some((coding) => coding.kind !== "interaction" && coding.name === name)) {
      throw new RangeError(`${routine}: a setting must name terms of the model; received "${name}"`);
    }
  }
  for (const coding of codings) {
    if (coding.kind === "interaction") continue;
    const known =
      Object.hasOwn(setting, coding.name) || (coding.kind === "power" && Object.hasOwn(setting, coding.base));
    if (!known) throw new RangeError(`${routine}: a setting needs a value for "${coding.name}"; received none`);
    const value = valueFor(coding, setting);
    if (coding.kind !== "factor") {
      if (typeof value !== "number") {
        throw new TypeError(`${routine}: "${coding.name}" must be a number; received "${value}"`);
      }
      requireFinite(routine, `"${coding.name}"`, [value]);
    } else if (typeof value !== "string" || !coding.levels.includes(value)) {
      const levels = coding.levels.map((level) => `"${level}"`).join(", ");
      throw new RangeError(`${routine}: "${coding.name}" must be one of ${levels}; received ${JSON.stringify(value)}`);
    }
  }
}
