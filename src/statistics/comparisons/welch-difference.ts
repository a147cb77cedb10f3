import { welchDegreesOfFreedom } from "../descriptive/welch-degrees-of-freedom.ts";
import type { GroupMean } from "./pair-of-groups.ts";

/**
 * Standard error of a difference of two means and its approximate degrees of freedom, variances not taken as equal.
 * @throws RangeError if neither group varies
 * @source Welch 1947, Biometrika 34(1/2):28-35; Satterthwaite 1946, Biometrics Bulletin 2(6):110-114
 * @internal
 */
export function welchDifference(
  routine: string,
  first: GroupMean,
  second: GroupMean,
): { standardError: number; df: number } {
  const a = first.variance / first.count;
  const b = second.variance / second.count;
  const sum = a + b;
  if (sum === 0) {
    throw new RangeError(
      `${routine}: at least one group of a pair must vary; received two constant groups, ${first.mean} and ${second.mean}`,
    );
  }
  const df = welchDegreesOfFreedom(first.variance, first.count, second.variance, second.count);
  return { standardError: Math.sqrt(sum), df };
}
