import { type AdjustedMean, adjustedMeans } from "../linear-models/adjusted-means.ts";
import { type LinearModel, linearModel } from "../linear-models/linear-model.ts";
import { sequentialTests, type TermTest } from "../linear-models/term-sums-of-squares.ts";
import { requireFinite, requireSameLength } from "../require-numbers.ts";
import type { VarianceLine } from "./one-way-anova.ts";

/** One row per unit: its place in both directions and what it was given. */
export interface LatinSquareLayout {
  response: ReadonlyArray<number>;
  row: ReadonlyArray<string>;
  column: ReadonlyArray<string>;
  treatment: ReadonlyArray<string>;
}

/** Analysis of a Latin square. */
export interface LatinSquare {
  rows: TermTest;
  columns: TermTest;
  treatments: TermTest;
  residual: VarianceLine;
  total: { degreesOfFreedom: number; sumOfSquares: number };
  means: AdjustedMean[];
  model: LinearModel;
}

/**
 * Whether treatments differ where each stood once in every row and once in every column.
 * @param layout n × n units, n of 3 or more
 * @param level of the intervals of the means; 0.95 unless stated
 * @throws RangeError if the layout is not a Latin square, columns differ in length, a value is not finite, or the response
 *   does not vary
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 5.3.3.2.1
 * @example
 * latinSquare({
 *   response: [1, 2, 4, 2, 5, 1, 6, 2, 3],
 *   row: ["1", "1", "1", "2", "2", "2", "3", "3", "3"],
 *   column: ["a", "b", "c", "a", "b", "c", "a", "b", "c"],
 *   treatment: ["X", "Y", "Z", "Y", "Z", "X", "Z", "X", "Y"],
 * }).treatments.f // 97
 */
export function latinSquare(layout: LatinSquareLayout, level = 0.95): LatinSquare {
  const routine = "latinSquare";
  const { response, row, column, treatment } = layout;
  requireSameLength(routine, "response", response, "row", row);
  requireSameLength(routine, "response", response, "column", column);
  requireSameLength(routine, "response", response, "treatment", treatment);
  requireFinite(routine, "response", response);
  const size = new Set(treatment).size;
  if (size < 3 || new Set(row).size !== size || new Set(column).size !== size || response.length !== size * size) {
    throw new RangeError(
      `${routine}: n treatments need n rows and n columns, one unit in each, n of 3 or more; received ${size} treatments, ${new Set(row).size} rows, ${new Set(column).size} columns, ${response.length} units`,
    );
  }
  for (const [name, first, second] of [
    ["row and column", row, column],
    ["row and treatment", row, treatment],
    ["column and treatment", column, treatment],
  ] as const) {
    const seen = new Set<string>();
    first.forEach((value, i) => {
      const key = JSON.stringify([value, second[i]]);
      if (seen.has(key)) {
        throw new RangeError(`${routine}: each ${name} may meet once; received ${value} and ${second[i]} twice`);
      }
      seen.add(key);
    });
  }
  const model = linearModel({
    response,
    terms: [
      { kind: "factor", name: "row", values: row },
      { kind: "factor", name: "column", values: column },
      { kind: "factor", name: "treatment", values: treatment },
    ],
    level,
  });
  const [rows, columns, treatments] = sequentialTests(model);
  return {
    rows: rows!,
    columns: columns!,
    treatments: treatments!,
    residual: model.residual,
    total: model.total,
    means: adjustedMeans(model, "treatment"),
    model,
  };
}
