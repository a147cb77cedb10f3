import type { Sentence } from "../../src/analysis.ts";
import { studentTQuantile, studentTTwoTailed } from "../../src/statistics/distributions/student-t.ts";
import {
  studentizedRangeQuantile,
  studentizedRangeUpperTail,
} from "../../src/statistics/distributions/studentized-range.ts";
import { contrastTest } from "../../src/statistics/mixed-models/contrast-test.ts";
import { estimatedMeans } from "../../src/statistics/mixed-models/estimated-means.ts";
import { fitMixedModel, type MixedModel } from "../../src/statistics/mixed-models/fit-mixed-model.ts";
import { termTests } from "../../src/statistics/mixed-models/term-tests.ts";
import { armCells, levelsKey, unitMeans } from "./arm-cells.ts";
import type { PairDifference } from "./arm-comparison.ts";
import { type AloneEstimate, armsAlone, armsByGroup, groupsHolding } from "./arms-alone.ts";
import { heterogeneousVariance } from "./heterogeneous-variance.ts";
import type { Observation } from "./tray-response.ts";

/** What a mixed model says of the arms. */
export interface MixedComparison {
  means: { arm: string; mean: number; low: number; high: number }[];
  pairs: PairDifference[];
  overall: { f: number; numeratorDf: number; denominatorDf: number; p: number };
  /** between trays of one arm and innermost group */
  residualSd: number;
  /** one per grouping, outer first */
  groupings: { name: string; sd: number; groups: number }[];
  /** standard deviation of what a group does to one arm alone; absent where nothing in the layout can show it */
  armInGroupSd?: number;
  notes: Sentence[];
  /** what the model allows for beyond the groupings themselves */
  allowsFor: string[];
}

/**
 * Degrees of freedom from which an estimate of 0 for arms in groups is taken at its word. With fewer, dropping the level
 * lets a gain that differs from group to group raise up to 7% false alarms at a nominal 5 (two arms, three groups); from
 * four on it stays within 6 (balanced analysis of variance, simulated over the ratio of the two variances).
 */
const enoughToDrop = 4;

/** The fit with arms in groups as a level of their own; without it where it shows nothing, or so few trays cannot carry it. */
function deepest(
  fitted: (cells: boolean) => MixedModel,
  cellDegrees: number,
): { fit: MixedModel; armInGroup: number | undefined } {
  try {
    const fit = fitted(true);
    const cell = fit.components[1]!;
    return cell.atBoundary && cellDegrees >= enoughToDrop
      ? { fit: fitted(false), armInGroup: 0 }
      : { fit, armInGroup: cell.standardDeviation };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { fit: fitted(false), armInGroup: undefined };
  }
}

/** Standard deviation within the innermost groups. */
function scatterWithin(observations: ReadonlyArray<Observation>): { sd: number; degrees: number } {
  const cells = armCells(observations, ({ groups, arm }) => levelsKey([...groups, arm]));
  const degrees = observations.length - cells.length;
  const squares = cells.reduce((sum, cell) => sum + cell.squares, 0);
  return { sd: degrees > 0 ? Math.sqrt(squares / degrees) : 0, degrees };
}

/** The model fitted, and what it was fitted to. */
interface FittedArms {
  fit: MixedModel;
  /** trays, or the means of the inner units where these are what counts */
  used: ReadonlyArray<Observation>;
  byUnit: boolean;
  /** groupings in the model, outer first */
  names: ReadonlyArray<string>;
  /** what an arm in a group is called in the model */
  cellName: string;
  armInGroup: number | undefined;
  precise: ReturnType<typeof heterogeneousVariance>;
}

/** @throws RangeError as mixedComparison */
function fitArms(
  observations: ReadonlyArray<Observation>,
  arms: ReadonlyArray<string>,
  groupNames: ReadonlyArray<string>,
): FittedArms {
  const innermost = new Set(observations.map(({ groups, arm }) => levelsKey([...groups, arm]))).size;
  const cellCount = armCells(observations).length;
  // several jars of one arm in one cook: jars are what counts, and the arm in a cook is a level of its own above them
  const byUnit = groupNames.length > 1 && innermost > cellCount;
  const used = byUnit ? unitMeans(observations) : observations;
  const names = byUnit ? groupNames.slice(0, 1) : groupNames;
  const outer = new Set(used.map(({ groups }) => groups[0]!)).size;
  const wantCells = names.length === 1 && cellCount > outer && used.length > cellCount;
  const cellName = `level within ${names[0]}`;
  const fitted = (cells: boolean) =>
    fitMixedModel({
      response: used.map(({ value }) => value),
      terms: [{ kind: "factor", name: "arm", values: used.map(({ arm }) => arm), reference: arms[0]! }],
      random: [
        ...names.map((name, depth) => ({
          name,
          groups: used.map(({ groups }) => groups[depth]!),
          ...(depth > 0 ? { within: names[depth - 1]! } : {}),
        })),
        ...(cells ? [{ name: cellName, groups: used.map(({ arm }) => arm), within: names[0]! }] : []),
      ],
    });
  const { fit, armInGroup } = wantCells
    ? deepest(fitted, cellCount - outer - arms.length + 1)
    : { fit: fitted(false), armInGroup: undefined };
  const [group, cell] = fit.components;
  const precise = heterogeneousVariance(armCells(used), arms, {
    group: group!.variance,
    cell: cell?.variance ?? 0,
    residual: fit.residual.variance,
    onlyScatter: cell === undefined && cellCount > outer,
  });
  return { fit, used, byUnit, names, cellName, armInGroup, precise };
}

/** An estimate of the pooled model, made an estimate with each arm's own scatter. */
type Precisely = (pooled: AloneEstimate, own: readonly [string] | readonly [string, string]) => AloneEstimate;

function preciselyOf({ precise, used }: FittedArms, arms: ReadonlyArray<string>): Precisely {
  const held = armsByGroup(used);
  return (pooled, own) => {
    if (precise === undefined) return pooled;
    const weights = arms.map((arm) => (arm === own.at(-1) ? 1 : arm === own[0] ? -1 : 0));
    const corrected = { estimate: pooled.estimate, ...precise(weights, pooled) };
    // less sure than these arms are by themselves: the others only drown what they have in common
    if (corrected.df >= Math.min(pooled.df, groupsHolding(held, own) - 1)) return corrected;
    const alone = armsAlone(used, own);
    return alone !== undefined && alone.df > corrected.df ? alone : corrected;
  };
}

type Means = ReadonlyMap<string, ReturnType<typeof estimatedMeans>[number]>;

/** Differences of all pairs, with simultaneous intervals. */
function pairsOf(
  fit: MixedModel,
  arms: ReadonlyArray<string>,
  meanOf: Means,
  precisely: Precisely,
  level: number,
): PairDifference[] {
  const reaches = new Map<number, number>();
  return arms.flatMap((first, a) =>
    arms.slice(a + 1).map((second): PairDifference => {
      const [from, to] = [meanOf.get(first)!, meanOf.get(second)!];
      const contrast = contrastTest(
        fit,
        to.weights.map((weight, index) => weight - from.weights[index]!),
        { level },
      );
      const { estimate, standardError, df } = precisely(contrast, [first, second]);
      const t = Math.abs(estimate) / standardError;
      const two = arms.length === 2;
      const reach =
        standardError * (two ? studentTQuantile((1 + level) / 2, df) : rangeReach(level, arms.length, df, reaches));
      return {
        first,
        second,
        difference: estimate,
        low: estimate - reach,
        high: estimate + reach,
        p: two ? studentTTwoTailed(t, df) : studentizedRangeUpperTail(t * Math.SQRT2, arms.length, df),
      };
    }),
  );
}

/**
 * Compares arms with the group (cook, jar, load) as a random intercept: within groups where they hold several arms, between
 * groups where they do not. Where groups hold several trays of several arms, what a group does to one arm alone is a second
 * random effect: without it a gain that differs from cook to cook passes for a gain. Each arm keeps its own scatter within
 * groups. Intervals of pairs are simultaneous (studentised range with the degrees of freedom of each pair).
 * @param observations each with a level for every grouping
 * @param arms in the order wanted
 * @param groupNames one grouping, or two of which the second is read inside the first
 * @param withPairs false leaves the pairs out
 * @throws RangeError where the model cannot be fitted: too few observations or groups, or no variation
 */
export function mixedComparison(
  observations: ReadonlyArray<Observation>,
  arms: ReadonlyArray<string>,
  groupNames: ReadonlyArray<string>,
  level: number,
  withPairs = true,
): MixedComparison {
  const model = fitArms(observations, arms, groupNames);
  const { fit, used, byUnit, names, cellName, armInGroup, precise } = model;
  const { f, numeratorDf, denominatorDf, p } = termTests(fit)[0]!;
  const meanOf: Means = new Map(estimatedMeans(fit, ["arm"], { level }).map((mean) => [mean.levels.arm!, mean]));
  const precisely = preciselyOf(model, arms);
  const scatter = scatterWithin(observations);
  return {
    means: arms.map((arm) => {
      const { estimate, standardError, df } = precisely(meanOf.get(arm)!, [arm]);
      const reach = standardError * studentTQuantile((1 + level) / 2, df);
      return { arm, mean: estimate, low: estimate - reach, high: estimate + reach };
    }),
    pairs: withPairs ? pairsOf(fit, arms, meanOf, precisely, level) : [],
    overall: { f, numeratorDf, denominatorDf, p },
    residualSd: byUnit && scatter.degrees > 0 ? scatter.sd : fit.residual.standardDeviation,
    groupings: [
      ...fit.components
        .slice(0, names.length)
        .map(({ name, standardDeviation, groups }) => ({ name, sd: standardDeviation, groups })),
      ...(byUnit ? [{ name: groupNames[1]!, sd: fit.residual.standardDeviation, groups: used.length }] : []),
    ],
    ...(armInGroup === undefined ? {} : { armInGroupSd: armInGroup }),
    notes: fit.notes.filter((note) => !note.includes(cellName)).map((note) => [note]),
    allowsFor: [
      ...(armInGroup === undefined ? [] : [`what one ${names[0]} does to one level alone`]),
      ...(byUnit ? [`each ${groupNames[1]} counted once`] : []),
      ...(precise === undefined ? [] : ["each level's own scatter"]),
    ],
  };
}

/** Half the studentised range over the standard error of a difference, which is slow to find. @param known by degrees of freedom */
function rangeReach(level: number, arms: number, df: number, known: Map<number, number>): number {
  const key = Number(df.toPrecision(12));
  const reach = known.get(key) ?? studentizedRangeQuantile(level, arms, df) / Math.SQRT2;
  known.set(key, reach);
  return reach;
}
