import { requireCount, requireFinite, requirePositive } from "../require-numbers.ts";

/** Means that share one error variance. */
export interface MeansWithCommonError {
  means: ReadonlyArray<number>;
  /** observations behind each mean */
  counts: ReadonlyArray<number>;
  /** residual mean square of the analysis the means come from */
  errorVariance: number;
  /** of the residual mean square */
  degreesOfFreedom: number;
}

/**
 * Fails unless there are two means or more, each with a count, and an error variance with degrees of freedom.
 * @internal
 */
export function requireMeansWithCommonError(routine: string, input: MeansWithCommonError): void {
  const { means, counts, errorVariance, degreesOfFreedom } = input;
  if (means.length < 2 || counts.length !== means.length) {
    throw new RangeError(
      `${routine}: 2 means or more are needed, each with a count; received ${means.length} and ${counts.length}`,
    );
  }
  requireFinite(routine, "means", means);
  for (const count of counts) requireCount(routine, "a count", count, 1);
  requirePositive(routine, "errorVariance", errorVariance);
  requirePositive(routine, "degreesOfFreedom", degreesOfFreedom);
}
