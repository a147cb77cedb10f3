import type { CurveData } from "./curve-data.ts";

/** Values that share a dose (and a block): all the data say about pure scatter. */
export interface ReplicateCells {
  /** one value per cell, the weighted mean, with the cell's summed weight */
  means: CurveData;
  /** rows of the data in each cell */
  members: number[][];
  /** weighted sum of squares within cells */
  withinSumOfSquares: number;
  withinDegreesOfFreedom: number;
}

/**
 * Groups the values by dose, and by block where there are blocks. A fit to the cell means is the fit to the values.
 * @internal
 */
export function replicateCells(data: CurveData): ReplicateCells {
  const numbers = new Map<string, number>();
  const members: number[][] = [];
  for (let i = 0; i < data.doses.length; i++) {
    const key = `${data.doses[i]! === 0 ? 0 : data.doses[i]!}|${data.blockOf[i] ?? 0}`;
    let cell = numbers.get(key);
    if (cell === undefined) {
      cell = members.length;
      numbers.set(key, cell);
      members.push([]);
    }
    members[cell]!.push(i);
  }
  const weight = (i: number) => data.rootWeights[i]! ** 2;
  const means = Float64Array.from(members, (rows) => {
    let sum = 0;
    let weights = 0;
    for (const i of rows) {
      sum += weight(i) * data.responses[i]!;
      weights += weight(i);
    }
    const first = sum / weights;
    let correction = 0;
    for (const i of rows) correction += weight(i) * (data.responses[i]! - first);
    return first + correction / weights;
  });
  let within = 0;
  members.forEach((rows, cell) => {
    for (const i of rows) within += weight(i) * (data.responses[i]! - means[cell]!) ** 2;
  });
  return {
    means: {
      doses: Float64Array.from(members, (rows) => data.doses[rows[0]!]!),
      responses: means,
      rootWeights: Float64Array.from(members, (rows) => Math.sqrt(rows.reduce((sum, i) => sum + weight(i), 0))),
      blockOf: data.blockOf.length > 0 ? Int32Array.from(members, (rows) => data.blockOf[rows[0]!]!) : data.blockOf,
      blockNames: data.blockNames,
      differentDoses: data.differentDoses,
    },
    members,
    withinSumOfSquares: within,
    withinDegreesOfFreedom: data.doses.length - members.length,
  };
}
