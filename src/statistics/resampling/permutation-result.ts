/** What a permutation test found. */
export interface PermutationResult {
  /** the statistic as observed */
  observed: number;
  /** share of arrangements whose statistic is at least as far from what no effect predicts, on either side */
  p: number;
  /** share of arrangements at or above the observed statistic */
  pGreater: number;
  /** share of arrangements at or below the observed statistic */
  pLess: number;
  /** "exact" when every arrangement was looked at; "sampled" when they were drawn at random */
  method: "exact" | "sampled";
  /** arrangements looked at */
  arrangements: number;
  /** arrangements counted in p, the observed one included when exact */
  asExtreme: number;
  /** of the random draws; absent when exact */
  seed?: number;
}

/** How a permutation test goes about it. */
export interface PermutationOptions {
  /** of the random stream, needed when there are too many arrangements to look at all */
  seed?: number;
  /** random arrangements when sampling; 9999 unless stated */
  draws?: number;
  /** up to this many arrangements all are looked at; 200,000 unless stated */
  exactUpTo?: number;
}

export const usualDraws = 9999;
export const usualExactUpTo = 200_000;

/**
 * Counts of arrangements as a result.
 *
 * A sampled p counts the observed arrangement as one of the draws, (b + 1) / (m + 1): it can never be 0 and its test never
 * exceeds its level.
 * @source Phipson and Smyth 2010, Statistical Applications in Genetics and Molecular Biology 9(1), article 39
 * @internal
 */
export function permutationResult(
  observed: number,
  counts: { extreme: number; atLeast: number; atMost: number; looked: number },
  seed: number | undefined,
): PermutationResult {
  const { extreme, atLeast, atMost, looked } = counts;
  if (seed === undefined) {
    return {
      observed,
      p: extreme / looked,
      pGreater: atLeast / looked,
      pLess: atMost / looked,
      method: "exact",
      arrangements: looked,
      asExtreme: extreme,
    };
  }
  return {
    observed,
    p: (extreme + 1) / (looked + 1),
    pGreater: (atLeast + 1) / (looked + 1),
    pLess: (atMost + 1) / (looked + 1),
    method: "sampled",
    arrangements: looked,
    asExtreme: extreme,
    seed,
  };
}
