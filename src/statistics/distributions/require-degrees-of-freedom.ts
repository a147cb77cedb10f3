/**
 * Fails unless the degrees of freedom are above 0; fractions and infinity are allowed.
 * @internal
 */
export function requireDegreesOfFreedom(routine: string, name: string, value: number): void {
  if (!(value > 0)) throw new RangeError(`${routine}: ${name} must be above 0; received ${value}`);
}

/**
 * Fails if a statistic is not a number; infinities are allowed.
 * @internal
 */
export function requireStatistic(routine: string, name: string, value: number): void {
  if (Number.isNaN(value)) throw new RangeError(`${routine}: ${name} must be a number; received ${value}`);
}
