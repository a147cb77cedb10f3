import { requireFinite, requireSameLength } from "../require-numbers.ts";

/** Doses and responses ready for fitting; blocks are numbered from 0 in the order they appear. */
export interface CurveData {
  doses: Float64Array;
  responses: Float64Array;
  /** square roots of the weights */
  rootWeights: Float64Array;
  /** block of each value; empty without blocks */
  blockOf: Int32Array;
  blockNames: string[];
  /** the different doses, ascending */
  differentDoses: number[];
}

/**
 * Offsets to be fitted beside the curve: one fewer than the blocks, because they sum to 0.
 * @internal
 */
export function offsetCount(data: CurveData): number {
  return Math.max(data.blockNames.length - 1, 0);
}

/** The columns a curve is fitted to. */
export interface CurveColumns {
  doses: ReadonlyArray<number>;
  responses: ReadonlyArray<number>;
  /** one per value, above 0; all 1 when absent */
  weights?: ReadonlyArray<number>;
  /** block (cook, jar) of each value; each block then gets an offset of its own, and the offsets sum to 0 */
  blocks?: ReadonlyArray<string | number>;
}

/**
 * Checks the columns and numbers the blocks.
 * @throws RangeError if a column is empty, lengths differ, a value is not finite or a weight is not above 0
 * @example curveData("fitCurve", { doses: [6, 3, 6], responses: [9, 5, 8] }).differentDoses // [3, 6]
 */
export function curveData(routine: string, columns: CurveColumns): CurveData {
  const { doses, responses, weights, blocks } = columns;
  if (doses.length === 0) throw new RangeError(`${routine}: doses must not be empty`);
  requireSameLength(routine, "doses", doses, "responses", responses);
  requireFinite(routine, "doses", doses);
  requireFinite(routine, "responses", responses);
  if (weights) {
    requireSameLength(routine, "doses", doses, "weights", weights);
    requireFinite(routine, "weights", weights);
    const wrong = weights.find((weight) => weight <= 0);
    if (wrong !== undefined) throw new RangeError(`${routine}: weights must be above 0; received ${wrong}`);
  }
  if (blocks) requireSameLength(routine, "doses", doses, "blocks", blocks);
  const numbers = new Map<string, number>();
  const blockOf = Int32Array.from(blocks ?? [], (block) => {
    const name = String(block);
    if (!numbers.has(name)) numbers.set(name, numbers.size);
    return numbers.get(name)!;
  });
  const several = numbers.size > 1;
  return {
    doses: Float64Array.from(doses),
    responses: Float64Array.from(responses),
    rootWeights: Float64Array.from(doses, (_, i) => Math.sqrt(weights ? weights[i]! : 1)),
    blockOf: several ? blockOf : new Int32Array(0),
    blockNames: several ? [...numbers.keys()] : [],
    differentDoses: [...new Set(doses)].sort((a, b) => a - b),
  };
}

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
