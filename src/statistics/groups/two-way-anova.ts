import { type LinearModel, linearModel } from "../linear-models/linear-model.ts";
import type { ModelTerm } from "../linear-models/model-term.ts";
import { marginalTests, sequentialTests, type TermTest } from "../linear-models/term-sums-of-squares.ts";
import { requireSameLength } from "../require-numbers.ts";
import type { VarianceLine } from "./one-way-anova.ts";

/** A factor with one level per row. */
export interface FactorColumn {
  name: string;
  values: ReadonlyArray<string>;
}

/** Analysis of two crossed factors. */
export interface TwoWayAnova {
  /** each line adjusted for those above it: first factor, second factor, interaction */
  sequential: TermTest[];
  /** each main effect adjusted for the other, the interaction for both; equal to `sequential` when balanced */
  marginal: TermTest[];
  residual: VarianceLine;
  total: { degreesOfFreedom: number; sumOfSquares: number };
  /** count and mean of every combination that has rows */
  cells: { first: string; second: string; count: number; mean: number }[];
  /** whether every combination has the same number of rows */
  balanced: boolean;
  /** the fit, for `adjustedForAllTests`, adjusted means and contrasts */
  model: LinearModel;
}

/**
 * Whether two crossed factors, and their interaction, change a response.
 * @param input one row per unit; the interaction is left out on request, as it must be with one row per combination
 * @throws RangeError if columns differ in length, a value is not finite, a factor has one level, the response does not vary,
 *   or no residual is left
 * @source Yates 1934, Journal of the American Statistical Association 29(185):51-66
 * @example
 * twoWayAnova({
 *   response: [1, 2, 4, 5, 3, 4, 9, 10],
 *   first: { name: "dose", values: ["5", "5", "10", "10", "5", "5", "10", "10"] },
 *   second: { name: "cook", values: ["A", "A", "A", "A", "B", "B", "B", "B"] },
 * }).marginal[2].f // 9
 */
export function twoWayAnova(input: {
  response: ReadonlyArray<number>;
  first: FactorColumn;
  second: FactorColumn;
  interaction?: boolean;
  level?: number;
}): TwoWayAnova {
  const routine = "twoWayAnova";
  const { response, first, second, interaction = true, level = 0.95 } = input;
  for (const factor of [first, second]) {
    requireSameLength(routine, "response", response, factor.name, factor.values);
    if (new Set(factor.values).size < 2) {
      throw new RangeError(
        `${routine}: "${factor.name}" needs at least 2 levels; received ${new Set(factor.values).size}`,
      );
    }
  }
  const terms: ModelTerm[] = [
    { kind: "factor", ...first },
    { kind: "factor", ...second },
  ];
  if (interaction) terms.push({ kind: "interaction", of: [first.name, second.name] });
  const model = linearModel({ response, terms, level });
  const sums = new Map<string, { first: string; second: string; count: number; sum: number }>();
  response.forEach((value, i) => {
    const key = JSON.stringify([first.values[i], second.values[i]]);
    const cell = sums.get(key) ?? { first: first.values[i]!, second: second.values[i]!, count: 0, sum: 0 };
    sums.set(key, { ...cell, count: cell.count + 1, sum: cell.sum + value });
  });
  const cells = [...sums.values()].map(({ sum, ...cell }) => ({ ...cell, mean: sum / cell.count }));
  return {
    sequential: sequentialTests(model),
    marginal: marginalTests(model),
    residual: model.residual,
    total: model.total,
    cells,
    balanced:
      cells.length === new Set(first.values).size * new Set(second.values).size &&
      cells.every(({ count }) => count === cells[0]!.count),
    model,
  };
}
