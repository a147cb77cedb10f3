import type { Sentence } from "../../src/analysis.ts";
import {
  studentizedRangeQuantile,
  studentizedRangeUpperTail,
} from "../../src/statistics/distributions/studentized-range.ts";
import { contrastTest } from "../../src/statistics/mixed-models/contrast-test.ts";
import { estimatedMeans } from "../../src/statistics/mixed-models/estimated-means.ts";
import { fitMixedModel } from "../../src/statistics/mixed-models/fit-mixed-model.ts";
import { termTests } from "../../src/statistics/mixed-models/term-tests.ts";
import type { PairDifference } from "./arm-comparison.ts";
import type { Observation } from "./tray-response.ts";

/** What a mixed model says of the arms. */
export interface MixedComparison {
  means: { arm: string; mean: number; low: number; high: number }[];
  pairs: PairDifference[];
  overall: { f: number; numeratorDf: number; denominatorDf: number; p: number };
  residualSd: number;
  /** one per grouping, outer first */
  groupings: { name: string; sd: number; groups: number }[];
  notes: Sentence[];
}

/**
 * Compares arms with the group (cook, jar, load) as a random intercept: within groups where they hold several arms, between
 * groups where they do not. Intervals of pairs are simultaneous (Tukey-Kramer with the model's own degrees of freedom).
 * @param observations each with a level for every grouping
 * @param arms in the order wanted
 * @param groupNames one grouping, or two of which the second is read inside the first
 * @throws RangeError where the model cannot be fitted: too few observations or groups, or no variation
 */
export function mixedComparison(
  observations: ReadonlyArray<Observation>,
  arms: ReadonlyArray<string>,
  groupNames: ReadonlyArray<string>,
  level: number,
): MixedComparison {
  const fit = fitMixedModel({
    response: observations.map(({ value }) => value),
    terms: [{ kind: "factor", name: "arm", values: observations.map(({ arm }) => arm), reference: arms[0]! }],
    random: groupNames.map((name, depth) => ({
      name,
      groups: observations.map(({ groups }) => groups[depth]!),
      ...(depth > 0 ? { within: groupNames[depth - 1]! } : {}),
    })),
  });
  const overall = termTests(fit)[0]!;
  const means = estimatedMeans(fit, ["arm"], { level });
  const meanOf = new Map(means.map((mean) => [mean.levels.arm!, mean]));
  const pairs = arms.flatMap((first, a) =>
    arms.slice(a + 1).map((second): PairDifference => {
      const [from, to] = [meanOf.get(first)!, meanOf.get(second)!];
      const contrast = contrastTest(
        fit,
        to.weights.map((weight, index) => weight - from.weights[index]!),
        { level },
      );
      if (arms.length === 2) {
        return {
          first,
          second,
          difference: contrast.estimate,
          low: contrast.lower,
          high: contrast.upper,
          p: contrast.p,
        };
      }
      const reach = (studentizedRangeQuantile(level, arms.length, contrast.df) / Math.SQRT2) * contrast.standardError;
      return {
        first,
        second,
        difference: contrast.estimate,
        low: contrast.estimate - reach,
        high: contrast.estimate + reach,
        p: studentizedRangeUpperTail(Math.abs(contrast.t) * Math.SQRT2, arms.length, contrast.df),
      };
    }),
  );
  return {
    means: arms.map((arm) => {
      const { estimate, lower, upper } = meanOf.get(arm)!;
      return { arm, mean: estimate, low: lower, high: upper };
    }),
    pairs,
    overall: { f: overall.f, numeratorDf: overall.numeratorDf, denominatorDf: overall.denominatorDf, p: overall.p },
    residualSd: fit.residual.standardDeviation,
    groupings: fit.components.map(({ name, standardDeviation, groups }) => ({ name, sd: standardDeviation, groups })),
    notes: fit.notes.map((note) => [note]),
  };
}
