import { addOuterFlat, flatMatrix, rowsOfFlat } from "../linear-algebra/dense-matrix.ts";
import { type CovarianceMoments, type RandomStructure, searchStride } from "./covariance-moments.ts";
import type { GroupMeans } from "./group-means.ts";

/**
 * Two nested random intercepts (tray in load, jar in cook): Woodbury's identity used twice, so each evaluation costs
 * groups * columns^2.
 * @param summary of the inner groups
 * @param home outer group of each inner group
 * @param innerFirst whether the inner factor is the first of the model's random factors
 * @source Searle, Casella and McCulloch 1992, Variance Components, chapter 3 and appendix M.4 (from memory)
 * @internal
 */
export function twoNestedGroupings(
  summary: GroupMeans,
  home: Int32Array,
  outerGroups: number,
  innerFirst: boolean,
  count: number,
): RandomStructure {
  const { counts, withinProducts } = summary;
  const width = withinProducts.length;
  const members: number[][] = Array.from({ length: outerGroups }, () => []);
  for (let j = 0; j < home.length; j++) members[home[j]!]!.push(j);
  const [inner, outer] = innerFirst ? [0, 1] : [1, 0];
  const within = Float64Array.from(withinProducts.flatMap((row) => [...row]));
  const stride = searchStride(outerGroups);
  const group = new OuterGroup(summary, width, Math.max(0, ...members.map((inside) => inside.length)));
  return {
    count,
    layout: "two nested groupings",
    moments(ratios) {
      const sums = new NestedSums(within, width, inner, outer);
      for (const inside of members) {
        group.lookAt(inside, ratios[inner]!, ratios[outer]!);
        sums.add(group);
      }
      return sums.moments();
    },
    likelihoodMoments(ratios) {
      const cross = within.slice();
      const deviation = new Float64Array(width);
      let logDeterminant = 0;
      for (let k = 0; k < members.length; k += stride) {
        const inside = members[k]!;
        group.lookAt(inside, ratios[inner]!, ratios[outer]!);
        for (let j = 0; j < inside.length; j++) {
          logDeterminant += stride * Math.log1p(ratios[inner]! * counts[inside[j]!]!);
          group.deviationOf(j, deviation);
          addOuterFlat(cross, stride * group.weights[j]!, deviation, deviation);
        }
        logDeterminant += stride * Math.log1p(ratios[outer]! * group.weightSum);
        addOuterFlat(cross, stride * group.weightSum * group.shrink, group.mean, group.mean);
      }
      return { logDeterminant, cross: rowsOfFlat(cross) };
    },
  };
}

/** One outer group is looked at at a time: its numbers are written over those of the one before. */
class OuterGroup {
  readonly #summary: GroupMeans;
  inside: ReadonlyArray<number> = [];
  innerRatio = 0;
  outerRatio = 0;
  /** weight of each inner group: n / (1 + inner ratio * n), in the first places */
  readonly weights: Float64Array;
  weightSum = 0;
  /** 1 / (1 + outer ratio * weightSum) */
  shrink = 0;
  /** weighted mean of the inner means */
  readonly mean: Float64Array;

  constructor(summary: GroupMeans, width: number, largest: number) {
    this.#summary = summary;
    this.weights = new Float64Array(largest);
    this.mean = new Float64Array(width);
  }

  lookAt(inside: ReadonlyArray<number>, innerRatio: number, outerRatio: number): void {
    const { weights, mean } = this;
    let weightSum = 0;
    for (let k = 0; k < inside.length; k++) {
      const n = this.countOf(inside[k]!);
      weights[k] = n / (1 + innerRatio * n);
      weightSum += weights[k]!;
    }
    mean.fill(0);
    for (let k = 0; k < inside.length; k++) {
      const share = weights[k]! / weightSum;
      const own = this.meansOf(inside[k]!);
      for (let c = 0; c < mean.length; c++) mean[c]! += share * own[c]!;
    }
    this.inside = inside;
    this.innerRatio = innerRatio;
    this.outerRatio = outerRatio;
    this.weightSum = weightSum;
    this.shrink = 1 / (1 + outerRatio * weightSum);
  }

  countOf(inner: number): number {
    return this.#summary.counts[inner]!;
  }

  meansOf(inner: number): Float64Array {
    return this.#summary.means[inner]!;
  }

  /** Means of one inner group less those of the whole. */
  deviationOf(k: number, into: Float64Array): void {
    const own = this.meansOf(this.inside[k]!);
    for (let c = 0; c < into.length; c++) into[c] = own[c]! - this.mean[c]!;
  }

  /** Z_j' H^-1 X of one inner group. */
  innerRow(k: number, into: Float64Array): void {
    const { weights, mean, shrink } = this;
    const own = this.meansOf(this.inside[k]!);
    for (let c = 0; c < mean.length; c++) into[c] = weights[k]! * (own[c]! - mean[c]! + shrink * mean[c]!);
  }

  /** Z_k' H^-1 X of the outer group. */
  outerRow(into: Float64Array): void {
    const { mean, weightSum, shrink } = this;
    for (let c = 0; c < mean.length; c++) into[c] = mean[c]! * weightSum * shrink;
  }
}

/** Sums over the outer groups. */
class NestedSums {
  readonly #inner: number;
  readonly #outer: number;
  readonly #cross: Float64Array;
  readonly #once: Float64Array[];
  readonly #twice: Float64Array[][];
  readonly #trace = [0, 0];
  readonly #traceTwice = [
    [0, 0],
    [0, 0],
  ];
  #logDeterminant = 0;
  readonly #deviation: Float64Array;
  readonly #row: Float64Array;
  readonly #weightedRow: Float64Array;
  readonly #whole: Float64Array;

  constructor(within: Float64Array, width: number, inner: number, outer: number) {
    this.#inner = inner;
    this.#outer = outer;
    this.#cross = within.slice();
    this.#once = [flatMatrix(width), flatMatrix(width)];
    this.#twice = [0, 1].map(() => [flatMatrix(width), flatMatrix(width)]);
    this.#deviation = new Float64Array(width);
    this.#row = new Float64Array(width);
    this.#weightedRow = new Float64Array(width);
    this.#whole = new Float64Array(width);
  }

  add(group: OuterGroup): void {
    const { squares, cubes } = this.#addInner(group);
    const { weightSum, shrink, mean, outerRatio } = group;
    const [inner, outer] = [this.#inner, this.#outer];
    const [whole, weightedRow] = [this.#whole, this.#weightedRow];
    group.outerRow(whole);
    const pull = outerRatio * shrink;
    const outerWeight = weightSum * shrink;
    this.#logDeterminant += Math.log1p(outerRatio * weightSum);
    addOuterFlat(this.#cross, outerWeight, mean, mean);
    addOuterFlat(this.#once[outer]!, 1, whole, whole);
    addOuterFlat(this.#twice[inner]![inner]!, -pull, weightedRow, weightedRow);
    addOuterFlat(this.#twice[outer]![outer]!, outerWeight, whole, whole);
    addOuterFlat(this.#twice[inner]![outer]!, shrink / 2, weightedRow, whole);
    addOuterFlat(this.#twice[inner]![outer]!, shrink / 2, whole, weightedRow);
    this.#trace[inner]! += weightSum - pull * squares;
    this.#trace[outer]! += outerWeight;
    this.#traceTwice[inner]![inner]! += squares - 2 * pull * cubes + pull * pull * squares * squares;
    this.#traceTwice[outer]![outer]! += outerWeight * outerWeight;
    this.#traceTwice[inner]![outer]! += shrink * shrink * squares;
  }

  /** Adds what the inner groups give one by one; returns the sums of their weights squared and cubed. */
  #addInner(group: OuterGroup): { squares: number; cubes: number } {
    const [deviation, row, weightedRow] = [this.#deviation, this.#row, this.#weightedRow];
    weightedRow.fill(0);
    let [squares, cubes] = [0, 0];
    for (let k = 0; k < group.inside.length; k++) {
      const weight = group.weights[k]!;
      group.innerRow(k, row);
      this.#logDeterminant += Math.log1p(group.innerRatio * group.countOf(group.inside[k]!));
      squares += weight * weight;
      cubes += weight * weight * weight;
      group.deviationOf(k, deviation);
      for (let c = 0; c < row.length; c++) weightedRow[c]! += weight * row[c]!;
      addOuterFlat(this.#cross, weight, deviation, deviation);
      addOuterFlat(this.#once[this.#inner]!, 1, row, row);
      addOuterFlat(this.#twice[this.#inner]![this.#inner]!, weight, row, row);
    }
    return { squares, cubes };
  }

  moments(): CovarianceMoments {
    const [inner, outer] = [this.#inner, this.#outer];
    this.#twice[outer]![inner] = this.#twice[inner]![outer]!;
    this.#traceTwice[outer]![inner] = this.#traceTwice[inner]![outer]!;
    return {
      logDeterminant: this.#logDeterminant,
      cross: rowsOfFlat(this.#cross),
      once: this.#once.map(rowsOfFlat),
      twice: this.#twice.map((pair) => pair.map(rowsOfFlat)),
      trace: this.#trace,
      traceTwice: this.#traceTwice,
    };
  }
}
