import { requirePositive, requireSample } from "../require-numbers.ts";

/** Patterns that are rare in a steady process, each named in words. Sigma is the standard deviation of the plotted value. */
export type RunRule = "one point beyond three sigma" | "nine in a row on one side" | "six in a row rising or falling";

/** A pattern found, at the position, from 0, of its last point. */
export interface RunSignal {
  rule: RunRule;
  to: number;
}

/** How many points a rule looks at, and whether these distances from the centre, in sigma, complete it. */
const patterns: [rule: RunRule, length: number, holds: (window: ReadonlyArray<number>) => boolean][] = [
  ["one point beyond three sigma", 1, ([z]) => Math.abs(z!) > 3],
  ["nine in a row on one side", 9, (window) => window.every((z) => z > 0) || window.every((z) => z < 0)],
  [
    "six in a row rising or falling",
    6,
    (window) => {
      const steps = window.slice(1).map((z, index) => z - window[index]!);
      return steps.every((step) => step > 0) || steps.every((step) => step < 0);
    },
  ],
];

/**
 * Looks for the first three of Nelson's patterns, which are rare while a process is steady.
 * @param values one or more plotted values in time order
 * @param centre the centre line, in the values' unit
 * @param sigma standard deviation of a plotted value, above 0
 * @returns one signal for each point at which a pattern is complete, in order of that point. A point on the centre line
 *   belongs to neither side; a step of 0 neither rises nor falls
 * @throws RangeError if there are no values, one is not finite, or sigma is not above 0
 * @source Nelson 1984, Journal of Quality Technology 16(4):237-239
 * @example runRules([0, 3.5], 0, 1) // [{ rule: "one point beyond three sigma", to: 1 }]
 */
export function runRules(values: ReadonlyArray<number>, centre: number, sigma: number): RunSignal[] {
  requireSample("runRules", "values", values, 1);
  requireSample("runRules", "centre", [centre], 1);
  requirePositive("runRules", "sigma", sigma);
  const distances = values.map((value) => (value - centre) / sigma);
  return distances.flatMap((_, to) =>
    patterns.flatMap(([rule, length, holds]) =>
      to + 1 >= length && holds(distances.slice(to + 1 - length, to + 1)) ? [{ rule, to }] : [],
    ),
  );
}
