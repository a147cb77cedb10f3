import { requireCount } from "../require-numbers.ts";

/**
 * Fails unless 0 <= successes <= trials, both whole numbers, and there is at least one trial.
 * @internal
 */
export function requireProportion(routine: string, successes: number, trials: number): void {
  requireCount(routine, "trials", trials, 1);
  requireCount(routine, "successes", successes, 0);
  if (successes > trials) {
    throw new RangeError(`${routine}: successes must not exceed trials; received ${successes} of ${trials}`);
  }
}
