/** Checks on amounts. Each throws a RangeError that names the function, the rule and what was received. */

/**
 * Fails unless the value is a finite number.
 * @example requireFinite("cost", "price", 3) // undefined
 */
export function requireFinite(routine: string, name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${routine}: ${name} must be a finite number; received ${value}`);
}

/**
 * Fails unless the value is finite and above 0.
 * @example requirePositive("cost", "price", 3) // undefined
 */
export function requirePositive(routine: string, name: string, value: number): void {
  if (!(value > 0) || value === Number.POSITIVE_INFINITY) {
    throw new RangeError(`${routine}: ${name} must be a number above 0; received ${value}`);
  }
}

/**
 * Fails unless the value is finite and 0 or more.
 * @example requireNotNegative("cost", "price", 0) // undefined
 */
export function requireNotNegative(routine: string, name: string, value: number): void {
  if (!(value >= 0) || value === Number.POSITIVE_INFINITY) {
    throw new RangeError(`${routine}: ${name} must be a number of 0 or more; received ${value}`);
  }
}

/**
 * Fails unless 0 <= value <= 1.
 * @example requireShare("cost", "loss", 0.2) // undefined
 */
export function requireShare(routine: string, name: string, value: number): void {
  if (!(value >= 0 && value <= 1)) {
    throw new RangeError(`${routine}: ${name} must be a share from 0 to 1; received ${value}`);
  }
}

/**
 * Fails unless 0 <= value < 1: a moisture, a discount, a loss that leaves something over.
 * @example requireShareBelowOne("cost", "loss", 0.2) // undefined
 */
export function requireShareBelowOne(routine: string, name: string, value: number): void {
  if (!(value >= 0 && value < 1)) {
    throw new RangeError(`${routine}: ${name} must be a share of 0 or more and below 1; received ${value}`);
  }
}
