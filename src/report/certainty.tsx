import type { Outcome } from "../analysis.ts";

/** How far an outcome can be leaned on, in the report's words. */
export type CertaintyWord = "settled" | "leaning" | "open" | "measured" | "cannot tell";

/** The certainty of an outcome. */
export const certaintyOf = (outcome: Outcome): CertaintyWord =>
  outcome.kind === "answer" ? outcome.certainty : "cannot tell";

/** What each word means, for the key under the answers. */
export const certaintyMeaning: Readonly<Record<CertaintyWord, string>> = {
  settled: "the interval is clear of no effect",
  leaning: "points one way, but no effect is still possible",
  measured: "a description of these trays and bills, which compares nothing",
  open: "looked at, and it could go either way",
  "cannot tell": "these sheets cannot say, and why stands beside it",
};

const shelvesFilled: Readonly<Record<CertaintyWord, number>> = {
  settled: 3,
  leaning: 2,
  open: 1,
  measured: 3,
  "cannot tell": 0,
};

/** A rack of three shelves, filled from below by how sure the answer is; an empty rack is crossed out. */
function Rack({ filled }: { filled: number }) {
  return (
    <svg class="rack" viewBox="0 0 18 18" width="18" height="18" aria-hidden="true" focusable="false">
      <path class="frame" d="M2 1v16M16 1v16" />
      {[0, 1, 2].map((shelf) => (
        <rect
          key={shelf}
          class={shelf < filled ? "full" : "empty"}
          x="4"
          y={13 - shelf * 5.5}
          width="10"
          height="3.5"
          rx="0.6"
        />
      ))}
      {filled === 0 ? <path class="frame" d="M3 16L15 2" /> : null}
    </svg>
  );
}

/** The certainty of an answer as a mark and a word. */
export function CertaintyTag({ certainty }: { certainty: CertaintyWord }) {
  return (
    <span class={`certainty ${certainty.replace(" ", "-")}`}>
      <Rack filled={shelvesFilled[certainty]} />
      {certainty}
    </span>
  );
}
