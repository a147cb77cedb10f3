import type { RandomStructure } from "./covariance-moments.ts";
import { addOuter, zeroMatrix } from "./dense-matrix.ts";
import type { GroupMeans } from "./group-means.ts";

/**
 * One random intercept. By Woodbury's identity H^-1 keeps deviations within groups as they are and shrinks group means by
 * 1 / (1 + ratio * n), so each evaluation costs groups * columns^2 whatever the number of observations.
 * @source Searle, Casella and McCulloch 1992, Variance Components, chapter 3 and appendix M.4 (from memory)
 */
export function oneGrouping(summary: GroupMeans, count: number): RandomStructure {
  const { counts, means, withinProducts } = summary;
  const width = withinProducts.length;
  const groupTotal = counts.length;
  return {
    count,
    layout: "one grouping",
    moments(ratios) {
      const ratio = ratios[0]!;
      const cross = withinProducts.map((row) => row.slice());
      const once = zeroMatrix(width, width);
      const twice = zeroMatrix(width, width);
      let [logDeterminant, trace, traceTwice] = [0, 0, 0];
      for (let g = 0; g < groupTotal; g++) {
        const n = counts[g]!;
        const weight = n / (1 + ratio * n);
        const mean = means[g]!;
        logDeterminant += Math.log1p(ratio * n);
        trace += weight;
        traceTwice += weight * weight;
        addOuter(cross, weight, mean, mean);
        addOuter(once, weight * weight, mean, mean);
        addOuter(twice, weight * weight * weight, mean, mean);
      }
      return { logDeterminant, cross, once: [once], twice: [[twice]], trace: [trace], traceTwice: [[traceTwice]] };
    },
    groups(ratios) {
      const diagonal = counts.map((n) => n / (1 + ratios[0]! * n));
      return { rows: means.map((mean, g) => mean.map((value) => value * diagonal[g]!)), diagonal };
    },
  };
}
