import type { Outcome } from "../../records/tray.ts";
import { worstOf } from "./row-outcome.ts";
import type { TrayDraft } from "./tray-draft.ts";

/** What the rows of one tray say together of its outcome. */
export interface MergedOutcome {
  outcome: Outcome | undefined;
  /** rows that cannot both be right */
  contradicts: boolean;
  /** picked from, and lost later */
  laterFlushLost: boolean;
}

const lastFlush = ({ flushes }: TrayDraft): number => Math.max(0, ...flushes.map(({ number }) => number));

/** Settles the outcome of a tray that several rows speak of; a typed "growing" gives way to what came after it. */
export function mergeOutcomes(drafts: ReadonlyArray<TrayDraft>): MergedOutcome {
  const said = drafts.flatMap((draft) =>
    draft.outcome === undefined ? [] : [{ outcome: draft.outcome, flush: lastFlush(draft) }],
  );
  const outcomes = [...new Set(said.map(({ outcome }) => outcome))];
  const plain = (outcome: Outcome | undefined): MergedOutcome => ({
    outcome,
    contradicts: false,
    laterFlushLost: false,
  });
  if (outcomes.length <= 1) return plain(outcomes[0]);
  if (outcomes.includes("asked")) return plain("asked");
  const settled = said.filter(({ outcome }) => outcome !== "growing");
  const growing = said.filter(({ outcome }) => outcome === "growing");
  const lastSettled = Math.max(...settled.map(({ flush }) => flush));
  if (growing.some(({ flush }) => flush > lastSettled)) return plain("growing");
  const left = [...new Set(settled.map(({ outcome }) => outcome))];
  if (left.length === 1 || !left.includes("good")) return plain(worstOf(left));
  const good = settled.filter(({ outcome }) => outcome === "good");
  const lost = settled.filter(({ outcome }) => outcome !== "good");
  const later = Math.min(...lost.map(({ flush }) => flush)) > Math.max(...good.map(({ flush }) => flush));
  if (later) return { outcome: "good", contradicts: false, laterFlushLost: true };
  return { outcome: "asked", contradicts: true, laterFlushLost: false };
}
