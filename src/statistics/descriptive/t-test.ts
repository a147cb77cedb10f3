import { studentTQuantile, studentTTwoTailed } from "../distributions/student-t.ts";
import type { Interval } from "./interval.ts";

/** Outcome of a t test, the interval first. */
export interface TTest extends Interval {
  /** the estimated difference (or mean), in the measurement's unit */
  estimate: number;
  standardError: number;
  degreesOfFreedom: number;
  t: number;
  /** two-sided */
  p: number;
}

/**
 * The t test of an estimate against a stated value.
 * @param routine named in the error
 * @param estimate in the measurement's unit, with its standard error and the degrees of freedom behind that
 * @param level confidence level of the interval
 * @param against the value under the null hypothesis
 * @throws RangeError if the standard error is 0: values without spread cannot be tested
 * @internal
 */
export function testEstimate(
  routine: string,
  estimate: number,
  standardError: number,
  degreesOfFreedom: number,
  level: number,
  against = 0,
): TTest {
  if (!(standardError > 0)) {
    throw new RangeError(`${routine}: the values must vary; received a standard error of ${standardError}`);
  }
  const reach = studentTQuantile((1 + level) / 2, degreesOfFreedom) * standardError;
  const t = (estimate - against) / standardError;
  return {
    estimate,
    lower: estimate - reach,
    upper: estimate + reach,
    level,
    standardError,
    degreesOfFreedom,
    t,
    p: studentTTwoTailed(t, degreesOfFreedom),
  };
}
