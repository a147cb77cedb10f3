import { subtract } from "../linear-algebra/double-double.ts";
import { requireOpenProbability } from "../require-numbers.ts";
import { estimableSum } from "./estimable-sum.ts";
import { type ContrastEstimate, contrastEstimate } from "./linear-contrast.ts";
import type { LinearModel } from "./linear-model.ts";
import { averageOverSettings, averageRow, type Setting } from "./predict-mean.ts";

/** The mean of one level of a factor, as a balanced trial would have shown it. */
export interface AdjustedMean {
  factorLevel: string;
  mean: ContrastEstimate;
}

/** Two levels of a factor compared: the second less the first. */
export interface LevelDifference {
  first: string;
  second: string;
  difference: ContrastEstimate;
}

/**
 * Mean of each level of a factor with the other factors averaged over their levels, each level counted once, and numbers at
 * the mean of their values.
 * @param factor name of a factor in the model
 * @param at other values to hold numbers or factors at; the averages above unless stated
 * @param level of the intervals; the model's unless stated
 * @returns one entry per level, reference first; t and p are against 0
 * @throws RangeError if the factor is unknown, `at` is malformed, or the data cannot tell a mean because columns were dropped
 * @source Searle, Speed and Milliken 1980, The American Statistician 34(4):216-221
 * @example
 * const model = linearModel({ response: [4, 6, 9, 11, 5, 9], terms: [{ kind: "factor", name: "cook", values: ["A", "A", "B", "B", "C", "C"] }] });
 * adjustedMeans(model, "cook")[1].mean.estimate // 10
 */
export function adjustedMeans(
  model: LinearModel,
  factor: string,
  at: Setting = {},
  level = model.level,
): AdjustedMean[] {
  requireOpenProbability("adjustedMeans", "level", level);
  return factorLevels("adjustedMeans", model, factor).map((factorLevel) => ({
    factorLevel,
    mean: averageOverSettings("adjustedMeans", model, settingsWith(model, { ...at, [factor]: factorLevel }), level),
  }));
}

/**
 * Differences of all pairs of adjusted means, each with its own interval (not simultaneous).
 * @param factor name of a factor in the model; at, level as for `adjustedMeans`
 * @throws RangeError as `adjustedMeans`
 * @source as {@link adjustedMeans}
 * @example adjustedDifferences(model, "cook")[0].difference.estimate // 5, with the set-up of adjustedMeans
 */
export function adjustedDifferences(
  model: LinearModel,
  factor: string,
  at: Setting = {},
  level = model.level,
): LevelDifference[] {
  const routine = "adjustedDifferences";
  requireOpenProbability(routine, "level", level);
  const rows = factorLevels(routine, model, factor).map((name) => ({
    name,
    row: averageRow(routine, model, settingsWith(model, { ...at, [factor]: name })),
  }));
  return rows.flatMap((first, i) =>
    rows.slice(i + 1).map((second) => {
      const weights = second.row.map((weight, j) => subtract(weight, first.row[j]!));
      const { estimate, spread } = estimableSum(routine, model, weights);
      return {
        first: first.name,
        second: second.name,
        difference: contrastEstimate(model, estimate, spread, level),
      };
    }),
  );
}

function factorLevels(routine: string, model: LinearModel, factor: string): string[] {
  const coding = model.working.codings.find(({ name }) => name === factor);
  if (coding?.kind !== "factor") {
    throw new RangeError(`${routine}: the model must have the factor asked for; received "${factor}"`);
  }
  return coding.levels;
}

/** Every combination of the levels that are not fixed, with the numbers that are not fixed at their means. */
function settingsWith(model: LinearModel, fixed: Setting): Setting[] {
  let settings: Setting[] = [fixed];
  for (const coding of model.working.codings) {
    if (coding.kind === "interaction" || Object.hasOwn(fixed, coding.name)) continue;
    if (coding.kind === "factor") {
      settings = settings.flatMap((setting) => coding.levels.map((name) => ({ ...setting, [coding.name]: name })));
    } else if (coding.kind === "number" || coding.base === coding.name) {
      const mean = meanOf(model.working.values.get(coding.name) as ReadonlyArray<number>);
      settings = settings.map((setting) => ({ ...setting, [coding.name]: mean }));
    }
  }
  return settings;
}

function meanOf(values: ReadonlyArray<number>): number {
  const first = values.reduce((sum, value) => sum + value, 0) / values.length;
  return first + values.reduce((sum, value) => sum + (value - first), 0) / values.length;
}
