import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";

/** Sums of one cluster (a cook, or a tray on its own) for two rates. */
export interface RateSums {
  /** what the first rate gives, and the days it takes */
  firstGives: number;
  firstDays: number;
  /** the same for the second */
  secondGives: number;
  secondDays: number;
}

/** Two rates of sums and their difference, first less second. */
export interface RateDifference {
  first: number;
  second: number;
  difference: number;
  low: number;
  high: number;
  p: number;
  degreesOfFreedom: number;
}

/**
 * Difference of two rates, each a ratio of sums over clusters, with an interval that allows for trays of one cluster being alike.
 * @param clusters two or more that have days of the first rate; days of either rate above 0 in all
 * @returns t interval with one degree of freedom fewer than the clusters that have the first rate
 * @throws RangeError if fewer than two clusters have days of the first rate, or a rate has no days at all
 * @source linearised ratio estimator over clusters: Cochran 1977, Sampling Techniques, sections 6.4 and 9A.1 (from
 *   memory)
 * @example rateDifference([{ firstGives: 2, firstDays: 1, secondGives: 1, secondDays: 1 }, { firstGives: 4, firstDays: 1, secondGives: 1, secondDays: 1 }], 0.95).difference // 2
 */
export function rateDifference(clusters: ReadonlyArray<RateSums>, level: number): RateDifference {
  const sum = (of: (cluster: RateSums) => number): number =>
    clusters.reduce((total, cluster) => total + of(cluster), 0);
  const [firstDays, secondDays] = [sum((one) => one.firstDays), sum((one) => one.secondDays)];
  const contributing = clusters.filter((one) => one.firstDays > 0).length;
  if (contributing < 2 || !(firstDays > 0) || !(secondDays > 0)) {
    throw new RangeError(
      `rateDifference: two clusters with days of the first rate, and days of both, are needed; received ${contributing} clusters, ${firstDays} and ${secondDays} days`,
    );
  }
  const first = sum((one) => one.firstGives) / firstDays;
  const second = sum((one) => one.secondGives) / secondDays;
  const squares = sum((one) => {
    const pull =
      (one.firstGives - first * one.firstDays) / firstDays - (one.secondGives - second * one.secondDays) / secondDays;
    return pull * pull;
  });
  const count = clusters.length;
  const standardError = Math.sqrt((count / (count - 1)) * squares);
  const degreesOfFreedom = contributing - 1;
  const difference = first - second;
  const reach = studentTQuantile((1 + level) / 2, degreesOfFreedom) * standardError;
  const p =
    standardError > 0 ? studentTTwoTailed(difference / standardError, degreesOfFreedom) : difference === 0 ? 1 : 0;
  return { first, second, difference, low: difference - reach, high: difference + reach, p, degreesOfFreedom };
}
