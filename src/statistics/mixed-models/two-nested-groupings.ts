import type { RandomStructure } from "./covariance-moments.ts";
import { addOuter, type Matrix, zeroMatrix } from "./dense-matrix.ts";
import type { GroupMeans } from "./group-means.ts";

interface OuterGroup {
  /** weight of each inner group: n / (1 + inner ratio * n) */
  weights: Float64Array;
  weightSum: number;
  /** 1 / (1 + outer ratio * weightSum) */
  shrink: number;
  /** row j: Z_j' H^-1 X of inner group j */
  innerRows: Matrix;
  /** Z_k' H^-1 X of the outer group */
  outerRow: Float64Array;
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

  const outerGroup = (inside: number[], innerRatio: number, outerRatio: number): OuterGroup => {
    const weights = new Float64Array(inside.length);
    let weightSum = 0;
    for (let k = 0; k < inside.length; k++) {
      const n = counts[inside[k]!]!;
      weights[k] = n / (1 + innerRatio * n);
      weightSum += weights[k]!;
    }
    const mean = new Float64Array(width);
    for (let k = 0; k < inside.length; k++) {
      const share = weights[k]! / weightSum;
      const inner = means[inside[k]!]!;
      for (let c = 0; c < width; c++) mean[c]! += share * inner[c]!;
    }
    const shrink = 1 / (1 + outerRatio * weightSum);
    const outerRow = new Float64Array(width);
    for (let c = 0; c < width; c++) outerRow[c] = mean[c]! * weightSum * shrink;
    const innerRows = zeroMatrix(inside.length, width);
    for (let k = 0; k < inside.length; k++) {
      const inner = means[inside[k]!]!;
      const row = innerRows[k]!;
      for (let c = 0; c < width; c++) row[c] = weights[k]! * (inner[c]! - mean[c]! + shrink * mean[c]!);
    }
    return { weights, weightSum, shrink, innerRows, outerRow, mean };
  };

  return {
    count,
    layout: "two nested groupings",
    moments(ratios) {
      const [innerRatio, outerRatio] = [ratios[inner]!, ratios[outer]!];
      const cross = withinProducts.map((row) => row.slice());
      const once = [zeroMatrix(width, width), zeroMatrix(width, width)];
      const twice = [0, 1].map(() => [zeroMatrix(width, width), zeroMatrix(width, width)]);
      const trace = [0, 0];
      const traceTwice = [
        [0, 0],
        [0, 0],
      ];
      let logDeterminant = 0;
      const deviation = new Float64Array(width);
      for (const inside of members) {
        const group = outerGroup(inside, innerRatio, outerRatio);
        const { weights, weightSum, shrink, innerRows, outerRow, mean } = group;
        const weightedRow = new Float64Array(width);
        let [squares, cubes] = [0, 0];
        for (let k = 0; k < inside.length; k++) {
          const weight = weights[k]!;
          const row = innerRows[k]!;
          logDeterminant += Math.log1p(innerRatio * counts[inside[k]!]!);
          squares += weight * weight;
          cubes += weight * weight * weight;
          for (let c = 0; c < width; c++) {
            deviation[c] = means[inside[k]!]![c]! - mean[c]!;
            weightedRow[c]! += weight * row[c]!;
          }
          addOuter(cross, weight, deviation, deviation);
          addOuter(once[inner]!, 1, row, row);
          addOuter(twice[inner]![inner]!, weight, row, row);
        }
        const pull = outerRatio * shrink;
        const outerWeight = weightSum * shrink;
        logDeterminant += Math.log1p(outerRatio * weightSum);
        addOuter(cross, outerWeight, mean, mean);
        addOuter(once[outer]!, 1, outerRow, outerRow);
        addOuter(twice[inner]![inner]!, -pull, weightedRow, weightedRow);
        addOuter(twice[outer]![outer]!, outerWeight, outerRow, outerRow);
        addOuter(twice[inner]![outer]!, shrink / 2, weightedRow, outerRow);
        addOuter(twice[inner]![outer]!, shrink / 2, outerRow, weightedRow);
        trace[inner]! += weightSum - pull * squares;
        trace[outer]! += outerWeight;
        traceTwice[inner]![inner]! += squares - 2 * pull * cubes + pull * pull * squares * squares;
        traceTwice[outer]![outer]! += outerWeight * outerWeight;
        traceTwice[inner]![outer]! += shrink * shrink * squares;
      }
      twice[outer]![inner] = twice[inner]![outer]!;
      traceTwice[outer]![inner] = traceTwice[inner]![outer]!;
      return { logDeterminant, cross, once, twice, trace, traceTwice };
    },
    groups(ratios, factor) {
      const rows = zeroMatrix(factor === inner ? counts.length : outerGroups, width);
      const diagonal = new Float64Array(rows.length);
      members.forEach((inside, k) => {
        const group = outerGroup(inside, ratios[inner]!, ratios[outer]!);
        if (factor === outer) {
          rows[k] = group.outerRow;
          diagonal[k] = group.weightSum * group.shrink;
          return;
        }
        inside.forEach((j, position) => {
          const weight = group.weights[position]!;
          rows[j] = group.innerRows[position]!;
          diagonal[j] = weight - ratios[outer]! * group.shrink * weight * weight;
        });
      });
      return { rows, diagonal };
    },
  };
}
