import { requirePositive, requireSample } from "../require-numbers.ts";

/** Patterns that are rare in a steady process, each named in words. Sigma is the standard deviation of the plotted value. */
export type RunRule =
  | "one point beyond three sigma"
  | "nine in a row on one side"
  | "eight in a row on one side"
  | "six in a row rising or falling"
  | "fourteen in a row alternating"
  | "two of three beyond two sigma"
  | "four of five beyond one sigma"
  | "fifteen in a row within one sigma"
  | "eight in a row outside one sigma";

/** The eight tests of Nelson. Each added test raises the false-alarm rate: switch on what you would act on. */
export const nelsonRules: ReadonlyArray<RunRule> = [
  "one point beyond three sigma",
  "nine in a row on one side",
  "six in a row rising or falling",
  "fourteen in a row alternating",
  "two of three beyond two sigma",
  "four of five beyond one sigma",
  "fifteen in a row within one sigma",
  "eight in a row outside one sigma",
];

/** A pattern found. */
export interface RunSignal {
  rule: RunRule;
  /** positions, from 0, of the first and last point of the pattern */
  from: number;
  to: number;
}

/** How many points a rule looks at, and whether the last of these distances from the centre complete it. */
interface Pattern {
  length: number;
  holds(window: ReadonlyArray<number>): boolean;
}

/** At least `needed` of the window, the last point among them, lie beyond `sigmas` on one side. */
function beyondOnOneSide(length: number, needed: number, sigmas: number): Pattern {
  const side = (window: ReadonlyArray<number>, sign: number): boolean =>
    sign * window.at(-1)! > sigmas && window.filter((z) => sign * z > sigmas).length >= needed;
  return { length, holds: (window) => side(window, 1) || side(window, -1) };
}

const stepsOf = (window: ReadonlyArray<number>): number[] =>
  window.slice(1).map((z, index) => Math.sign(z - window[index]!));

const patterns: Record<RunRule, Pattern> = {
  "one point beyond three sigma": beyondOnOneSide(1, 1, 3),
  "nine in a row on one side": beyondOnOneSide(9, 9, 0),
  "eight in a row on one side": beyondOnOneSide(8, 8, 0),
  "six in a row rising or falling": {
    length: 6,
    holds: (window) => Math.abs(stepsOf(window).reduce((sum, step) => sum + step, 0)) === 5,
  },
  "fourteen in a row alternating": {
    length: 14,
    holds: (window) =>
      stepsOf(window).every((step, index, steps) => step !== 0 && (index === 0 || step === -steps[index - 1]!)),
  },
  "two of three beyond two sigma": beyondOnOneSide(3, 2, 2),
  "four of five beyond one sigma": beyondOnOneSide(5, 4, 1),
  "fifteen in a row within one sigma": { length: 15, holds: (window) => window.every((z) => Math.abs(z) < 1) },
  "eight in a row outside one sigma": { length: 8, holds: (window) => window.every((z) => Math.abs(z) > 1) },
};

/**
 * Looks for patterns that are rare while a process is steady.
 * @param values one or more plotted values in time order
 * @param centre the centre line, in the values' unit
 * @param sigma standard deviation of each plotted value, above 0; one number, or one per value when sizes differ
 * @param rules which patterns to look for; Nelson's eight unless stated
 * @returns one signal for each point at which a pattern is complete, in order of that point. A point on the centre line
 *   belongs to neither side; a step of 0 neither rises nor falls. A two-of-three or four-of-five pattern is complete only at a
 *   point that itself lies beyond; near the start, fewer points than the window suffice if enough of them lie beyond.
 * @throws RangeError if there are no values, one is not finite, or a sigma is not above 0
 * @source Nelson 1984, Journal of Quality Technology 16(4):237-239; Western Electric Company 1956, Statistical Quality
 *   Control Handbook, rules 1 to 4
 * @example runRules([0, 3.5], 0, 1) // [{ rule: "one point beyond three sigma", from: 1, to: 1 }]
 */
export function runRules(
  values: ReadonlyArray<number>,
  centre: number,
  sigma: number | ReadonlyArray<number>,
  rules: ReadonlyArray<RunRule> = nelsonRules,
): RunSignal[] {
  requireSample("runRules", "values", values, 1);
  requireSample("runRules", "centre", [centre], 1);
  const sigmas = typeof sigma === "number" ? values.map(() => sigma) : sigma;
  if (sigmas.length !== values.length) {
    throw new RangeError(
      `runRules: sigma must be one number or one per value; received ${sigmas.length} for ${values.length}`,
    );
  }
  for (const value of sigmas) requirePositive("runRules", "sigma", value);
  const distances = values.map((value, index) => (value - centre) / sigmas[index]!);
  const signals: RunSignal[] = [];
  distances.forEach((_, to) => {
    for (const rule of rules) {
      const { length, holds } = patterns[rule];
      const partial = rule === "two of three beyond two sigma" || rule === "four of five beyond one sigma";
      const from = Math.max(0, to - length + 1);
      if (to - from + 1 < length && !partial) continue;
      if (holds(distances.slice(from, to + 1))) signals.push({ rule, from, to });
    }
  });
  return signals;
}
