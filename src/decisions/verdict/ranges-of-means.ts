import { dunnett } from "../../statistics/comparisons/dunnett.ts";
import { studentTQuantile } from "../../statistics/distributions/student-t.ts";
import type { VerdictSettings } from "./compared-tray.ts";
import type { Decision, Interval, Level } from "./decision.ts";
import type { Estimate } from "./estimate.ts";
import { fillSettings } from "./fill-settings.ts";

/** The mean of one level with the range it plausibly lies in. */
export interface MeanRange extends Interval {
  level: Level;
  /** over the same cooks where there are several */
  mean: number;
}

/** What the means of a decision share. */
interface CommonError {
  levels: { level: Level; mean: number; count: number }[];
  /** of one unit: a tray in one cook, a level's value of a cook among several */
  variance: number;
  degreesOfFreedom: number;
}

/** Levels that the decision compared: not those left out because they never stood beside the others. */
function comparedLevels({ levels }: Decision): Decision["levels"] {
  const adjusted = levels.filter((level) => level.adjusted !== undefined);
  return adjusted.length > 0 ? adjusted : levels;
}

/** Several cooks: the error of the difference, shared out over the means that make it. */
function errorOverCooks(decision: Decision, of: Errors): CommonError | undefined {
  const { difference, errors, cooks } = decision;
  const known = comparedLevels(decision).flatMap(({ level, adjusted, mean = adjusted }) =>
    mean === undefined ? [] : [{ level, mean: adjusted ?? mean, count: cooks }],
  );
  if (errors === undefined || difference === undefined || known.length < 2) return undefined;
  const parts = difference.from === undefined ? 1 + 1 / (known.length - 1) : 2;
  const { standardError, degreesOfFreedom } = errors[of];
  return { levels: known, variance: (cooks * standardError ** 2) / parts, degreesOfFreedom };
}

/** One cook: trays of one level, with what is supposed of how far trays differ. */
function errorInOneCook({ levels, traySpread }: Decision, settings: VerdictSettings): CommonError | undefined {
  const known = levels.flatMap(({ level, mean, started, lost }) =>
    mean === undefined ? [] : [{ level, mean, count: started - lost }],
  );
  const trays = known.reduce((sum, { count }) => sum + count, 0);
  if (known.length < 2) return undefined;
  const overall = known.reduce((sum, { mean, count }) => sum + (mean * count) / trays, 0);
  const { traySd, traySdDf } = fillSettings(settings);
  const { variance, degreesOfFreedom } = traySpread ?? { variance: 0, degreesOfFreedom: 0 };
  const freedom = traySdDf + degreesOfFreedom;
  return {
    levels: known,
    variance: (traySdDf * traySd(overall) ** 2 + degreesOfFreedom * variance) / freedom,
    degreesOfFreedom: freedom,
  };
}

/** Which error of a difference: as tested, or with what few cooks hide allowed for. */
type Errors = "settled" | "supposed";

/** The error that the difference itself is shown with, so that a mean and a difference never say two things. */
const shownError = ({ verdict, errors }: Decision): Errors =>
  verdict === "settled" && errors !== undefined && errors.settled.standardError > 0 ? "settled" : "supposed";

function commonError(
  decision: Decision,
  settings: VerdictSettings,
  of = shownError(decision),
): CommonError | undefined {
  if (decision.method === "means-only") return undefined;
  const found = decision.method === "one-cook" ? errorInOneCook(decision, settings) : errorOverCooks(decision, of);
  return found !== undefined && found.variance > 0 ? found : undefined;
}

/**
 * Every level's mean with its 95 % range, from the decision's own error. What cooks have in common is not in it, so ranges
 * compare levels with one another; a next cook may lie higher or lower as a whole.
 * @param settings those of the decision
 * @returns none where nothing is compared
 * @source mean with a pooled variance, a t interval; for one cook the variance of section "one cook" in the engine
 * @example rangesOfMeans(decideComparison(comparedTrays))[0].level // 3
 */
export function rangesOfMeans(decision: Decision, settings: VerdictSettings = {}): MeanRange[] {
  const common = commonError(decision, settings);
  if (common === undefined) return [];
  const t = studentTQuantile(0.975, common.degreesOfFreedom);
  return common.levels.map(({ level, mean, count }) => {
    const half = t * Math.sqrt(common.variance / count);
    return { level, mean, lower: mean - half, upper: mean + half };
  });
}

/** What one level gives more than another they are all measured against; the limits hold for all levels at once. */
export interface Gain extends Estimate, Interval {
  level: Level;
}

/**
 * Every level against the usual one, on the decision's own error. It has no verdict of its own.
 * @param usual a level of the decision
 * @returns none where nothing is compared, or the usual level has no mean
 * @source Dunnett 1955, Journal of the American Statistical Association 50:1096-1121
 * @example againstUsual(decideComparison(comparedTrays), 3).length // 2
 */
export function againstUsual(
  decision: Decision,
  usual: Level,
  settings: VerdictSettings = {},
  of = shownError(decision),
): Gain[] {
  const common = commonError(decision, settings, of);
  const control = common?.levels.findIndex(({ level }) => level === usual) ?? -1;
  if (common === undefined || control < 0) return [];
  const { variance, degreesOfFreedom } = common;
  const input = {
    means: common.levels.map(({ mean }) => mean),
    counts: common.levels.map(({ count }) => count),
    errorVariance: variance,
    degreesOfFreedom,
  };
  return dunnett(input, control).map(({ group, difference, ...rest }) => ({
    level: common.levels[group]!.level,
    estimate: difference,
    degreesOfFreedom,
    ...rest,
  }));
}

/**
 * What every other level gives more than one of them, to be judged against a price, so with what few cooks hide: of two levels the decision's own difference.
 * @returns none where nothing is compared, or no interval holds
 * @source Dunnett 1955, Journal of the American Statistical Association 50:1096-1121
 * @example gainsOver(decideComparison(comparedTrays.filter(({ level }) => level !== 6)), 3).length // 1
 */
export function gainsOver(decision: Decision, level: Level, settings: VerdictSettings = {}): Gain[] {
  const { difference } = decision;
  if (difference?.interval === undefined) return [];
  const { from, to, interval, estimate, standardError, degreesOfFreedom } = difference;
  if (comparedLevels(decision).length > 2) return againstUsual(decision, level, settings, "supposed");
  if (level === from) return [{ level: to, estimate, standardError, degreesOfFreedom, ...interval }];
  if (level !== to || from === undefined) return [];
  return [
    {
      level: from,
      estimate: -estimate,
      standardError,
      degreesOfFreedom,
      lower: -interval.upper,
      upper: -interval.lower,
    },
  ];
}
