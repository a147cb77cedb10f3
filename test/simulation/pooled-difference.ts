import { studentTQuantile, studentTTwoTailed } from "../../src/statistics/distributions/student-t.ts";

/** What a t test of two samples with a pooled variance says, as if trays were alone in the world: the rival of the verdict rules. */
export function pooledDifference(a: ReadonlyArray<number>, b: ReadonlyArray<number>) {
  const mean = (values: ReadonlyArray<number>) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = (values: ReadonlyArray<number>) =>
    values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0);
  const degreesOfFreedom = a.length + b.length - 2;
  const variance = ((squares(a) + squares(b)) / degreesOfFreedom) * (1 / a.length + 1 / b.length);
  const difference = mean(a) - mean(b);
  const reach = studentTQuantile(0.975, degreesOfFreedom) * Math.sqrt(variance);
  const p = studentTTwoTailed(difference / Math.sqrt(variance), degreesOfFreedom);
  return { p, lower: difference - reach, upper: difference + reach };
}
