import { cauchyCombination } from "../../statistics/comparisons/cauchy-combination.ts";
import type { ModelTerm } from "../../statistics/linear-models/design-columns.ts";
import { linearContrast } from "../../statistics/linear-models/linear-contrast.ts";
import { type LinearModel, linearModel } from "../../statistics/linear-models/linear-model.ts";
import { cellTable, mostLevels, type PlacedTray, scoresOf, withinCells } from "./cell-table.ts";
import { type ComparedLevels, meanInverse, trayVariance, trendShare } from "./compare-inside-cooks.ts";
import type { FilledSettings } from "./compared-tray.ts";
import { pairWeights } from "./cook-table.ts";
import type { CookValues } from "./cook-values.ts";
import { type Estimate, pOf } from "./estimate.ts";

/** Least squares of cooks' values on what is to be taken out and the level. */
export interface CookModel {
  model: LinearModel;
  /** F of the level, adjusted for what stands before it */
  f: number;
  p: number;
  /** contrast of the levels */
  contrast(weights: ReadonlyArray<number>): Estimate;
  /** adjusted level means */
  adjusted: number[];
}

const nameOf = (level: number): string => `level: ${level}`;

/** What is taken out before the level: the order in time, the other thing varied. */
export function termsBefore(cooks: CookValues, withOrder: boolean): ModelTerm[] {
  const terms: ModelTerm[] = [];
  if (cooks.other !== undefined && new Set(cooks.other).size > 1) {
    terms.push({ kind: "factor", name: "other", values: cooks.other });
  }
  if (withOrder) terms.push({ kind: "number", name: "order", values: cooks.order });
  return terms;
}

/**
 * A comparison of whole cooks whose level followed the calendar in part: made with the order in time taken out and without, and
 * the one of larger p kept. A change with time need not be a line, and to take a line out of a step or a season can make a difference.
 */
export function besideOrder<T extends { p?: number | undefined }>(
  withOrder: boolean,
  compare: (withOrder: boolean) => T | undefined,
): T | undefined {
  const found = compare(withOrder);
  const plain = withOrder && found !== undefined ? compare(false) : undefined;
  return plain !== undefined && plain.p! > found!.p! ? plain : found;
}

const varies = (values: ReadonlyArray<number>): boolean => values.some((value) => value !== values[0]);

/** Coefficients that a model of these terms has. */
function coefficientCount(terms: ReadonlyArray<ModelTerm>): number {
  return terms.reduce((count, term) => count + (term.kind === "factor" ? new Set(term.values).size - 1 : 1), 1);
}

/** Fits the level as a factor; undefined without a residual degree of freedom, variation, or where levels cannot be separated. */
export function modelOfLevels(
  cooks: CookValues,
  before: ReadonlyArray<ModelTerm>,
  leastVariance: number,
): CookModel | undefined {
  const terms: ModelTerm[] = [
    ...before,
    { kind: "factor", name: "level", values: cooks.level.map(String), reference: "0" },
  ];
  if (cooks.value.length <= coefficientCount(terms) || !varies(cooks.value)) return undefined;
  const model = linearModel({ response: cooks.value, terms, leastVariance });
  if (model.dropped.includes("level")) return undefined;
  const contrast = (weights: ReadonlyArray<number>): Estimate => {
    const named = Object.fromEntries(
      weights.flatMap((weight, level) => (level === 0 || weight === 0 ? [] : [[nameOf(level), weight]])),
    );
    return { ...linearContrast(model, named), degreesOfFreedom: model.residual.degreesOfFreedom };
  };
  const effects = cooks.levels.map((_, level) =>
    level === 0 ? 0 : model.coefficients.find(({ name }) => name === nameOf(level))!.estimate,
  );
  const mean = cooks.value.reduce((sum, value) => sum + value, 0) / cooks.value.length;
  const meanEffect = cooks.level.reduce((sum, level) => sum + effects[level]!, 0) / cooks.value.length;
  return {
    model,
    f: model.lastTerm.f,
    p: model.lastTerm.p,
    contrast,
    adjusted: effects.map((effect) => mean + effect - meanEffect),
  };
}

/** Slope over the levels' scores; undefined as {@link modelOfLevels}. */
function slopeModel(
  cooks: CookValues,
  scores: ReadonlyArray<number>,
  before: ReadonlyArray<ModelTerm>,
  leastVariance: number,
): Estimate | undefined {
  const terms: ModelTerm[] = [
    ...before,
    { kind: "number", name: "level", values: cooks.level.map((level) => scores[level]!) },
  ];
  if (cooks.value.length <= coefficientCount(terms)) return undefined;
  const degreesOfFreedom = cooks.value.length - coefficientCount(terms);
  if (!varies(cooks.value)) {
    const amounts = cooks.level.map((level) => scores[level]!);
    const centre = amounts.reduce((sum, amount) => sum + amount, 0) / amounts.length;
    const squares = amounts.reduce((sum, amount) => sum + (amount - centre) ** 2, 0);
    return { estimate: 0, standardError: Math.sqrt(leastVariance / squares), degreesOfFreedom };
  }
  const model = linearModel({ response: cooks.value, terms, leastVariance });
  if (model.dropped.includes("level")) return undefined;
  const slope = model.coefficients.find(({ name }) => name === "level")!;
  return {
    estimate: slope.estimate,
    standardError: slope.standardError,
    degreesOfFreedom: model.residual.degreesOfFreedom,
  };
}

/**
 * Variance of a cook's mean by what its trays alone differ: cooks that agree better do so by chance, and what they leave is no
 * error to judge by. 0 where no cook has two trays.
 */
export function leastOfCooks(trays: ReadonlyArray<PlacedTray>, settings: FilledSettings): number {
  const table = cellTable(trays);
  const within = withinCells(table.cells);
  return within.degreesOfFreedom === 0 ? 0 : trayVariance(within, table.mean, settings) * meanInverse(table);
}

/**
 * Ordered levels given to whole cooks: one value a cook, slope and analysis of variance combined.
 * @returns undefined where too few cooks are left to compare, or what is taken out leaves nothing of the level
 * @source least squares; Liu and Xie 2020 (combination); weights and rates are the project's own (test/simulation)
 */
export function compareWholeCooks(
  cooks: CookValues,
  withOrder: boolean,
  leastVariance: number,
): ComparedLevels | undefined {
  const scores = scoresOf(cooks.levels);
  const before = termsBefore(cooks, withOrder);
  const slope = slopeModel(cooks, scores, before, leastVariance);
  if (slope === undefined) return undefined;
  const last = scores.length - 1;
  const span = scores[last]! - scores[0]!;
  const pTrend = pOf(slope);
  const bySlope: Estimate = {
    estimate: slope.estimate * span,
    standardError: slope.standardError * span,
    degreesOfFreedom: slope.degreesOfFreedom,
  };
  const levels =
    cooks.levels.length > 2 && cooks.levels.length <= mostLevels
      ? modelOfLevels(cooks, before, leastVariance)
      : undefined;
  const settled = levels === undefined ? bySlope : levels.contrast(pairWeights(scores.length, 0, last));
  const meanScore = cooks.level.reduce((sum, level) => sum + scores[level]!, 0) / cooks.level.length;
  const meanValue = cooks.value.reduce((sum, value) => sum + value, 0) / cooks.value.length;
  return {
    p: levels === undefined ? pTrend : cauchyCombination([pTrend, levels.p], [trendShare, 1 - trendShare]),
    pTrend,
    ...(levels === undefined ? {} : { pAny: levels.p }),
    settled,
    shown: settled,
    adjusted: levels?.adjusted ?? scores.map((score) => meanValue + slope.estimate * (score - meanScore)),
    pair: (from, to) => levels?.contrast(pairWeights(scores.length, from, to)) ?? bySlope,
    cooks: cooks.value.length,
  };
}
