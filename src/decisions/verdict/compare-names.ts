import { fUpperTail } from "../../statistics/distributions/f.ts";
import { brownForsytheMeans } from "../../statistics/groups/brown-forsythe-means.ts";
import { sphericity } from "../../statistics/groups/sphericity.ts";
import type { CellTable } from "./cell-table.ts";
import { adjustedCentre, seenError, supposing } from "./compare-inside-cooks.ts";
import { moderatedVariance } from "./compare-one-cook.ts";
import { type CookModel, modelOfLevels, termsBefore } from "./compare-whole-cooks.ts";
import type { FilledSettings } from "./compared-tray.ts";
import {
  borrowedError,
  type CookTable,
  contrastEstimate,
  contrastSpread,
  cookTable,
  type ErrorEstimate,
} from "./cook-table.ts";
import type { CookValues } from "./cook-values.ts";
import type { Estimate } from "./estimate.ts";
import { unevenSpread } from "./uneven-spread.ts";

/** What a layout says about unordered levels. */
export interface ComparedNames {
  /** any difference between levels; absent where no test decides */
  p?: number;
  /** variance ratio of levels */
  f: number;
  /** adjusted level means */
  adjusted: number[];
  /** variance of each adjusted mean, apart from what cooks share, with its degrees of freedom */
  variances: number[];
  degreesOfFreedom: number;
  /** a contrast of levels, weights with sum 0: as tested, and with what few cooks hide */
  contrast(weights: ReadonlyArray<number>): { settled: Estimate; shown: Estimate };
  cooks: number;
}

/** Factor of the degrees of freedom where too few cooks are complete to estimate it. */
const supposedSphericity = 0.8;
const completeCooks = 3;

/**
 * Unordered levels side by side in cooks.
 * @param table cells with good trays only, of cooks that have two or more levels and connect all levels
 * @source additive fit; degrees of freedom: Geisser and Greenhouse 1958, Huynh and Feldt 1976; contrasts with their own spread
 *   over cooks and the allowance for incomplete cooks are the project's own (test/simulation)
 */
export function compareNamesInside(table: CellTable, settings: FilledSettings): ComparedNames | undefined {
  const cooks = cookTable(table);
  if (cooks === undefined) return undefined;
  const seen: ErrorEstimate = { meanSquare: cooks.meanSquare, degreesOfFreedom: cooks.residualDf };
  const residual = seenError(seen, table, settings);
  const between = cooks.fit.levels.sumOfSquares / cooks.fit.levels.degreesOfFreedom;
  const f = ratioOf(between, residual.meanSquare);
  const factor = sphericityFactor(cooks);
  const shown = supposing(residual, table, settings);
  const perLevel = table.levels.map(() => 0);
  for (const { level } of table.cells) perLevel[level]!++;
  return {
    ...(residual.degreesOfFreedom > 0
      ? { p: fUpperTail(f, factor * (table.levels.length - 1), factor * residual.degreesOfFreedom) }
      : {}),
    f: residual.degreesOfFreedom > 0 ? f : ratioOf(between, shown.meanSquare),
    adjusted: cooks.fit.effects.map((effect) => effect + adjustedCentre(table, cooks)),
    variances: perLevel.map((count) => shown.meanSquare / count),
    degreesOfFreedom: Math.max(1, shown.degreesOfFreedom),
    contrast: (weights) => {
      const error = contrastError(cooks, weights, residual);
      return {
        settled: contrastEstimate(cooks, weights, error),
        shown: contrastEstimate(cooks, weights, supposing(error, table, settings)),
      };
    },
    cooks: table.groupCount,
  };
}

/** A ratio of mean squares; none over none is none. */
function ratioOf(between: number, error: number): number {
  if (between === 0) return 0;
  return error === 0 ? Number.POSITIVE_INFINITY : between / error;
}

function sphericityFactor(cooks: CookTable): number {
  const { groupCount, levels } = cooks.table;
  const complete: number[][] = [];
  for (let group = 0; group < groupCount; group++) {
    const values = levels.map((_, level) => cooks.meanAt(group, level));
    if (values.every((value) => value !== undefined)) complete.push(values as number[]);
  }
  if (complete.length < completeCooks) return supposedSphericity;
  const { greenhouseGeisser, huynhFeldt } = sphericity(complete);
  const estimated = Math.min(1, Math.max(greenhouseGeisser, huynhFeldt));
  return complete.length < groupCount ? Math.min(estimated, supposedSphericity) : estimated;
}

/** The pooled error, or the contrast's own where three cooks or more show that it is larger. */
function contrastError(cooks: CookTable, weights: ReadonlyArray<number>, residual: ErrorEstimate): ErrorEstimate {
  const own = contrastSpread(cooks, weights);
  if (own.degreesOfFreedom < completeCooks - 1 || own.meanSquare <= residual.meanSquare) return residual;
  return { meanSquare: own.meanSquare, degreesOfFreedom: borrowedError(own, residual).degreesOfFreedom };
}

/**
 * Unordered levels given to whole cooks.
 * @returns undefined where too few cooks are left, or what is taken out leaves nothing of the level
 * @source least squares; where spreads differ Brown and Forsythe 1974, Technometrics 16:129-132
 */
export function compareNamesOfCooks(
  cooks: CookValues,
  withOrder: boolean,
  leastVariance: number,
): ComparedNames | undefined {
  const before = termsBefore(cooks, withOrder);
  const levels = modelOfLevels(cooks, before, leastVariance);
  if (levels === undefined) return undefined;
  const values = cooks.levels.map((_, level) => cooks.value.filter((__, i) => cooks.level[i] === level));
  const error = levels.model.residual.meanSquare;
  return {
    // cooks that agree better than their trays tell no spread
    p: (before.length === 0 && error > leastVariance ? pOfUnequalSpread(values) : undefined) ?? levels.p,
    f: levels.f,
    adjusted: levels.adjusted,
    variances: values.map((own) => error / own.length),
    degreesOfFreedom: levels.model.residual.degreesOfFreedom,
    contrast: (weights) => twice(levels, weights),
    cooks: cooks.value.length,
  };
}

function twice(levels: CookModel, weights: ReadonlyArray<number>): { settled: Estimate; shown: Estimate } {
  const estimate = levels.contrast(weights);
  return { settled: estimate, shown: estimate };
}

/** p without one spread for all levels; undefined where spreads are alike or too little is known of them. */
function pOfUnequalSpread(values: ReadonlyArray<ReadonlyArray<number>>): number | undefined {
  const spreads = values.map((own) => {
    const mean = own.reduce((sum, value) => sum + value, 0) / own.length;
    return {
      squares: own.reduce((sum, value) => sum + (value - mean) ** 2, 0),
      degreesOfFreedom: own.length - 1,
    };
  });
  return unevenSpread(spreads) ? brownForsytheMeans(values).p : undefined;
}

/**
 * Unordered levels inside one cook; no test decides.
 * @param table cells with good trays only
 * @param takenOut degrees of freedom used by what else was varied in the cook
 * @param mayBeCooks as in `compareOneCook`
 * @source Smyth 2004, Statistical Applications in Genetics and Molecular Biology 3(1), article 3 (scaled inverse chi-square prior)
 */
export function compareNamesInOneCook(
  table: CellTable,
  settings: FilledSettings,
  takenOut: number,
  mayBeCooks: boolean,
): ComparedNames {
  const residualSquares = table.cells.reduce((sum, { squares }) => sum + squares, 0);
  const weighings = table.cells.reduce((sum, cell) => sum + cell.weighings, 0);
  const residualDf = Math.max(0, weighings - table.levels.length - takenOut);
  const { variance, degreesOfFreedom } = moderatedVariance(residualSquares, residualDf, table.mean, settings);
  const between =
    table.cells.reduce((sum, { count, mean }) => sum + count * (mean - table.mean) ** 2, 0) / (table.levels.length - 1);
  const means = table.cells.map(({ mean }) => mean);
  const variances = table.cells.map(({ count }) => variance / count + (mayBeCooks ? variance : 0));
  return {
    f: ratioOf(between, variance),
    adjusted: means,
    variances,
    degreesOfFreedom,
    contrast: (weights) => {
      const estimate: Estimate = {
        estimate: weights.reduce((sum, weight, level) => sum + weight * means[level]!, 0),
        standardError: Math.sqrt(weights.reduce((sum, weight, level) => sum + weight ** 2 * variances[level]!, 0)),
        degreesOfFreedom,
      };
      return { settled: estimate, shown: estimate };
    },
    cooks: 1,
  };
}
