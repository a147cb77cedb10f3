import { addOuterFlat, flatMatrix, rowsOfFlat, zeroMatrix } from "../linear-algebra/dense-matrix.ts";
import { type RandomStructure, searchStride } from "./covariance-moments.ts";
import type { GroupMeans } from "./group-means.ts";

interface OuterGroup {
  /** weight of each inner group: n / (1 + inner ratio * n), in the first places */
  weights: Float64Array;
  weightSum: number;
  /** 1 / (1 + outer ratio * weightSum) */
  shrink: number;
  /** weighted mean of the inner means */
  mean: Float64Array;
}

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
  const { counts, means, withinProducts } = summary;
  const width = withinProducts.length;
  const members: number[][] = Array.from({ length: outerGroups }, () => []);
  for (let j = 0; j < home.length; j++) members[home[j]!]!.push(j);
  const [inner, outer] = innerFirst ? [0, 1] : [1, 0];

  const within = Float64Array.from(withinProducts.flatMap((row) => [...row]));
  const stride = searchStride(outerGroups);
  const largest = members.reduce((most, inside) => Math.max(most, inside.length), 0);
  // one outer group is looked at at a time: its numbers are written over those of the one before
  const group: OuterGroup = {
    weights: new Float64Array(largest),
    weightSum: 0,
    shrink: 0,
    mean: new Float64Array(width),
  };

  const lookAt = (inside: ReadonlyArray<number>, innerRatio: number, outerRatio: number): void => {
    const { weights, mean } = group;
    let weightSum = 0;
    for (let k = 0; k < inside.length; k++) {
      const n = counts[inside[k]!]!;
      weights[k] = n / (1 + innerRatio * n);
      weightSum += weights[k]!;
    }
    mean.fill(0);
    for (let k = 0; k < inside.length; k++) {
      const share = weights[k]! / weightSum;
      const own = means[inside[k]!]!;
      for (let c = 0; c < width; c++) mean[c]! += share * own[c]!;
    }
    group.weightSum = weightSum;
    group.shrink = 1 / (1 + outerRatio * weightSum);
  };

  /** Z_j' H^-1 X of one inner group of the outer group looked at. */
  const innerRow = (inside: ReadonlyArray<number>, k: number, into: Float64Array): void => {
    const { weights, mean, shrink } = group;
    const own = means[inside[k]!]!;
    for (let c = 0; c < width; c++) into[c] = weights[k]! * (own[c]! - mean[c]! + shrink * mean[c]!);
  };

  /** Z_k' H^-1 X of the outer group looked at. */
  const outerRow = (into: Float64Array): void => {
    const { mean, weightSum, shrink } = group;
    for (let c = 0; c < width; c++) into[c] = mean[c]! * weightSum * shrink;
  };

  return {
    count,
    layout: "two nested groupings",
    moments(ratios) {
      const [innerRatio, outerRatio] = [ratios[inner]!, ratios[outer]!];
      const cross = within.slice();
      const once = [flatMatrix(width), flatMatrix(width)];
      const twice = [0, 1].map(() => [flatMatrix(width), flatMatrix(width)]);
      const trace = [0, 0];
      const traceTwice = [
        [0, 0],
        [0, 0],
      ];
      let logDeterminant = 0;
      const [deviation, row] = [new Float64Array(width), new Float64Array(width)];
      const [weightedRow, whole] = [new Float64Array(width), new Float64Array(width)];
      for (const inside of members) {
        lookAt(inside, innerRatio, outerRatio);
        const { weights, weightSum, shrink, mean } = group;
        outerRow(whole);
        weightedRow.fill(0);
        let [squares, cubes] = [0, 0];
        for (let k = 0; k < inside.length; k++) {
          const weight = weights[k]!;
          innerRow(inside, k, row);
          logDeterminant += Math.log1p(innerRatio * counts[inside[k]!]!);
          squares += weight * weight;
          cubes += weight * weight * weight;
          const own = means[inside[k]!]!;
          for (let c = 0; c < width; c++) {
            deviation[c] = own[c]! - mean[c]!;
            weightedRow[c]! += weight * row[c]!;
          }
          addOuterFlat(cross, weight, deviation, deviation);
          addOuterFlat(once[inner]!, 1, row, row);
          addOuterFlat(twice[inner]![inner]!, weight, row, row);
        }
        const pull = outerRatio * shrink;
        const outerWeight = weightSum * shrink;
        logDeterminant += Math.log1p(outerRatio * weightSum);
        addOuterFlat(cross, outerWeight, mean, mean);
        addOuterFlat(once[outer]!, 1, whole, whole);
        addOuterFlat(twice[inner]![inner]!, -pull, weightedRow, weightedRow);
        addOuterFlat(twice[outer]![outer]!, outerWeight, whole, whole);
        addOuterFlat(twice[inner]![outer]!, shrink / 2, weightedRow, whole);
        addOuterFlat(twice[inner]![outer]!, shrink / 2, whole, weightedRow);
        trace[inner]! += weightSum - pull * squares;
        trace[outer]! += outerWeight;
        traceTwice[inner]![inner]! += squares - 2 * pull * cubes + pull * pull * squares * squares;
        traceTwice[outer]![outer]! += outerWeight * outerWeight;
        traceTwice[inner]![outer]! += shrink * shrink * squares;
      }
      twice[outer]![inner] = twice[inner]![outer]!;
      traceTwice[outer]![inner] = traceTwice[inner]![outer]!;
      return {
        logDeterminant,
        cross: rowsOfFlat(cross),
        once: once.map(rowsOfFlat),
        twice: twice.map((pair) => pair.map(rowsOfFlat)),
        trace,
        traceTwice,
      };
    },
    likelihoodMoments(ratios) {
      const [innerRatio, outerRatio] = [ratios[inner]!, ratios[outer]!];
      const cross = within.slice();
      const deviation = new Float64Array(width);
      let logDeterminant = 0;
      for (let k = 0; k < members.length; k += stride) {
        const inside = members[k]!;
        lookAt(inside, innerRatio, outerRatio);
        const { weights, weightSum, shrink, mean } = group;
        for (let j = 0; j < inside.length; j++) {
          logDeterminant += stride * Math.log1p(innerRatio * counts[inside[j]!]!);
          const own = means[inside[j]!]!;
          for (let c = 0; c < width; c++) deviation[c] = own[c]! - mean[c]!;
          addOuterFlat(cross, stride * weights[j]!, deviation, deviation);
        }
        logDeterminant += stride * Math.log1p(outerRatio * weightSum);
        addOuterFlat(cross, stride * weightSum * shrink, mean, mean);
      }
      return { logDeterminant, cross: rowsOfFlat(cross) };
    },
    groups(ratios, factor) {
      const rows = zeroMatrix(factor === inner ? counts.length : outerGroups, width);
      const diagonal = new Float64Array(rows.length);
      members.forEach((inside, k) => {
        lookAt(inside, ratios[inner]!, ratios[outer]!);
        const { weights, weightSum, shrink } = group;
        if (factor === outer) {
          outerRow(rows[k]!);
          diagonal[k] = weightSum * shrink;
          return;
        }
        inside.forEach((j, position) => {
          const weight = weights[position]!;
          innerRow(inside, position, rows[j]!);
          diagonal[j] = weight - ratios[outer]! * shrink * weight * weight;
        });
      });
      return { rows, diagonal };
    },
  };
}
