import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { orthogonalFactor } from "../linear-algebra/orthogonal-factor.ts";
import { type CurveData, mixColumn, offsetCount } from "./curve-data.ts";
import type { CurveForm, Held } from "./curve-form.ts";
import type { LeastSquaresProblem } from "./levenberg-marquardt.ts";

/**
 * Writes the weighted columns of the block offsets (each block against the last).
 * @internal
 */
export function fillOffsetColumns(data: CurveData, columns: Float64Array[], from: number): void {
  const offsets = offsetCount(data);
  for (let j = 0; j < offsets; j++) {
    const column = columns[from + j]!;
    for (let i = 0; i < column.length; i++) {
      const block = data.blockOf[i]!;
      column[i] = data.rootWeights[i]! * (block === j ? 1 : block === offsets ? -1 : 0);
    }
  }
}

/**
 * The least-squares problem of a form with block offsets after its parameters; `held` keeps one parameter fixed.
 * @internal
 */
export function curveProblem(form: CurveForm, data: CurveData, held?: Held): LeastSquaresProblem {
  const formCount = form.parameters.length;
  const offsets = offsetCount(data);
  const heldCount = held ? 1 : 0;
  const full = new Float64Array(formCount);
  const slope = new Float64Array(formCount);
  const rows = data.doses.length;
  return {
    residualCount: rows,
    parameterCount: formCount - heldCount + offsets,
    ...(data.correlated ? { fixedPart: data.correlated } : {}),
    evaluate(parameters, residuals, slopes) {
      for (let j = 0, free = 0; j < formCount; j++) full[j] = held?.index === j ? held.value : parameters[free++]!;
      for (let j = 0; j < formCount; j++) {
        const [low, high] = form.range[j]!;
        if (!(full[j]! >= low && full[j]! <= high)) return false;
      }
      const firstOffset = formCount - heldCount;
      for (let i = 0; i < rows; i++) {
        let fitted = form.value(data.doses[i]!, full);
        if (offsets > 0) {
          const block = data.blockOf[i]!;
          if (block < offsets) fitted += parameters[firstOffset + block]!;
          else for (let j = 0; j < offsets; j++) fitted -= parameters[firstOffset + j]!;
        }
        if (!Number.isFinite(fitted)) return false;
        residuals[i] = data.rootWeights[i]! * (data.responses[i]! - fitted);
        if (slopes) {
          form.gradient(data.doses[i]!, full, slope);
          for (let j = 0, free = 0; j < formCount; j++) {
            if (held?.index === j) continue;
            const weighted = data.rootWeights[i]! * slope[j]!;
            if (!Number.isFinite(weighted)) return false;
            slopes[free++]![i] = weighted;
          }
        }
      }
      if (slopes) fillOffsetColumns(data, slopes, firstOffset);
      if (data.correlated) {
        mixColumn(data.correlated, residuals);
        if (slopes) for (const column of slopes) mixColumn(data.correlated, column);
      }
      return true;
    },
  };
}

/** Least squares on columns that are known functions of the dose, beside the block offsets. */
export interface KnownColumnsFit {
  coefficients: number[];
  offsets: number[];
  residualSumOfSquares: number;
  independence: number;
}

/**
 * Fits coefficients of known functions of the dose (and the block offsets).
 * @param columnCount how many functions
 * @param fill writes the values of the functions at the i-th value
 * @param fixedPart a part of the response that is not fitted
 * @internal
 */
export function fitKnownColumns(
  data: CurveData,
  columnCount: number,
  fill: (index: number, into: Float64Array) => void,
  fixedPart?: (index: number) => number,
): KnownColumnsFit {
  const rows = data.doses.length;
  const total = columnCount + offsetCount(data);
  const columns = Array.from({ length: total }, () => new Float64Array(rows));
  const rightHandSide = new Float64Array(rows);
  const values = new Float64Array(columnCount);
  for (let i = 0; i < rows; i++) {
    fill(i, values);
    for (let j = 0; j < columnCount; j++) columns[j]![i] = data.rootWeights[i]! * values[j]!;
    rightHandSide[i] = data.rootWeights[i]! * (data.responses[i]! - (fixedPart ? fixedPart(i) : 0));
  }
  fillOffsetColumns(data, columns, columnCount);
  if (data.correlated) for (const column of [...columns, rightHandSide]) mixColumn(data.correlated, column);
  const factor = orthogonalFactor(ordinary, columns, 0);
  const rotated = factor.rotate(rightHandSide);
  const solution = factor.solve(rotated);
  let sum = data.correlated?.sumOfSquares ?? 0;
  for (let i = factor.kept.length; i < rows; i++) sum += rotated[i]! * rotated[i]!;
  return {
    coefficients: solution.slice(0, columnCount),
    offsets: solution.slice(columnCount),
    residualSumOfSquares: sum,
    independence: factor.independence,
  };
}
