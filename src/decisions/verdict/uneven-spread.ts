import { fUpperTail } from "../../statistics/distributions/f.ts";

/** A variance estimate of one level. */
export interface LevelSpread {
  squares: number;
  degreesOfFreedom: number;
}

/** Significance at which spreads count as uneven. */
const unevenAt = 0.1;

/**
 * Whether variances differ so much between levels that levels must not lend one another their error: the largest over the
 * smallest, with Bonferroni's allowance for all pairs, at 10 %. Not judged unless each has 2 or more degrees of freedom.
 * @source variance ratio: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.9; its use here is the project's
 *   own
 */
export function unevenSpread(spreads: ReadonlyArray<LevelSpread>): boolean {
  if (spreads.length < 2 || spreads.some(({ degreesOfFreedom }) => degreesOfFreedom < 2)) return false;
  const variances = spreads.map(({ squares, degreesOfFreedom }) => squares / degreesOfFreedom);
  const largest = variances.indexOf(Math.max(...variances));
  const smallest = variances.indexOf(Math.min(...variances));
  if (variances[largest] === variances[smallest]) return false;
  const pairs = spreads.length * (spreads.length - 1);
  const ratio = variances[smallest] === 0 ? Number.POSITIVE_INFINITY : variances[largest]! / variances[smallest]!;
  return pairs * fUpperTail(ratio, spreads[largest]!.degreesOfFreedom, spreads[smallest]!.degreesOfFreedom) < unevenAt;
}
