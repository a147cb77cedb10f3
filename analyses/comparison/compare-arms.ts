import { gamesHowell } from "../../src/statistics/comparisons/games-howell.ts";
import { tukeyKramer } from "../../src/statistics/comparisons/tukey-kramer.ts";
import { meanInterval } from "../../src/statistics/descriptive/mean-interval.ts";
import { sampleStandardDeviation } from "../../src/statistics/descriptive/sample-variance.ts";
import { oneWayAnova } from "../../src/statistics/groups/one-way-anova.ts";
import { welchAnova } from "../../src/statistics/groups/welch-anova.ts";
import type { ArmComparison, ArmSummary } from "./arm-comparison.ts";
import { mixedComparison } from "./mixed-comparison.ts";
import type { Observation } from "./tray-response.ts";

/** How the arms are to be compared. */
export interface CompareArmsInput {
  observations: ReadonlyArray<Observation>;
  /** in the order wanted; each with at least two observations */
  arms: ReadonlyArray<string>;
  /** names of the groupings in `observations[].groups`, outer first; empty when trays stand on their own */
  groupNames: ReadonlyArray<string>;
  /** interval level */
  level: number;
  /** false leaves the pairs out, which take most of the time, where only the test of all levels is wanted */
  pairs?: boolean;
}

function summaries(input: CompareArmsInput): ArmSummary[] {
  return input.arms.map((arm) => {
    const own = input.observations.filter((observation) => observation.arm === arm);
    const values = own.map(({ value }) => value);
    const { mean, lower, upper } = meanInterval(values, input.level);
    const standardDeviation = sampleStandardDeviation(values);
    return {
      arm,
      dose: own[0]!.dose,
      n: own.length,
      mean,
      standardDeviation,
      adjustedMean: mean,
      low: lower,
      high: upper,
    };
  });
}

/**
 * Compares trays that stand on their own. Spreads may differ between arms, unless an arm has none (all of it lost, all
 * colonised on one day): then one spread is taken for all.
 */
function independentTrays(input: CompareArmsInput): ArmComparison {
  const arms = summaries(input);
  const values = input.arms.map((arm) => input.observations.flatMap((one) => (one.arm === arm ? [one.value] : [])));
  const degrees = values.reduce((sum, own) => sum + own.length - 1, 0);
  const squares = arms.reduce((sum, { n, standardDeviation }) => sum + (n - 1) * standardDeviation ** 2, 0);
  const everyArmVaries = arms.every(({ standardDeviation }) => standardDeviation > 0);
  const oneSpread = everyArmVaries ? undefined : oneWayAnova(values);
  const simultaneous = everyArmVaries ? gamesHowell(values, input.level) : tukeyKramer(values, input.level);
  return {
    arms,
    pairs: simultaneous.map(({ first, second, difference, lower, upper, p }) => ({
      first: input.arms[first]!,
      second: input.arms[second]!,
      difference,
      low: lower,
      high: upper,
      p,
    })),
    overall: oneSpread === undefined ? welchAnova(values) : oneSpread,
    model: everyArmVaries ? "unequal variances" : "one variance",
    residualSd: Math.sqrt(squares / degrees),
    groupings: [],
    observations: input.observations.length,
    method: [
      [
        everyArmVaries
          ? "Means compared without assuming equal spread (Welch's analysis of variance); all pairs at once by the method of Games and Howell."
          : "Means compared by one-way analysis of variance, all pairs at once by the method of Tukey and Kramer: one level does not vary at all, so spreads cannot be compared.",
      ],
    ],
    caveats: [],
  };
}

/**
 * Compares the arms of a treatment by the method its layout calls for: with cooks (or jars, loads) as random effects where
 * trays come in groups, else without assuming equal spread.
 * @returns the comparison; where the grouped model cannot be fitted, the other one, and a caveat that says why
 * @throws RangeError if an arm has fewer than two observations, or no arm varies
 */
export function compareArms(input: CompareArmsInput): ArmComparison {
  const { observations, arms, groupNames, level } = input;
  const groupsDiffer = groupNames.length > 0 && new Set(observations.map(({ groups }) => groups[0])).size > 1;
  if (!groupsDiffer) return independentTrays(input);
  try {
    const mixed = mixedComparison(observations, arms, groupNames, level, input.pairs);
    const meanOf = new Map(mixed.means.map((mean) => [mean.arm, mean]));
    const { means: _, notes, allowsFor, ...rest } = mixed;
    return {
      ...rest,
      arms: summaries(input).map((summary) => {
        const { mean, low, high } = meanOf.get(summary.arm)!;
        return { ...summary, adjustedMean: mean, low, high };
      }),
      model: "mixed model",
      observations: observations.length,
      method: [
        [
          `Mixed model with ${groupNames.join(" and ")} as random effects, fitted by restricted maximum likelihood, with degrees of freedom after Kenward and Roger${allowsFor.length === 0 ? "" : `, allowing for ${allowsFor.join(" and for ")}`}${arms.length > 2 ? "; all pairs at once by the studentised range (Tukey and Kramer)" : ""}.`,
        ],
      ],
      caveats: notes,
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const plain = independentTrays(input);
    return {
      ...plain,
      caveats: [
        [
          `The model with ${groupNames.join(" and ")} groups could not be fitted (${error.message}), so the groups are not allowed for.`,
        ],
      ],
    };
  }
}
