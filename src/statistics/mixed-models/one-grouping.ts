import { addOuterFlat, flatMatrix, rowsOfFlat } from "../linear-algebra/dense-matrix.ts";
import { type RandomStructure, searchStride } from "./covariance-moments.ts";
import type { GroupMeans } from "./group-means.ts";

/**
 * One random intercept. By Woodbury's identity H^-1 keeps deviations within groups as they are and shrinks group means by
 * 1 / (1 + ratio * n), so each evaluation costs groups * columns^2 whatever the number of observations.
 * @source Searle, Casella and McCulloch 1992, Variance Components, chapter 3 and appendix M.4 (from memory)
 * @internal
 */
export function oneGrouping(summary: GroupMeans, count: number): RandomStructure {
  const { counts, means, withinProducts } = summary;
  const width = withinProducts.length;
  const within = Float64Array.from(withinProducts.flatMap((row) => [...row]));
  const groupTotal = counts.length;
  const stride = searchStride(groupTotal);
  return {
    count,
    layout: "one grouping",
    moments(ratios) {
      const ratio = ratios[0]!;
      const cross = within.slice();
      const once = flatMatrix(width);
      const twice = flatMatrix(width);
      let [logDeterminant, trace, traceTwice] = [0, 0, 0];
      for (let g = 0; g < groupTotal; g++) {
        const n = counts[g]!;
        const weight = n / (1 + ratio * n);
        const mean = means[g]!;
        logDeterminant += Math.log1p(ratio * n);
        trace += weight;
        traceTwice += weight * weight;
        addOuterFlat(cross, weight, mean, mean);
        addOuterFlat(once, weight * weight, mean, mean);
        addOuterFlat(twice, weight * weight * weight, mean, mean);
      }
      return {
        logDeterminant,
        cross: rowsOfFlat(cross),
        once: [rowsOfFlat(once)],
        twice: [[rowsOfFlat(twice)]],
        trace: [trace],
        traceTwice: [[traceTwice]],
      };
    },
    likelihoodMoments(ratios) {
      const ratio = ratios[0]!;
      const cross = within.slice();
      let logDeterminant = 0;
      for (let g = 0; g < groupTotal; g += stride) {
        const n = counts[g]!;
        logDeterminant += stride * Math.log1p(ratio * n);
        addOuterFlat(cross, (stride * n) / (1 + ratio * n), means[g]!, means[g]!);
      }
      return { logDeterminant, cross: rowsOfFlat(cross) };
    },
  };
}
