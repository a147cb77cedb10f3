import type { CannotTell, Sentence } from "../../src/analysis.ts";

/** An outcome that says what cannot be told and what would settle it, with whatever else is known beside it. */
export function cannotTellOutcome(
  reason: Sentence,
  wouldSettle: Sentence,
  beside: Partial<Omit<CannotTell, "kind" | "reason" | "wouldSettle">> = {},
): CannotTell {
  return {
    kind: "cannot-tell",
    reason,
    wouldSettle,
    estimates: [],
    tables: [],
    charts: [],
    excluded: [],
    method: [],
    caveats: [],
    ...beside,
  };
}
