import type { TestedDoses } from "./tested-doses.ts";

/** The cells of weighed trays as flat columns, grams centred on the mean of all weighed trays. */
export interface WeighedCells {
  doses: number;
  cooks: number;
  /** weighed records: a pool is one */
  records: number;
  /** mean grams of all weighed trays */
  centre: number;
  /** squares within cells */
  within: number;
  /** whether some cell holds two records or more */
  replicated: boolean;
  /** per cell, in the order of cooks: place of the dose, trays, centred mean; `start[c]` to `start[c + 1]` are cook c's */
  dose: Int32Array;
  count: Float64Array;
  mean: Float64Array;
  start: number[];
}

/** Takes the weighed cells out of a book; lost and unweighed trays have no part in the yield of good ones. */
export function weighedCells({ doses, cells }: TestedDoses): WeighedCells {
  const own = cells.filter(({ weighed }) => weighed > 0);
  const trays = own.reduce((sum, { weighed }) => sum + weighed, 0);
  const centre = own.reduce((sum, { weighed, mean }) => sum + weighed * mean, 0) / trays;
  const start: number[] = [];
  own.forEach(({ cook }, at) => {
    if (at === 0 || own[at - 1]!.cook !== cook) start.push(at);
  });
  const cooks = start.length;
  start.push(own.length);
  return {
    doses: doses.length,
    cooks,
    records: own.reduce((sum, { records }) => sum + records, 0),
    centre,
    within: own.reduce((sum, { squares }) => sum + squares, 0),
    replicated: own.some(({ records }) => records > 1),
    dose: Int32Array.from(own, ({ dose }) => dose),
    count: Float64Array.from(own, ({ weighed }) => weighed),
    mean: Float64Array.from(own, ({ mean }) => mean - centre),
    start,
  };
}

/** What the data say about the doses, given how strongly cooks differ: Q = D'W^-1 D, b = D'W^-1 z, c = z'W^-1 z, log|W|. */
export interface CellSums {
  /** doses x doses, row by row */
  precision: Float64Array;
  weighted: Float64Array;
  square: number;
  logDeterminant: number;
}

/**
 * Sums over cells with W = cookRatio J + cellRatio I + diag(1/n), J being 1 within a cook: each cook's block is inverted in
 * closed form, so the cost is in proportion to the cells.
 * @param cookRatio variance between cooks over that of trays
 * @param cellRatio variance of a dose's effect from cook to cook over that of trays
 * @source Sherman and Morrison 1950, Annals of Mathematical Statistics 21(1):124-127
 */
export function cellSums(cells: WeighedCells, cookRatio: number, cellRatio: number): CellSums {
  const { doses, dose, count, mean, start } = cells;
  const precision = new Float64Array(doses * doses);
  const weighted = new Float64Array(doses);
  const inverse = Float64Array.from(count, (n) => 1 / (cellRatio + 1 / n));
  let square = 0;
  let logDeterminant = 0;
  for (let cook = 0; cook + 1 < start.length; cook++) {
    const from = start[cook]!;
    const to = start[cook + 1]!;
    let sum = 0;
    let sumOfMeans = 0;
    for (let i = from; i < to; i++) {
      sum += inverse[i]!;
      sumOfMeans += inverse[i]! * mean[i]!;
      square += inverse[i]! * mean[i]! * mean[i]!;
      logDeterminant -= Math.log(inverse[i]!);
    }
    const shared = cookRatio / (1 + cookRatio * sum);
    logDeterminant += Math.log1p(cookRatio * sum);
    square -= shared * sumOfMeans * sumOfMeans;
    for (let i = from; i < to; i++) {
      const row = dose[i]! * doses;
      precision[row + dose[i]!]! += inverse[i]!;
      weighted[dose[i]!]! += inverse[i]! * (mean[i]! - shared * sumOfMeans);
      const own = shared * inverse[i]!;
      for (let j = from; j < to; j++) precision[row + dose[j]!]! -= own * inverse[j]!;
    }
  }
  return { precision, weighted, square, logDeterminant };
}
