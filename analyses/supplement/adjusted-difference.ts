import type { Sentence } from "../../src/analysis.ts";
import type { Factor } from "../../src/design/factor.ts";
import type { TreatmentComparison } from "../comparison/compare-treatment.ts";
import { fitTerms } from "../comparison/fit-terms.ts";
import { inSentence } from "../comparison/level-text.ts";
import type { Observation } from "../comparison/tray-response.ts";

/** The difference between two levels of a treatment, the second less the first. */
export interface AdjustedDifference {
  difference: number;
  low: number;
  high: number;
  p: number;
  n: number;
  method: Sentence[];
  notes: Sentence[];
}

/** least squares without cooks is exact arithmetic and slow beyond this many trays */
const mostPlainTrays = 2000;

/** The comparison's own difference, turned the way round that is asked for. */
function plainDifference({ comparison, method }: TreatmentComparison, from: string, to: string): AdjustedDifference {
  const pair = comparison.pairs.find(({ first, second }) => first === from && second === to);
  const turned = comparison.pairs.find(({ first, second }) => first === to && second === from);
  const n = comparison.observations;
  if (pair !== undefined) {
    const { difference, low, high, p } = pair;
    return { difference, low, high, p, n, method, notes: [] };
  }
  const { difference, low, high, p } = turned!;
  return { difference: -difference, low: -high, high: -low, p, n, method, notes: [] };
}

/**
 * The difference between two levels where trays also differ in another treatment: that one is held fixed, so that what
 * it does to the yield does not blur the difference, and cooks are random. Where the other treatment does not vary, is
 * tied to this one, or the model cannot be fitted, the comparison's own difference stands.
 * @param pairs how many differences are looked at together; intervals allow for them (Bonferroni)
 */
export function adjustedDifference(
  compared: TreatmentComparison,
  beside: Factor,
  from: string,
  to: string,
  options: { level: number; pairs: number },
): AdjustedDifference {
  const plain = plainDifference(compared, from, to);
  const { observations, comparison, layout } = compared;
  const named = observations.flatMap((one): (Observation & { other: string })[] => {
    const other = beside.level(one.source);
    return other === undefined ? [] : [{ ...one, other }];
  });
  const others = new Set(named.map(({ other }) => other));
  const tied = layout.ties.some(({ factor, extent }) => factor.key === beside.key && extent === "fully");
  if (others.size < 2 || tied || named.length < observations.length) return plain;
  const groupNames = comparison.groupings.map(({ name }) => name);
  if (groupNames.length === 0 && named.length > mostPlainTrays) return plain;
  try {
    const fit = fitTerms(
      named,
      [
        { kind: "factor", name: "beside", values: named.map(({ other }) => other) },
        { kind: "factor", name: "arm", values: named.map(({ arm }) => arm), reference: from },
      ],
      groupNames,
      options.level,
    );
    const level = 1 - (1 - options.level) / options.pairs;
    const { estimate, low, high, p } = fit.contrast({ [`arm: ${to}`]: 1 }, level);
    if (![estimate, low, high].every(Number.isFinite)) return plain;
    return {
      difference: estimate,
      low,
      high,
      p: Math.min(1, p * options.pairs),
      n: named.length,
      method: [
        ...compared.method.slice(0, 1),
        [
          `${inSentence(beside.label).replace(/^./, (letter) => letter.toUpperCase())} is held fixed beside ${inSentence(layout.treatment.label)}. `,
          ...fit.method,
        ],
      ],
      notes: fit.notes,
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return {
      ...plain,
      notes: [[`The model that holds ${inSentence(beside.label)} fixed could not be fitted (${error.message}).`]],
    };
  }
}
