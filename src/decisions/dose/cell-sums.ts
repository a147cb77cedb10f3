import { cholesky } from "../../statistics/linear-algebra/cholesky.ts";
import { usualTrayCv, usualTrayDf } from "../supposed-spread.ts";
import type { TestedDoses } from "./tested-doses.ts";

/** The cells of weighed trays as flat columns, grams centred on the mean of all weighed trays. */
export interface WeighedCells {
  doses: number;
  cooks: number;
  /** levels of what else was varied; 1 where nothing was */
  others: number;
  /** weighed records: a pool is one */
  records: number;
  /** mean grams of all weighed trays */
  centre: number;
  /** squares within cells, and those supposed beside them */
  within: number;
  supposed: number;
  /** degrees of freedom of all squares */
  degreesOfFreedom: number;
  /** whether some cell holds two records or more */
  replicated: boolean;
  /** per cell, in the order of cooks: places of dose and other, trays, centred mean; `start[c]` to `start[c + 1]` are cook c's */
  dose: Int32Array;
  other: Int32Array;
  count: Float64Array;
  mean: Float64Array;
  start: number[];
}

/**
 * Takes the weighed cells out of a book; lost and unweighed trays have no part in the yield of good ones. Where the trays of
 * one cook, or hardly more trays than doses, have to show how far trays differ, what trays usually do is supposed beside
 * it, as the verdict does: six trays may lie close together by chance.
 * @source scaled inverse chi-square prior: Smyth 2004, Statistical Applications in Genetics and Molecular Biology 3(1), article 3
 */
export function weighedCells({ doses, others, cells }: TestedDoses): WeighedCells {
  const own = cells.filter(({ weighed }) => weighed > 0);
  const trays = own.reduce((sum, { weighed }) => sum + weighed, 0);
  const centre = own.reduce((sum, { weighed, mean }) => sum + weighed * mean, 0) / trays;
  const start: number[] = [];
  own.forEach(({ cook }, at) => {
    if (at === 0 || own[at - 1]!.cook !== cook) start.push(at);
  });
  const cooks = start.length;
  start.push(own.length);
  const records = own.reduce((sum, { records: count }) => sum + count, 0);
  const supposedDf = cooks === 1 || records < doses.length + 3 ? usualTrayDf : 0;
  return {
    doses: doses.length,
    cooks,
    others,
    records,
    centre,
    within: own.reduce((sum, { squares }) => sum + squares, 0),
    supposed: supposedDf * (usualTrayCv * centre) ** 2,
    degreesOfFreedom: records - 1 + supposedDf,
    replicated: own.some(({ records }) => records > 1),
    dose: Int32Array.from(own, ({ dose }) => dose),
    other: Int32Array.from(own, ({ other }) => other),
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
  if (cells.others > 1) return sumsBesideOther(cells, cookRatio, cellRatio);
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

/** Standard deviation of what else was varied, in tray standard deviations: nothing is known of it beforehand. */
const flatOther = 100;

/**
 * As {@link cellSums} where something else was varied, too: its levels, centred so that each counts the same, have a flat
 * prior and are integrated out, so that a dose is told only from others at the same level. Cells of one cook share, beside
 * the cook, its own effect of the dose and of the other thing.
 * @source integration over coefficients of a linear model: Lindley and Smith 1972, Journal of the Royal Statistical Society B
 *   34(1):1-41
 */
function sumsBesideOther(cells: WeighedCells, cookRatio: number, cellRatio: number): CellSums {
  const { doses, others, dose, other, count, mean, start } = cells;
  const contrasts = others - 1;
  const width = doses + contrasts;
  // what a cell has of each column: 1 of its dose, and of the other thing 1 of its own level or -1 of the last one
  const has = (cell: number, column: number): number =>
    column < doses
      ? Number(dose[cell] === column)
      : other[cell] === contrasts
        ? -1
        : Number(other[cell] === column - doses);
  const cross = Array.from({ length: width }, () => new Float64Array(width));
  const right = new Float64Array(width);
  let square = 0;
  let logDeterminant = 0;
  for (let cook = 0; cook + 1 < start.length; cook++) {
    const own = Array.from({ length: start[cook + 1]! - start[cook]! }, (_, i) => start[cook]! + i);
    const shared = (i: number, j: number): number =>
      cookRatio + cellRatio * (Number(dose[i] === dose[j]) + Number(other[i] === other[j]));
    const factor = cholesky(
      own.map((i) => Float64Array.from(own, (j) => shared(i, j) + (i === j ? 1 / count[i]! : 0))),
    )!;
    logDeterminant += factor.logDeterminant;
    const solvedMeans = factor.solve(own.map((i) => mean[i]!));
    own.forEach((i, at) => {
      square += mean[i]! * solvedMeans[at]!;
    });
    for (let column = 0; column < width; column++) {
      const solved = factor.solve(own.map((i) => has(i, column)));
      own.forEach((i, at) => {
        right[column]! += solved[at]! * mean[i]!;
        for (let row = 0; row < width; row++) cross[row]![column]! += has(i, row) * solved[at]!;
      });
    }
  }
  const places = Array.from({ length: contrasts }, (_, k) => doses + k);
  const known = cholesky(
    places.map((k) => Float64Array.from(places, (l) => cross[k]![l]! + (k === l ? 1 / flatOther ** 2 : 0))),
  )!;
  const precision = new Float64Array(doses * doses);
  const weighted = right.slice(0, doses);
  const rightSolved = known.solve(places.map((k) => right[k]!));
  places.forEach((k, at) => {
    square -= right[k]! * rightSolved[at]!;
    for (let i = 0; i < doses; i++) weighted[i]! -= cross[i]![k]! * rightSolved[at]!;
  });
  for (let j = 0; j < doses; j++) {
    const solved = known.solve(places.map((k) => cross[k]![j]!));
    for (let i = 0; i < doses; i++) {
      const taken = places.reduce((sum, k, at) => sum + cross[i]![k]! * solved[at]!, 0);
      precision[i * doses + j] = cross[i]![j]! - taken;
    }
  }
  logDeterminant += known.logDeterminant;
  return { precision, weighted, square, logDeterminant };
}
