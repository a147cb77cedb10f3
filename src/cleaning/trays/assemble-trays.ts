import { addTo } from "../../records/grouped.ts";
import { pickingOf, pickingsOf, sourceOf, type Tray } from "../../records/tray.ts";
import { addFlag } from "./add-flag.ts";
import { askCorrected } from "./ask-corrected.ts";
import { askHalves } from "./ask-halves.ts";
import { askWeighedWith } from "./ask-named.ts";
import { askUnexplained } from "./ask-unexplained.ts";
import { finishTray } from "./finish-tray.ts";
import { mergeDrafts } from "./merge-drafts.ts";
import { NameTable } from "./name-table.ts";
import { joinNamesAcrossSheets } from "./names-across-sheets.ts";
import { partingFacts } from "./parting-facts.ts";
import { toldAgain } from "./same-tray.ts";
import { splitByTray } from "./split-names.ts";
import type { TrayDraft } from "./tray-draft.ts";
import type { EvidenceByDraft } from "./tray-evidence.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

/** A row of a tray that has others: its weights are one picking among several, whose number is not known yet. */
function withPickings(row: TrayDraft): TrayDraft {
  if (row.flushes.length > 0 || pickingsOf(row).length === 0) return row;
  row.flushes = [pickingOf(0, row)];
  row.freshGrams = undefined;
  row.dryGrams = undefined;
  row.harvestedOn = undefined;
  return row;
}

function sayToldAgain(row: TrayDraft, log: TrayLog): void {
  const rule = "name-in-two-sheets";
  addFlag(row, rule);
  logAtRow(log, row.trayId, sourceOf(row), "tray_id", {
    ...{ rule, severity: "warning", raw: row.trayId },
    reason: "a tray of this name and set-up was picked by another sheet: taken for the same one, and counted once",
    expected: "a name of its own, if it is another tray",
    action:
      "If it is another tray, type the cook of both in a column batch, or name both files after theirs: batch A.csv, batch B.csv",
  });
}

/** @param more further rows of a tray, by the place of its first one */
function putTogether(
  drafts: ReadonlyArray<TrayDraft>,
  more: ReadonlyMap<number, ReadonlyArray<TrayDraft>>,
  log: TrayLog,
  evidence: EvidenceByDraft,
): TrayDraft[] {
  const further = new Set([...more.values()].flat());
  const parting = more.size < 2 ? new Map() : partingFacts(drafts);
  return drafts.flatMap((first, place) => {
    if (further.has(first)) return [];
    const others = more.get(place);
    if (others === undefined) return [first];
    return splitByTray([first, ...others].map(withPickings), log, parting).map((rows) => {
      if (rows.length === 1) return rows[0]!;
      for (const row of toldAgain(rows, (file) => log.headerOf(file, "fresh_g") !== "")) sayToldAgain(row, log);
      return mergeDrafts(rows, log, evidence);
    });
  });
}

/**
 * Puts rows together to trays: one record for each tray, in the order first met.
 * @param drafts one for each row of every sheet; they are used up
 * @param evidence what rows tell of their trays' ends besides; @param besides asks by what stands elsewhere in the book
 */
export function assembleTrays(
  drafts: ReadonlyArray<TrayDraft>,
  log: TrayLog,
  evidence: EvidenceByDraft,
  besides?: (trays: ReadonlyArray<TrayDraft>, log: TrayLog) => void,
): Tray[] {
  joinNamesAcrossSheets(drafts, log, evidence);
  const more = new Map<number, TrayDraft[]>();
  const names = new NameTable(drafts.length, (place) => drafts[place]!.trayId);
  for (let at = 0; at < drafts.length; at++) {
    const first = names.add(drafts[at]!.trayId, at);
    if (first !== at) addTo(more, first, drafts[at]!);
  }
  const trays = more.size === 0 ? drafts : putTogether(drafts, more, log, evidence);
  const open = new Set<TrayDraft>();
  for (const draft of trays) {
    const own = evidence.size === 0 ? undefined : evidence.get(draft);
    if (draft.outcome === undefined && draft.note !== undefined && own?.says === undefined) open.add(draft);
    finishTray(draft, log, own);
  }
  askWeighedWith(trays, log);
  besides?.(trays, log);
  askUnexplained(trays, open, log);
  askCorrected(trays, log);
  askHalves(trays, log);
  return trays as ReadonlyArray<TrayDraft> as Tray[];
}
