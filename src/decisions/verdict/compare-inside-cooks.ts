import { cauchyCombination } from "../../statistics/comparisons/cauchy-combination.ts";
import { fUpperTail } from "../../statistics/distributions/f.ts";
import { type SlopeWithinBlocks, slopeWithinBlocks } from "../../statistics/groups/slope-within-blocks.ts";
import { type CellTable, mostLevels, scoresOf, type WithinCells, withinCells } from "./cell-table.ts";
import type { FilledSettings } from "./compared-tray.ts";
import {
  borrowedError,
  type CookTable,
  cellsOfLevel,
  contrastEstimate,
  contrastSpread,
  cookTable,
  type ErrorEstimate,
  negligible,
  pairWeights,
  restOf,
} from "./cook-table.ts";
import { type Estimate, pOf } from "./estimate.ts";
import { unevenSpread } from "./uneven-spread.ts";

/** Shares of the trend and of any difference in the deciding p. */
export const trendShare = 0.7;
/** Cooks up to which what they cannot show of their differences is supposed. */
export const fewCooks = 3;
/** Variance of what a cook adds to one level's gain, in variances between trays: gains differ by .75 tray sd. */
export const gainDiffers = 0.28;
/** Degrees of freedom that supposition is worth. */
export const supposedDf = 3;
/** Degrees of freedom inside cells from which their spread stands without supposition. */
const ownSpreadDf = 6;

/** What a layout says about ordered levels. */
export interface ComparedLevels {
  p?: number;
  pTrend?: number;
  pAny?: number;
  /** highest less lowest level, as the test sees it */
  settled: Estimate;
  /** the same with what few cooks hide */
  shown: Estimate;
  /** adjusted level means */
  adjusted: number[];
  /** levels by position, `to` less `from` */
  pair(from: number, to: number): Estimate;
  cooks: number;
}

/**
 * Ordered levels side by side in cooks: every cook's own slope judges the trend, the additive fit any difference.
 * @param table cells with good trays only, of cooks that have two or more levels and connect all levels
 * @source Bell and McCaffrey 2002 (slopes); Liu and Xie 2020 (combination); the error that slopes borrow from the rest, and its
 *   rates, are the project's own (test/simulation)
 */
export function compareInsideCooks(table: CellTable, settings: FilledSettings): ComparedLevels {
  const scores = scoresOf(table.levels);
  const trend = slopesOf(table, scores);
  const seen = { meanSquare: negligible(trend.meanSquare, table), degreesOfFreedom: trend.degreesOfFreedom };
  const own = seenError(seen, table, settings);
  const last = table.levels.length - 1;
  const span = scores[last]! - scores[0]!;
  const cooks = table.levels.length > mostLevels ? undefined : cookTable(table);
  if (table.levels.length === 2 || cooks === undefined) {
    return trendAlone(table, settings, trend, own, span, cooks);
  }
  const residual = { meanSquare: cooks.meanSquare, degreesOfFreedom: cooks.residualDf };
  const uneven = unevenSpread(cellsOfLevel(table).map(withinCells));
  const error = uneven ? own : borrowedError(own, residual);
  const slope = { estimate: trend.slope, ...errorOf(error, 1 / trend.sumOfSquares) };
  const pTrend = pOf(slope);
  const pAny = cooks.residualDf > 0 ? pOfLevels(cooks) : undefined;
  const p = uneven || pAny === undefined ? pTrend : cauchyCombination([pTrend, pAny], [trendShare, 1 - trendShare]);
  const weights = pairWeights(table.levels.length, 0, last);
  return {
    p,
    pTrend,
    ...(pAny === undefined ? {} : { pAny }),
    settled: contrastEstimate(cooks, weights, error),
    shown: contrastEstimate(cooks, weights, supposing(error, table, settings, restOf(own, residual))),
    adjusted: cooks.fit.effects.map((effect) => effect + adjustedCentre(table, cooks)),
    pair: (from, to) => pairEstimate(cooks, from, to, error, residual, uneven),
    cooks: trend.blocks,
  };
}

/** An error as seen; where two or three cooks agree to the last gram, what is supposed of them: that is chance. */
export const seenError = (error: ErrorEstimate, table: CellTable, settings: FilledSettings): ErrorEstimate =>
  error.meanSquare > 0 || error.degreesOfFreedom === 0 ? error : supposing(error, table, settings);

function slopesOf(table: CellTable, scores: ReadonlyArray<number>): SlopeWithinBlocks {
  const blocks = Array.from({ length: table.groupCount }, () => ({ amount: [] as number[], value: [] as number[] }));
  for (const { group, level, mean } of table.cells) {
    blocks[group]!.amount.push(scores[level]!);
    blocks[group]!.value.push(mean - table.mean);
  }
  const trend = slopeWithinBlocks(blocks);
  if (trend === undefined) {
    throw new RangeError("compareInsideCooks: at least two cooks must have two levels or more");
  }
  return trend;
}

function errorOf(error: ErrorEstimate, multiple: number): { standardError: number; degreesOfFreedom: number } {
  return { standardError: Math.sqrt(error.meanSquare * multiple), degreesOfFreedom: error.degreesOfFreedom };
}

/** Two levels, or too many for differences: the slopes decide. */
function trendAlone(
  table: CellTable,
  settings: FilledSettings,
  trend: SlopeWithinBlocks,
  error: ErrorEstimate,
  span: number,
  cooks: CookTable | undefined,
): ComparedLevels {
  const multiple = span ** 2 / trend.sumOfSquares;
  const settled = { estimate: trend.slope * span, ...errorOf(error, multiple) };
  const p = pOf(settled);
  const scores = scoresOf(table.levels);
  const centre = scores.reduce((sum, score) => sum + score, 0) / scores.length;
  const adjusted =
    cooks === undefined
      ? scores.map((score) => table.mean + trend.slope * (score - centre))
      : cooks.fit.effects.map((effect) => effect + adjustedCentre(table, cooks));
  return {
    p,
    pTrend: p,
    settled,
    shown: { estimate: settled.estimate, ...errorOf(supposing(error, table, settings), multiple) },
    adjusted,
    pair: () => settled,
    cooks: trend.blocks,
  };
}

/** F of levels after cooks. */
function pOfLevels({ fit, meanSquare, residualDf }: CookTable): number {
  const { degreesOfFreedom, sumOfSquares } = fit.levels;
  const between = sumOfSquares / degreesOfFreedom;
  if (between === 0) return 1;
  return fUpperTail(between / meanSquare, degreesOfFreedom, residualDf);
}

/** Mean over cooks and levels, each level counted once: what effects are added to. */
export function adjustedCentre(table: CellTable, { fit }: CookTable): number {
  const byGroup = Array.from({ length: table.groupCount }, () => ({ sum: 0, count: 0 }));
  for (const { group, level, mean } of table.cells) {
    byGroup[group]!.sum += mean - fit.effects[level]!;
    byGroup[group]!.count++;
  }
  return byGroup.reduce((sum, group) => sum + group.sum / group.count, 0) / table.groupCount;
}

/**
 * With few cooks, the error that would be expected if gains differed between cooks as they usually do, moderating what was seen.
 * @param rest what cells show beside the contrast itself: of how far trays differ, where there are few repeats inside cells
 * @source scaled inverse chi-square prior: Smyth 2004, Statistical Applications in Genetics and Molecular Biology 3(1), article 3;
 *   its size is the project's own (test/simulation)
 */
export function supposing(
  error: ErrorEstimate,
  table: CellTable,
  settings: FilledSettings,
  rest: ErrorEstimate = { meanSquare: 0, degreesOfFreedom: 0 },
): ErrorEstimate {
  if (table.groupCount > fewCooks) return error;
  const inverse = meanInverse(table);
  const within = withinCells(table.cells);
  if (within.degreesOfFreedom < ownSpreadDf) {
    within.squares += (rest.degreesOfFreedom * rest.meanSquare) / inverse;
    within.degreesOfFreedom += rest.degreesOfFreedom;
  }
  const supposed = trayVariance(within, table.mean, settings) * (inverse + gainDiffers);
  const degreesOfFreedom = error.degreesOfFreedom + supposedDf;
  return {
    meanSquare: (error.degreesOfFreedom * error.meanSquare + supposedDf * supposed) / degreesOfFreedom,
    degreesOfFreedom,
  };
}

/** Mean over cells of 1 over their trays. */
export const meanInverse = ({ cells }: CellTable): number =>
  cells.reduce((sum, { count }) => sum + 1 / count, 0) / cells.length;

/** Variance between trays treated alike: their own, moderated where they are few. */
export function trayVariance(
  { squares, degreesOfFreedom }: WithinCells,
  mean: number,
  settings: FilledSettings,
): number {
  if (degreesOfFreedom >= ownSpreadDf) return squares / degreesOfFreedom;
  const { traySdDf } = settings;
  return (traySdDf * settings.traySd(mean) ** 2 + squares) / (traySdDf + degreesOfFreedom);
}

/** One pair with its own variance over cooks. */
function pairEstimate(
  cooks: CookTable,
  from: number,
  to: number,
  main: ErrorEstimate,
  residual: ErrorEstimate,
  uneven: boolean,
): Estimate {
  const weights = pairWeights(cooks.table.levels.length, from, to);
  const own = contrastSpread(cooks, weights);
  if (own.degreesOfFreedom < 1) return contrastEstimate(cooks, weights, main);
  return contrastEstimate(cooks, weights, uneven ? own : borrowedError(own, residual));
}
