import type { TraySaid } from "../values/outcome-words.ts";
import type { TrayDraft } from "./tray-draft.ts";

/** What rows tell of a tray's end besides a plain outcome, weights and dates. Kept only for drafts that have any. */
export interface TrayEvidence {
  /** a word that leaves the outcome to other cells: drying, pending, spent, not lost */
  says?: TraySaid;
  /** the outcome was typed with a doubt */
  queried?: boolean;
  /** a weight was typed that could not be read, or that rows disagree on */
  unread?: boolean;
  /** a day of harvest or drying was typed, but not so that it can be read */
  dated?: boolean;
  /** the grower's mark says that the tray is not to count */
  leftOut?: boolean;
}

/** The evidence of drafts that have any. */
export type EvidenceByDraft = Map<TrayDraft, TrayEvidence>;

/** What several rows of one tray tell together. */
export function jointEvidence(all: ReadonlyArray<TrayEvidence>): TrayEvidence | undefined {
  if (all.length === 0) return undefined;
  const says = (["drying", "spent", "pending", "not lost"] as const).find((word) =>
    all.some((one) => one.says === word),
  );
  return {
    ...(says === undefined ? {} : { says }),
    queried: all.some(({ queried }) => queried === true),
    unread: all.some(({ unread }) => unread === true),
    dated: all.some(({ dated }) => dated === true),
    leftOut: all.some(({ leftOut }) => leftOut === true),
  };
}
