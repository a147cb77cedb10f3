/** Checks on the arguments of the statistics routines. Each throws a RangeError that names the routine, the rule and what was received. */

/**
 * Fails unless every value is a finite number.
 * @example requireFinite("mean", "values", [1, 2]) // undefined
 */
export function requireFinite(routine: string, name: string, values: ReadonlyArray<number>): void {
  for (let index = 0; index < values.length; index++) {
    if (!Number.isFinite(values[index])) {
      throw new RangeError(
        `${routine}: ${name} must be finite numbers; value ${index + 1} is ${String(values[index])}`,
      );
    }
  }
}

/**
 * Fails unless there are at least `atLeast` values and each is a finite number.
 * @example requireSample("mean", "values", [1, 2], 2) // undefined
 */
export function requireSample(routine: string, name: string, values: ReadonlyArray<number>, atLeast: number): void {
  if (values.length < atLeast) {
    throw new RangeError(`${routine}: ${name} needs at least ${atLeast} values; received ${values.length}`);
  }
  requireFinite(routine, name, values);
}

/**
 * Fails unless two columns are equally long.
 * @example requireSameLength("slope", "x", [1, 2], "y", [3, 4]) // undefined
 */
export function requireSameLength(
  routine: string,
  nameA: string,
  valuesA: ReadonlyArray<unknown>,
  nameB: string,
  valuesB: ReadonlyArray<unknown>,
): void {
  if (valuesA.length !== valuesB.length) {
    throw new RangeError(
      `${routine}: ${nameA} and ${nameB} must be equally long; received ${valuesA.length} and ${valuesB.length}`,
    );
  }
}

/**
 * Fails unless the value is an integer of at least `atLeast`.
 * @example requireCount("holm", "trials", 3, 1) // undefined
 */
export function requireCount(routine: string, name: string, value: number, atLeast: number): void {
  if (!Number.isInteger(value) || value < atLeast) {
    throw new RangeError(`${routine}: ${name} must be a whole number of ${atLeast} or more; received ${value}`);
  }
}

/**
 * Fails unless 0 < value < 1: an interval level, a significance level, a quantile's probability.
 * @example requireOpenProbability("meanInterval", "level", 0.95) // undefined
 */
export function requireOpenProbability(routine: string, name: string, value: number): void {
  if (!(value > 0 && value < 1)) {
    throw new RangeError(`${routine}: ${name} must lie between 0 and 1, both left out; received ${value}`);
  }
}

/**
 * Fails unless the value is finite and above 0.
 * @example requirePositive("designEffect", "clusterSize", 8) // undefined
 */
export function requirePositive(routine: string, name: string, value: number): void {
  if (!(value > 0) || value === Number.POSITIVE_INFINITY) {
    throw new RangeError(`${routine}: ${name} must be a number above 0; received ${value}`);
  }
}
