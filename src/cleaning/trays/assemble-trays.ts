import type { Tray } from "../../records/tray.ts";
import { askUnexplained } from "./ask-unexplained.ts";
import { finishTray } from "./finish-tray.ts";
import { mergeDrafts } from "./merge-drafts.ts";
import { NameTable } from "./name-table.ts";
import { partingFacts } from "./parting-facts.ts";
import { splitByTray } from "./split-names.ts";
import type { TrayDraft } from "./tray-draft.ts";
import type { EvidenceByDraft } from "./tray-evidence.ts";
import type { TrayLog } from "./tray-log.ts";

/**
 * Puts rows together to trays: one record for each tray, in the order first met.
 * @param drafts one for each row of every sheet; they are used up
 * @param evidence what rows tell of their trays' ends besides
 */
export function assembleTrays(
  drafts: ReadonlyArray<TrayDraft>,
  log: TrayLog,
  evidence: EvidenceByDraft = new Map(),
): Tray[] {
  const firsts: TrayDraft[] = [];
  const more = new Map<number, TrayDraft[]>();
  const names = new NameTable(drafts.length, (place) => firsts[place]!.trayId);
  for (const draft of drafts) {
    const place = names.add(draft.trayId, firsts.length);
    if (place === firsts.length) {
      firsts.push(draft);
      continue;
    }
    const others = more.get(place);
    if (others === undefined) more.set(place, [draft]);
    else others.push(draft);
  }
  const parting = more.size < 2 ? new Map() : partingFacts(drafts);
  const trays: TrayDraft[] = [];
  for (const [place, first] of firsts.entries()) {
    const others = more.get(place);
    if (others === undefined) {
      trays.push(first);
      continue;
    }
    for (const rows of splitByTray([first, ...others], log, parting)) {
      trays.push(rows.length === 1 ? rows[0]! : mergeDrafts(rows, log, evidence));
    }
  }
  const open = new Set<TrayDraft>();
  for (const draft of trays) {
    if (draft.outcome === undefined && draft.note !== undefined && evidence.get(draft)?.says === undefined)
      open.add(draft);
    finishTray(draft, log, evidence.get(draft));
  }
  askUnexplained(trays, open, log);
  return trays as Tray[];
}
