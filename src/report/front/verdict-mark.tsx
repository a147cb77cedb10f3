import type { Outcome } from "../../analysis.ts";

/** How far an outcome can be leaned on, in the report's words. */
export type CertaintyWord = "settled" | "leaning" | "open" | "measured" | "cannot tell";

/** The certainty of an outcome. */
export const certaintyOf = (outcome: Outcome): CertaintyWord =>
  outcome.kind === "answer" ? outcome.certainty : "cannot tell";

/** What each word means. */
export const certaintyMeaning: Readonly<Record<CertaintyWord, string>> = {
  settled: "the range is clear of no effect",
  leaning: "points one way, but no effect is still possible",
  open: "looked at, and it could go either way",
  measured: "a description of these trays and bills; it compares nothing",
  "cannot tell": "these sheets cannot say",
};

/** The picture of a range against the line of no effect, in small. */
const pictures: Readonly<Record<CertaintyWord, preact.ComponentChild>> = {
  settled: [<path key="line" d="M4,1v12" />, <rect key="bar" class="on" x="8" y="4.5" width="14" height="5" />],
  leaning: [
    <path key="line" d="M7,1v12" />,
    <rect key="bar" class="on" x="3" y="4.5" width="19" height="5" />,
    <path key="cut" class="cut" d="M7,4.5v5" />,
  ],
  open: [<path key="line" d="M12,1v3.5M12,9.5v3.5" />, <rect key="bar" x="2.5" y="5" width="19" height="4" />],
  measured: [<path key="line" d="M3,7h18" />, <circle key="bar" class="on" cx="12" cy="7" r="3.6" />],
  "cannot tell": [<path key="line" d="M12,1v12" />, <path key="bar" class="dash" d="M1,7h8.5M14.5,7h8.5" />],
};

/** The mark alone. */
export const VerdictPicture = ({ certainty }: { certainty: CertaintyWord }) => (
  <svg class="rack" viewBox="0 0 24 14" width="24" height="14" aria-hidden="true" focusable="false">
    {pictures[certainty]}
  </svg>
);

/** The certainty of an answer as a mark and a word. */
export const VerdictMark = ({ certainty }: { certainty: CertaintyWord }) => (
  <span class="verdict">
    <VerdictPicture certainty={certainty} />
    {certainty}
  </span>
);
