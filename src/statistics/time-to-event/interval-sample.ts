import { requireSameLength, requireSample } from "../require-numbers.ts";

/**
 * Times known only to lie in an interval. Each event happened after `lower` and not after `upper`: equal ends for a time seen
 * exactly, lower 0 for "already done at the first look", upper Infinity for "not yet at the last look".
 */
export interface IntervalSample {
  lower: ReadonlyArray<number>;
  upper: ReadonlyArray<number>;
}

/**
 * Fails unless 0 <= lower <= upper, lower is finite, and an exact time is above 0.
 * @internal
 */
export function requireIntervalSample(routine: string, sample: IntervalSample): void {
  requireSample(routine, "lower", sample.lower, 1);
  requireSameLength(routine, "lower", sample.lower, "upper", sample.upper);
  for (let i = 0; i < sample.lower.length; i++) {
    const [lower, upper] = [sample.lower[i]!, sample.upper[i]!];
    if (!(lower >= 0 && upper >= lower && upper > 0)) {
      throw new RangeError(
        `${routine}: each interval must have 0 <= lower <= upper and upper above 0; row ${i + 1} is ${lower} to ${upper}`,
      );
    }
  }
}
