import { cholesky } from "../linear-algebra/cholesky.ts";
import { type OrthonormalColumns, orthonormalColumns, removeParts } from "../linear-algebra/orthonormal-columns.ts";
import { type DesignColumn, designColumns, type ModelTerm } from "../linear-models/design-columns.ts";
import { requireSample } from "../require-numbers.ts";
import { type NumberedFactor, numberRandomFactors, type RandomFactor } from "./random-factor.ts";
import { randomStructure } from "./random-structure.ts";
import { type VarianceModel, type VarianceState, varianceState } from "./variance-likelihood.ts";
import { maximumLikelihoodVariances, subMatrix } from "./variance-search.ts";
import { withinGroupVariation } from "./within-group-variation.ts";

/** What to fit. */
export interface MixedModelInput {
  /** the measurement, one number per observation */
  response: ReadonlyArray<number>;
  /** the fixed part; an intercept is always there. Empty for a mean only */
  terms: ReadonlyArray<ModelTerm>;
  /** the groupings that add a random intercept: one, two nested (the outer first), or several crossed */
  random: ReadonlyArray<RandomFactor>;
}

/** A variance and where it sits. */
export interface VarianceComponent {
  name: string;
  /** in the response's unit squared */
  variance: number;
  standardDeviation: number;
  /** true when the likelihood is highest at variance 0 */
  atBoundary: boolean;
}

/** A fitted linear mixed model. */
export interface MixedModel {
  coefficientNames: string[];
  /** one per random grouping, in the order given */
  components: VarianceComponent[];
  residual: VarianceComponent;
  /** plain sentences a report should pass on: variance at 0, columns left out */
  notes: string[];
  /** what `contrastTest` works on */
  working: WorkingModel;
}

/** Internals in the coordinates of perpendicular columns and of a response scaled to residual deviation 1. */
export interface WorkingModel {
  /** of the perpendicular columns */
  triangle: Float64Array[];
  state: VarianceState;
  /** scaled response residual times this is in the response's unit */
  scale: number;
  /** fixed effects along the perpendicular columns, in the response's unit */
  effects: Float64Array;
}

/**
 * Linear mixed model with random intercepts, by restricted maximum likelihood.
 * One grouping or two nested ones cost time in proportion to the observations; crossed groupings cost the cube of the
 * number of groups.
 * @throws RangeError if a number is not finite, lengths differ, there is nothing left to estimate variances from, the fixed
 *   part explains every difference between groups, or observations do not vary within groups
 * @source Searle, Casella and McCulloch 1992, Variance Components, chapter 6 (from memory); Patterson and Thompson 1971,
 *   Biometrika 58(3):545-554
 * @example fitMixedModel({ response: [10, 12, 20, 22], terms: [], random: [{ name: "cook", groups: ["a", "a", "b", "b"] }] }).components[0].variance // 49
 * @example
 * const fit = fitMixedModel({
 *   response: [20, 24, 27, 22, 27, 29, 30, 33, 38, 26, 29, 33],
 *   terms: [{ kind: "factor", name: "dose", values: ["3", "6", "9", "3", "6", "9", "3", "6", "9", "3", "6", "9"] }],
 *   random: [{ name: "cook", groups: ["a", "a", "a", "b", "b", "b", "c", "c", "c", "d", "d", "d"] }],
 * });
 * fit.coefficientNames[2] // "dose: 9"
 */
export function fitMixedModel(input: MixedModelInput): MixedModel {
  const routine = "fitMixedModel";
  requireSample(routine, "response", input.response, 2);
  const count = input.response.length;
  const design = designColumns(routine, input.terms, count);
  const factors = numberRandomFactors(routine, input.random, count);
  const columns = orthonormalColumns(design.map((column) => column.values));
  const rank = columns.basis.length;
  if (count - rank < 2) {
    throw new RangeError(`${routine}: ${rank} fixed columns need at least ${rank + 2} observations; received ${count}`);
  }
  const residual = Float64Array.from(input.response);
  const spread = spreadOf(input.response);
  const effects = removeParts(residual, columns.basis);
  const left = Math.sqrt(residual.reduce((sum, value) => sum + value * value, 0));
  if (!(left > 1e-12 * spread)) {
    throw new RangeError(`${routine}: the response must vary around the fixed effects; what is left is ${left}`);
  }
  const scale = left / Math.sqrt(count - rank);
  const scaled = residual.map((value) => value / scale);
  const withResponse = [...columns.basis, scaled];
  const structure = randomStructure(withResponse, factors);
  const finest = factors.reduce((a, b) => (b.groups > a.groups ? b : a));
  if (
    structure.layout !== "crossed groupings" &&
    withinGroupVariation(columns.basis, scaled, finest.index, finest.groups) < 1e-16 * count
  ) {
    throw new RangeError(`${routine}: the response must vary within groups of "${finest.name}"; it does not`);
  }
  const designLogDeterminant = columns.triangle.reduce((sum, row, k) => sum + 2 * Math.log(Math.abs(row[k]!)), 0);
  const model: VarianceModel = { structure, columns: rank, kind: "REML", designLogDeterminant };
  requireGroupDifferences(routine, model, factors);
  const state = maximumLikelihoodVariances(model, factors.length);
  for (let k = 0; k < rank; k++) effects[k]! += scale * state.effects[k]!;
  requireSeparable(state);
  const component = (name: string, i: number): VarianceComponent => ({
    name,
    variance: state.variances[i]! * scale * scale,
    standardDeviation: Math.sqrt(state.variances[i]!) * scale,
    atBoundary: state.variances[i] === 0,
  });
  const components = factors.map((factor, f) => component(factor.name, f + 1));
  return {
    coefficientNames: columns.kept.map((position) => design[position]!.name),
    components,
    residual: component("residual", 0),
    notes: notesOn(components, columns, design),
    working: { triangle: columns.triangle, state, scale, effects },
  };
}

/** Plain sentences on what a reader should know of a fit. */
function notesOn(
  components: ReadonlyArray<VarianceComponent>,
  { kept, collinear }: OrthonormalColumns,
  design: ReadonlyArray<DesignColumn>,
): string[] {
  return [
    ...components
      .filter((one) => one.atBoundary)
      .map(
        (one) =>
          `The variance between groups of "${one.name}" is estimated as 0: they differ no more than chance within groups would make them.`,
      ),
    ...collinear.map(({ column, multiples }) => {
      const others = kept.filter((_, k) => multiples[k] !== 0).map((position) => design[position]!.name);
      return `Column "${design[column]!.name}" is left out: ${others.join(", ") || "it is 0 throughout, and nothing"} determines it.`;
    }),
  ];
}

function spreadOf(values: ReadonlyArray<number>): number {
  const largest = values.reduce((max, value) => Math.max(max, Math.abs(value)), 0);
  return largest * Math.sqrt(values.length);
}

/** Fails when a grouping's variance has no bearing on anything the fixed part leaves over. */
function requireGroupDifferences(routine: string, model: VarianceModel, factors: ReadonlyArray<NumberedFactor>): void {
  const noVariance = Float64Array.of(1, ...factors.map(() => 0));
  const left = varianceState({ ...model, kind: "REML" }, noVariance)!.expectedHessian;
  const whole = varianceState({ ...model, kind: "ML" }, noVariance)!.expectedHessian;
  factors.forEach((factor, f) => {
    const share = left[f + 1]![f + 1]! / whole[f + 1]![f + 1]!;
    if (!(share > 1e-12)) {
      throw new RangeError(
        `${routine}: the fixed terms already account for every difference between groups of "${factor.name}"`,
      );
    }
  });
}

/** Fails where the likelihood is flat over the variances above 0. */
function requireSeparable(state: VarianceState): void {
  const inside = [...state.variances.keys()].filter((i) => state.variances[i]! > 0);
  if (cholesky(subMatrix(state.hessian, inside)) === undefined) {
    throw new RangeError("fitMixedModel: the variances cannot be separated in this design (flat likelihood)");
  }
}
