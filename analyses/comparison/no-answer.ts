import type { CannotTell, Sentence } from "../../src/analysis.ts";

/** An outcome with a reason and what would settle it, and nothing else. */
export function noAnswer(reason: Sentence, wouldSettle: Sentence, extra: Partial<CannotTell> = {}): CannotTell {
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
    ...extra,
  };
}
