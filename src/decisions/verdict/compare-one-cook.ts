import { type PlacedTray, scoresOf } from "./cell-table.ts";
import type { FilledSettings } from "./compared-tray.ts";
import type { Level } from "./decision.ts";
import type { Estimate } from "./estimate.ts";

/** From these sizes on, and this ratio of them, two levels are compared without supposing one spread. */
const unlike = { trays: 2, ratio: 1.5 };

interface Weighed {
  level: number;
  value: number;
  weight: number;
  stratum: string;
}

/**
 * Highest less lowest of ordered levels inside one cook, from one tray of each of two levels up: a straight line, its spread moderated by what trays
 * treated alike usually do.
 * @param trays good trays of one cook, two levels or more
 * @param strataOf what else was varied in the cook, taken out by its levels
 * @param mayBeCooks each level's trays may be a cook of their own; cooks are supposed to differ as trays do (the project's own)
 * @returns undefined where what is taken out leaves nothing of the level
 * @source Smyth 2004, Statistical Applications in Genetics and Molecular Biology 3(1), article 3 (scaled inverse chi-square
 *   prior); sizes unlike: Welch 1947, Biometrika 34:28-35, with the degrees of freedom of Satterthwaite 1946, Biometrics Bulletin 2:110-114
 */
export function compareOneCook(
  trays: ReadonlyArray<PlacedTray>,
  levels: ReadonlyArray<Level>,
  mean: number,
  settings: FilledSettings,
  strataOf: (tray: PlacedTray) => string = () => "",
  mayBeCooks: boolean,
): Estimate | undefined {
  const scores = scoresOf(levels);
  const position = new Map(levels.map((level, i) => [level, i]));
  const weighed = trays.map(
    (placed): Weighed => ({
      level: position.get(placed.tray.level)!,
      value: placed.tray.value as number,
      weight: placed.tray.pooled ?? 1,
      stratum: strataOf(placed),
    }),
  );
  const line = lineWithinStrata(weighed, scores);
  if (line === undefined) return undefined;
  const span = scores.at(-1)! - scores[0]!;
  const moderated = moderatedVariance(line.residualSquares, line.degreesOfFreedom, mean, settings);
  const halfway = Math.sqrt((settings.traySd(mean) ** 2 + moderated.variance) / 2);
  const difference = unlikeSizes(weighed, levels.length, { ...settings, traySd: () => halfway }) ?? {
    estimate: line.slope * span,
    standardError: span * Math.sqrt(moderated.variance / line.squares),
    degreesOfFreedom: moderated.degreesOfFreedom,
  };
  const ofCooks = mayBeCooks ? 2 * moderated.variance : 0;
  return { ...difference, standardError: Math.sqrt(difference.standardError ** 2 + ofCooks) };
}

/** Variance between trays treated alike, moderated by what is supposed. */
export function moderatedVariance(
  residualSquares: number,
  residualDf: number,
  mean: number,
  settings: FilledSettings,
): { variance: number; degreesOfFreedom: number } {
  const degreesOfFreedom = settings.traySdDf + residualDf;
  const variance = (settings.traySdDf * settings.traySd(mean) ** 2 + residualSquares) / degreesOfFreedom;
  return { variance, degreesOfFreedom };
}

function lineWithinStrata(
  weighed: ReadonlyArray<Weighed>,
  scores: ReadonlyArray<number>,
): { slope: number; squares: number; residualSquares: number; degreesOfFreedom: number } | undefined {
  const strata = new Map<string, { weight: number; score: number; value: number }>();
  for (const { level, value, weight, stratum } of weighed) {
    const sums = strata.get(stratum) ?? { weight: 0, score: 0, value: 0 };
    sums.weight += weight;
    sums.score += weight * scores[level]!;
    sums.value += weight * value;
    strata.set(stratum, sums);
  }
  let squares = 0;
  let product = 0;
  let whole = 0;
  for (const { level, value, weight, stratum } of weighed) {
    const sums = strata.get(stratum)!;
    const score = scores[level]! - sums.score / sums.weight;
    squares += weight * score ** 2;
    product += weight * score * (value - sums.value / sums.weight);
    whole += weight * scores[level]! ** 2;
  }
  if (!(squares > 1e-12 * whole)) return undefined;
  const slope = product / squares;
  let residualSquares = 0;
  for (const { level, value, weight, stratum } of weighed) {
    const sums = strata.get(stratum)!;
    const fitted = slope * (scores[level]! - sums.score / sums.weight);
    residualSquares += weight * (value - sums.value / sums.weight - fitted) ** 2;
  }
  return { slope, squares, residualSquares, degreesOfFreedom: Math.max(0, weighed.length - strata.size - 1) };
}

/**
 * Two levels of unlike size: each keeps its own variance, moderated halfway between what is supposed and what both show
 * together, as the few trays of one may differ more than the many of the other.
 */
function unlikeSizes(
  weighed: ReadonlyArray<Weighed>,
  levelCount: number,
  supposed: FilledSettings,
): Estimate | undefined {
  if (levelCount !== 2 || new Set(weighed.map(({ stratum }) => stratum)).size > 1) return undefined;
  if (weighed.some(({ weight }) => weight !== 1)) return undefined;
  const [low, high] = [0, 1].map((at) => weighed.filter(({ level }) => level === at).map(({ value }) => value));
  const [fewer, more] = [Math.min(low!.length, high!.length), Math.max(low!.length, high!.length)];
  if (fewer < unlike.trays || more <= unlike.ratio * fewer) return undefined;
  const [ofLow, ofHigh] = [low!, high!].map((values) => {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    const { variance, degreesOfFreedom } = moderatedVariance(squares, values.length - 1, mean, supposed);
    return { mean, square: variance / values.length, degreesOfFreedom };
  });
  const square = ofLow!.square + ofHigh!.square;
  return {
    estimate: ofHigh!.mean - ofLow!.mean,
    standardError: Math.sqrt(square),
    degreesOfFreedom:
      square ** 2 / (ofLow!.square ** 2 / ofLow!.degreesOfFreedom + ofHigh!.square ** 2 / ofHigh!.degreesOfFreedom),
  };
}
