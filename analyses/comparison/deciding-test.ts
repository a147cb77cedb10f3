import type { Sentence } from "../../src/analysis.ts";
import type { ArmComparison } from "./arm-comparison.ts";
import { compareArms } from "./compare-arms.ts";
import { leastPossibleP, permutationTest, tinyTrial } from "./permutation-test.ts";
import { growsInProportion, spreadExponent } from "./spread-with-mean.ts";
import type { Observation } from "./tray-response.ts";
import { unitValues } from "./unit-values.ts";

/** What says whether the levels differ at all. */
export interface Decision {
  by: "model" | "logarithms" | "permutation";
  p: number;
  /** the arms compared on natural logarithms: differences there are ratios; present when `by` is "logarithms" */
  logged?: ArmComparison;
  method: Sentence[];
  caveats: Sentence[];
}

/** What the decision is made from. */
export interface DecisionInput {
  observations: ReadonlyArray<Observation>;
  arms: ReadonlyArray<string>;
  groupNames: ReadonlyArray<string>;
  /** the treatment went to whole jars, cooks or chambers */
  wholeGroups: boolean;
  /** interval level */
  level: number;
  /** significance level */
  alpha: number;
  seed: number;
}

/** The same trays with the natural logarithm of their value. */
const inLogarithms = (observations: ReadonlyArray<Observation>): Observation[] =>
  observations.map((one) => ({ ...one, value: Math.log(one.value) }));

function byDealing(input: DecisionInput): Decision | undefined {
  const values = unitValues(input.observations, input.wholeGroups);
  if (values.length > tinyTrial) return undefined;
  try {
    const { p, possible, method } = permutationTest(values, input.seed);
    const least = leastPossibleP(values, possible);
    const units = input.wholeGroups ? `${input.groupNames.at(-1) ?? "group"} means` : "trays";
    return {
      by: "permutation",
      p,
      method: [
        [
          `With only ${values.length} ${units} the shape of their scatter cannot be checked, so whether levels differ is decided by dealing the levels again ${input.groupNames.length > 0 && !input.wholeGroups ? `within each ${input.groupNames[0]} ` : ""}in ${method === "exact" ? `all ${possible.toLocaleString("en")} ways` : "many ways drawn at random"} (permutation test), p = ${p.toPrecision(2)}; ranges are the model's.`,
        ],
      ],
      caveats:
        least < input.alpha
          ? []
          : [
              [
                `So few ${units} can never be called clear: however far apart they fell, p could not be below ${least.toPrecision(2)}.`,
              ],
            ],
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return undefined; // blocks leave nothing to deal again; the model still has its say
  }
}

function byLogarithms(input: DecisionInput): Decision | undefined {
  if (!input.observations.every(({ value }) => value > 0)) return undefined;
  const found = spreadExponent(input.observations);
  if (!growsInProportion(found)) return undefined;
  const logged = compareArms({ ...input, observations: inLogarithms(input.observations) });
  return {
    by: "logarithms",
    p: logged.overall.p,
    logged,
    method: [
      [
        `Spread grows with the mean (as its power ${found.exponent.toPrecision(2)}, standard error ${found.standardError.toPrecision(2)}, from ${found.cells} groups of trays), so whether levels differ is decided on logarithms, where differences are ratios; differences in weight are told beside them, each level with a spread of its own.`,
      ],
    ],
    caveats: [],
  };
}

/**
 * Chooses what decides: dealing the levels again where units are very few, logarithms where spread grows in proportion to
 * the mean, else the model's own test.
 */
export function decidingTest(input: DecisionInput, model: ArmComparison): Decision {
  return byDealing(input) ?? byLogarithms(input) ?? { by: "model", p: model.overall.p, method: [], caveats: [] };
}

/** The p of one way of deciding, asked of other trays of the same trial. */
export function decidedAgain(by: Decision["by"], input: DecisionInput): number {
  if (by === "permutation") return permutationTest(unitValues(input.observations, input.wholeGroups), input.seed).p;
  const observations = by === "logarithms" ? inLogarithms(input.observations) : input.observations;
  return compareArms({ ...input, observations, pairs: false }).overall.p;
}
