import { cholesky } from "../linear-algebra/cholesky.ts";
import { type Matrix, multiplyVector } from "../linear-algebra/dense-matrix.ts";
import { ordinary } from "../linear-algebra/ordinary-columns.ts";
import { type OrthonormalColumns, orthonormalColumns, removeParts } from "../linear-algebra/orthonormal-columns.ts";
import { solveUpper } from "../linear-algebra/triangle.ts";
import type { ModelTerm } from "../linear-models/model-term.ts";
import { requireSample } from "../require-numbers.ts";
import { type FixedColumn, fixedDesign } from "./fixed-design.ts";
import { type KenwardRoger, kenwardRoger } from "./kenward-roger.ts";
import { type NumberedFactor, numberRandomFactors, type RandomFactor } from "./random-factor.ts";
import { randomStructure } from "./random-structure.ts";
import { type LikelihoodKind, type VarianceModel, type VarianceState, varianceState } from "./variance-likelihood.ts";
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
  /** restricted likelihood unless stated: use ML only to compare models with different fixed parts */
  method?: LikelihoodKind;
}

/** A variance and where it sits. All in the response's unit squared. */
export interface VarianceComponent {
  name: string;
  variance: number;
  standardDeviation: number;
  /** from the curvature of the likelihood; poor for few groups. 0 when at the boundary */
  standardError: number;
  /** number of groups; number of observations for the residual */
  groups: number;
  /** true when the likelihood is highest at variance 0 */
  atBoundary: boolean;
}

/** A fitted linear mixed model. */
export interface MixedModel {
  method: LikelihoodKind;
  observations: number;
  coefficientNames: string[];
  /** in the response's unit per unit of the column */
  coefficients: number[];
  /** model-based, not yet corrected for the estimated variances (see `contrastTest`) */
  standardErrors: number[];
  covariance: number[][];
  /** one per random grouping, in the order given */
  components: VarianceComponent[];
  residual: VarianceComponent;
  /** log likelihood, restricted under REML; it counts log |X'X| of the columns as given */
  logLikelihood: number;
  /** -2 times the log likelihood */
  deviance: number;
  /** columns left out because others already determine them, by name */
  collinear: { column: string; determinedBy: string[] }[];
  /** plain sentences a report should pass on: variance at 0, columns left out */
  notes: string[];
  /** what the other routines of this folder work on */
  working: WorkingModel;
}

/** Internals in the coordinates of perpendicular columns and of a response scaled to residual deviation 1. */
export interface WorkingModel {
  design: FixedColumn[];
  columns: OrthonormalColumns;
  factors: NumberedFactor[];
  model: VarianceModel;
  state: VarianceState;
  /** scaled response residual times this is in the response's unit */
  scale: number;
  /** fixed effects along the perpendicular columns, in the response's unit */
  effects: Float64Array;
  /** covariance of the variances (residual first), scaled; rows of variances at the boundary are 0 */
  varianceCovariance: Matrix;
  /** what Kenward and Roger's correction needs, worked out when first asked for; only of a REML fit */
  correction(): KenwardRoger;
}

/**
 * Linear mixed model with random intercepts, by restricted or full maximum likelihood.
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
 * fit.coefficients[2] // 7.25
 */
export function fitMixedModel(input: MixedModelInput): MixedModel {
  const routine = "fitMixedModel";
  const kind = input.method ?? "REML";
  requireSample(routine, "response", input.response, 2);
  const count = input.response.length;
  const design = fixedDesign(routine, input.terms, count);
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
  const model: VarianceModel = { structure, columns: rank, kind, designLogDeterminant };
  requireGroupDifferences(routine, model, factors);
  const state = maximumLikelihoodVariances(model, factors.length);
  for (let k = 0; k < rank; k++) effects[k]! += scale * state.effects[k]!;
  const varianceCovariance = covarianceOfVariances(state);
  let correction: KenwardRoger | undefined;
  const working: WorkingModel = {
    design,
    columns,
    factors,
    model,
    state,
    scale,
    effects,
    varianceCovariance,
    correction: () => (correction ??= kenwardRoger(state)),
  };
  return describe(working, input.response.length);
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

/** Twice the inverse of the observed second derivatives of the deviance, over the variances above 0. */
function covarianceOfVariances(state: VarianceState): Matrix {
  const size = state.variances.length;
  const inside = [...state.variances.keys()].filter((i) => state.variances[i]! > 0);
  const inverse = cholesky(subMatrix(state.hessian, inside))?.inverse();
  if (inverse === undefined) {
    throw new RangeError("fitMixedModel: the variances cannot be separated in this design (flat likelihood)");
  }
  const covariance = Array.from({ length: size }, () => new Float64Array(size));
  inside.forEach((i, a) => {
    inside.forEach((j, b) => {
      covariance[i]![j] = 2 * inverse[a]![b]!;
    });
  });
  return covariance;
}

function describe(working: WorkingModel, observations: number): MixedModel {
  const { design, columns, factors, model, state, scale } = working;
  const names = columns.kept.map((position) => design[position]!.name);
  const back = names.map((_, k) =>
    solveUpper(
      ordinary,
      columns.triangle,
      names.map((__, i) => (i === k ? 1 : 0)),
    ),
  );
  const covariance = names.map((_, a) =>
    names.map((__, b) => {
      // row a of the inverse triangle is entry a of each of its columns
      const rowA = back.map((column) => column[a]!);
      const rowB = back.map((column) => column[b]!);
      const carried = multiplyVector(state.covariance, rowB);
      return scale * scale * rowA.reduce((sum, value, k) => sum + value * carried[k]!, 0);
    }),
  );
  const component = (name: string, i: number, groups: number): VarianceComponent => ({
    name,
    variance: state.variances[i]! * scale * scale,
    standardDeviation: Math.sqrt(state.variances[i]!) * scale,
    standardError: Math.sqrt(working.varianceCovariance[i]![i]!) * scale * scale,
    groups,
    atBoundary: state.variances[i] === 0,
  });
  const divisor = observations - (model.kind === "REML" ? model.columns : 0);
  const deviance = state.deviance + 2 * divisor * Math.log(scale);
  const collinear = columns.collinear.map(({ column, multiples }) => ({
    column: design[column]!.name,
    determinedBy: names.filter((_, k) => multiples[k] !== 0),
  }));
  const components = factors.map((factor, f) => component(factor.name, f + 1, factor.groups));
  return {
    method: model.kind,
    observations,
    coefficientNames: names,
    coefficients: Array.from(solveUpper(ordinary, columns.triangle, working.effects)),
    standardErrors: covariance.map((row, k) => Math.sqrt(row[k]!)),
    covariance,
    components,
    residual: component("residual", 0, observations),
    logLikelihood: -deviance / 2,
    deviance,
    collinear,
    notes: notesOn(components, collinear),
    working,
  };
}

/** Plain sentences on what a reader should know of a fit. */
function notesOn(components: ReadonlyArray<VarianceComponent>, collinear: MixedModel["collinear"]): string[] {
  return [
    ...components
      .filter((one) => one.atBoundary)
      .map(
        (one) =>
          `The variance between groups of "${one.name}" is estimated as 0: they differ no more than chance within groups would make them.`,
      ),
    ...collinear.map(
      (one) =>
        `Column "${one.column}" is left out: ${one.determinedBy.join(", ") || "it is 0 throughout, and nothing"} determines it.`,
    ),
  ];
}
