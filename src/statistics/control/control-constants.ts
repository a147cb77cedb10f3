import { requireCount } from "../require-numbers.ts";

/** Factors that turn ranges of small samples into standard deviations and limits. */
export interface ControlConstants {
  /** mean range of n normal values, in standard deviations */
  d2: number;
  /** standard deviation of that range, in standard deviations */
  d3: number;
  /** lower limit of the range over the mean range */
  D3: number;
  /** upper limit of the range over the mean range */
  D4: number;
  /** three standard errors of a mean over the mean range */
  A2: number;
}

const table: ReadonlyArray<readonly [n: number, d2: number, d3: number, D3: number, D4: number, A2: number]> = [
  [2, 1.128, 0.853, 0, 3.267, 1.88],
  [3, 1.693, 0.888, 0, 2.574, 1.023],
  [4, 2.059, 0.88, 0, 2.282, 0.729],
  [5, 2.326, 0.864, 0, 2.114, 0.577],
  [6, 2.534, 0.848, 0, 2.004, 0.483],
  [7, 2.704, 0.833, 0.076, 1.924, 0.419],
  [8, 2.847, 0.82, 0.136, 1.864, 0.373],
  [9, 2.97, 0.808, 0.184, 1.816, 0.337],
  [10, 3.078, 0.797, 0.223, 1.777, 0.308],
];

/**
 * Control-chart constants, to the three decimals in which they are published and used.
 * @param n values per sample, 2 to 10
 * @throws RangeError if n is outside 2 to 10
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.1; ASTM Manual 7
 * @example controlConstants(2).d2 // 1.128
 */
export function controlConstants(n: number): ControlConstants {
  requireCount("controlConstants", "n", n, 2);
  const row = table[n - 2];
  if (row === undefined) throw new RangeError(`controlConstants: n must be 10 or less; received ${n}`);
  const [, d2, d3, D3, D4, A2] = row;
  return { d2, d3, D3, D4, A2 };
}
