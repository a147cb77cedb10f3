import type { Cap, Decision, Pair, Verdict } from "./decision.ts";
import { intervalOf } from "./estimate.ts";

/** From this chance on a side, or a level, is leant to. */
export const leaningFrom = 0.85;

const strictness: Record<Verdict, number> = { settled: 0, leaning: 1, open: 2, "cannot-tell": 3 };

/** The strictest verdict that the caps leave. */
export function mostThat(caps: ReadonlyArray<Cap>): Verdict {
  return caps.reduce<Verdict>((most, { at }) => (strictness[at] > strictness[most] ? at : most), "settled");
}

/** What a decision holds before a significance level turns it into a verdict. */
export type Undecided = Omit<Decision, "verdict" | "significance" | "pairs"> & {
  /** pairs in the order in which they are tested */
  pairs: ReadonlyArray<Omit<Pair, "settled">>;
};

/**
 * Decides at a significance level, or decides again at another: the word, the interval that goes with it, the pairs.
 * Pairs of four or more ordered levels are tested in order and stop at the first that fails.
 * @source fixed order: Marcus, Peritz and Gabriel 1976, Biometrika 63:655-660; all pairs of three levels after the test of all:
 *   Hayter 1986, Journal of the American Statistical Association 81:1000-1004
 * @example atSignificance(decideComparison(comparedTrays), 0.005).verdict // "settled"
 */
export function atSignificance(undecided: Undecided, significance: number): Decision {
  const { p, chance, settleable, caps, errors, difference } = undecided;
  const most = mostThat(caps);
  const verdict = verdictOf(most, settleable && p !== undefined && p < significance, chance);
  const settled = verdict === "settled";
  let standing = settled;
  const pairs = undecided.pairs.map((pair): Pair => {
    const holds = standing && pair.p < significance;
    if (undecided.pairsInOrder && !holds) standing = false;
    return { ...pair, settled: holds };
  });
  const error = settled ? errors?.settled : errors?.supposed;
  return {
    ...undecided,
    verdict,
    significance,
    pairs,
    ...(difference === undefined || error === undefined
      ? {}
      : {
          difference: {
            ...difference,
            ...error,
            interval: intervalOf({ estimate: difference.estimate, ...error }, errors!.miss),
          },
        }),
  };
}

/** The word, from what the caps leave, whether it would settle, and the chance behind leaning. */
export function verdictOf(most: Verdict, settles: boolean, chance: number | undefined): Verdict {
  if (most === "cannot-tell") return most;
  if (settles && most === "settled") return "settled";
  const leans = chance !== undefined && chance >= leaningFrom;
  return leans && strictness[most] <= strictness.leaning ? "leaning" : "open";
}
