import { type Flush, sourceOf } from "../../records/tray.ts";
import type { TrayDraft } from "./tray-draft.ts";
import type { TrayEvidence } from "./tray-evidence.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

/** Whether anything is told of a picking besides its number. */
export const isPicked = ({ freshGrams, dryGrams, harvestedOn }: Flush): boolean =>
  freshGrams !== undefined || dryGrams !== undefined || harvestedOn !== undefined;

/** Says of a row that it has the number of a flush and nothing else of it, so that it adds nothing to its tray. */
export function logEmptyFlush(row: TrayDraft, evidence: TrayEvidence | undefined, log: TrayLog): void {
  const { flushes, bounds, outcome } = row;
  const [flush] = flushes;
  if (flush === undefined || flushes.some(isPicked) || outcome !== undefined || evidence !== undefined) return;
  if (bounds.fresh_g !== undefined || bounds.dry_g !== undefined) return;
  logAtRow(log, row.trayId, sourceOf(row), "flush", {
    rule: "flush-not-picked",
    severity: "note",
    raw: String(flush.number),
    reason: "the row has the number of a flush, and neither its weight nor its day: not picked yet, it adds nothing",
    action: "Type the weight, or 0 if nothing was picked",
  });
}
