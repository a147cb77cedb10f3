import { type AdditiveFit, additiveFit } from "../../statistics/groups/additive-fit.ts";
import type { Cell, CellTable } from "./cell-table.ts";
import type { Estimate } from "./estimate.ts";

/** Cell means by cook and level with the additive fit that takes cooks out. */
export interface CookTable {
  table: CellTable;
  fit: AdditiveFit;
  /** residual mean square of the cell means; 0 without residual degrees of freedom */
  meanSquare: number;
  residualDf: number;
  /** mean of a cell, undefined where the cook has no good tray of the level */
  meanAt(group: number, level: number): number | undefined;
}

/** Fits the table; undefined if cooks do not connect all levels. Every cell must hold a good tray. */
export function cookTable(table: CellTable): CookTable | undefined {
  const levelCount = table.levels.length;
  const cells = table.cells.map(({ group, level, mean }) => ({ block: group, level, value: mean - table.mean }));
  const fit = additiveFit(cells, table.groupCount, levelCount);
  if (fit === undefined) return undefined;
  const means = new Float64Array(table.groupCount * levelCount).fill(Number.NaN);
  for (const { group, level, mean } of table.cells) means[group * levelCount + level] = mean;
  const { degreesOfFreedom, sumOfSquares } = fit.residual;
  return {
    table,
    fit,
    meanSquare: degreesOfFreedom > 0 ? negligible(sumOfSquares, table) / degreesOfFreedom : 0,
    residualDf: degreesOfFreedom,
    meanAt: (group, level) => {
      const mean = means[group * levelCount + level]!;
      return Number.isNaN(mean) ? undefined : mean;
    },
  };
}

/** Rounding of the cells' size is no variation. */
export function negligible(squares: number, table: CellTable): number {
  let largest = 0;
  for (const { mean } of table.cells) largest = Math.max(largest, Math.abs(mean));
  return squares <= table.cells.length * (1e-12 * largest) ** 2 ? 0 : squares;
}

/** What cooks themselves show about one contrast of levels. */
export interface ContrastSpread {
  /** mean square of the contrast over the cooks that have all its levels, in the cells' units */
  meanSquare: number;
  /** cooks that have all its levels, less one */
  degreesOfFreedom: number;
}

/** Spread over cooks of a contrast; degrees of freedom below 1 where fewer than two cooks have all its levels. */
export function contrastSpread(cooks: CookTable, weights: ReadonlyArray<number>): ContrastSpread {
  const used = weights.flatMap((weight, level) => (weight === 0 ? [] : [level]));
  const values: number[] = [];
  for (let group = 0; group < cooks.table.groupCount; group++) {
    let value: number | undefined = 0;
    for (const level of used) {
      const mean = cooks.meanAt(group, level);
      value = mean === undefined || value === undefined ? undefined : value + weights[level]! * mean;
    }
    if (value !== undefined) values.push(value);
  }
  const mean = values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const scale = weights.reduce((sum, weight) => sum + weight ** 2, 0);
  const degreesOfFreedom = values.length - 1;
  return {
    meanSquare: degreesOfFreedom > 0 ? negligible(squares, cooks.table) / degreesOfFreedom / scale : 0,
    degreesOfFreedom,
  };
}

/** A mean square with its degrees of freedom. */
export interface ErrorEstimate {
  meanSquare: number;
  degreesOfFreedom: number;
}

/** What the residual holds beside a contrast's own spread. */
export function restOf(own: ErrorEstimate, residual: ErrorEstimate): ErrorEstimate {
  const left = residual.degreesOfFreedom - own.degreesOfFreedom;
  if (left <= 0.5) return { meanSquare: own.meanSquare, degreesOfFreedom: 0 };
  const squares = residual.degreesOfFreedom * residual.meanSquare - own.degreesOfFreedom * own.meanSquare;
  return { meanSquare: Math.max(squares / left, 0), degreesOfFreedom: left };
}

/**
 * Error of a contrast whose own spread over cooks is known: the rest of the residual helps where it is not smaller, and adds
 * degrees of freedom in that proportion.
 * @source the project's own rule; its error rates are in test/simulation
 */
export function borrowedError(own: ErrorEstimate, residual: ErrorEstimate): ErrorEstimate {
  const { meanSquare: m1, degreesOfFreedom: df1 } = own;
  const left = residual.degreesOfFreedom - df1;
  const { meanSquare: m2 } = restOf(own, residual);
  const ratio = m1 === 0 ? 1 : Math.min(1, m2 / m1);
  return { meanSquare: Math.max(m1, (m1 + m2) / 2), degreesOfFreedom: df1 + Math.max(0, Math.min(df1, left)) * ratio };
}

/** Adjusted difference of levels with a given error. */
export function contrastEstimate(cooks: CookTable, weights: ReadonlyArray<number>, error: ErrorEstimate): Estimate {
  const estimate = weights.reduce((sum, weight, level) => sum + weight * cooks.fit.effects[level]!, 0);
  return {
    estimate,
    standardError: Math.sqrt(Math.max(0, error.meanSquare * cooks.fit.varianceOf(weights))),
    degreesOfFreedom: error.degreesOfFreedom,
  };
}

/** Weights of one level less another. */
export function pairWeights(levelCount: number, from: number, to: number): number[] {
  return Array.from({ length: levelCount }, (_, level) => (level === to ? 1 : level === from ? -1 : 0));
}

/** Cells of each level. */
export function cellsOfLevel({ cells, levels }: CellTable): Cell[][] {
  const list: Cell[][] = levels.map(() => []);
  for (const cell of cells) list[cell.level]!.push(cell);
  return list;
}
