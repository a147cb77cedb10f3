import { sourceOf } from "../../records/tray.ts";
import { saysOfSetUp } from "../../records/words/field-phrases.ts";
import { fold } from "../../records/words/fold.ts";
import { isFilling } from "../values/outcome-phrases.ts";
import { outcomesExpected, readOutcome } from "../values/outcome-words.ts";
import { addFlag } from "./add-flag.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

/** A note that is understood, or made of words for things of the set-up only ("moved to shelf 2"). */
function isUnderstood(note: string): boolean {
  if (readOutcome(note) !== undefined) return true;
  const words = fold(note).split(" ");
  return (
    words[0] !== "" &&
    words.every((word) => /^\d+$/.test(word) || isFilling(word) || (word.length > 2 && saysOfSetUp(word)))
  );
}

/**
 * A note that nobody understands may be why its tray has no weight: it is asked about, rather than counted as growing, where
 * it is just the trays with notes that were not picked, and at least as many of the same start as they are were.
 * @param open trays of which only a note tells anything; changed in place
 */
export function askUnexplained(trays: ReadonlyArray<TrayDraft>, open: ReadonlySet<TrayDraft>, log: TrayLog): void {
  const startOf = (draft: TrayDraft): string => draft.batch ?? draft.inoculatedOn ?? sourceOf(draft).file;
  const asked = [...open].filter((draft) => draft.outcome === "growing" && !isUnderstood(draft.note ?? ""));
  if (asked.length === 0) return;
  const starts = new Map(asked.map((draft) => [startOf(draft), { ended: 0, asked: 0, growing: 0 }]));
  const doubted = new Set(asked);
  for (const draft of trays) {
    const start = starts.get(startOf(draft));
    if (start === undefined) continue;
    if (doubted.has(draft)) start.asked++;
    else if (draft.outcome === "growing") start.growing += draft.note === undefined ? 1 : 0;
    else start.ended++;
  }
  for (const draft of asked) {
    const start = starts.get(startOf(draft))!;
    if (start.growing > 0 || start.ended < start.asked) continue;
    draft.outcome = "asked";
    addFlag(draft, "note-not-understood");
    logAtRow(log, draft.trayId, sourceOf(draft), "note", {
      rule: "note-not-understood",
      severity: "warning",
      raw: draft.note ?? "",
      result: "asked",
      reason: "the others of its start have ended, and no known word of its note says whether it was lost or grows on",
      expected: outcomesExpected,
      action: `Type the outcome: ${outcomesExpected}`,
    });
  }
}
