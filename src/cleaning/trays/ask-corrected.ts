import { isLoss, sourceOf } from "../../records/tray.ts";
import { addFlag } from "./add-flag.ts";
import { correctedInNote, hasWeight } from "./corrected-in-note.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { byName } from "./tray-key.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

const rule = "corrected-by-another-note";

/**
 * A note on one tray may give another tray's weight ("A3 should be 210"): that tray is asked about where its row says
 * otherwise, all of its name where there are several; where none has the name, the tray with the note is flagged.
 */
export function askCorrected(trays: ReadonlyArray<TrayDraft>, log: TrayLog): void {
  let named: ReturnType<typeof byName<TrayDraft>> | undefined;
  for (const tray of trays) {
    const { note } = tray;
    if (note === undefined || !/\d/.test(note)) continue;
    const { grams, ofOther = "" } = correctedInNote(tray) ?? {};
    if (grams === undefined || ofOther === "") continue;
    named ??= byName(trays);
    const others = named(ofOther).filter((other) => other !== tray);
    const ofCook = others.filter(({ batch }) => batch === tray.batch);
    const meant = ofCook.length > 0 ? ofCook : others;
    if (meant.some((other) => hasWeight(other, grams))) continue;
    const wrong = meant.filter(({ outcome }) => !isLoss(outcome));
    for (const other of wrong) {
      other.outcome = "asked";
      addFlag(other, rule);
      logAtRow(log, other.trayId, sourceOf(other), "outcome", {
        rule,
        severity: "warning",
        raw: note,
        result: "asked",
        reason: `the note of tray ${tray.trayId} gives another number than the cells of this one, so its weight is not used`,
        expected: "the right weight in the row of the tray itself",
        action: "Correct the weight here, or take the words out of the note there",
      });
    }
    if (wrong.length > 0) continue;
    addFlag(tray, rule);
    logAtRow(log, tray.trayId, sourceOf(tray), "note", {
      rule,
      severity: "warning",
      raw: note,
      reason: "the note corrects another tray, whose own row may still say otherwise",
      expected: "the right number in that tray's row",
      action: "Correct the other tray's row and take the words out of the note",
    });
  }
}
