import { grouped } from "../../records/grouped.ts";
import { sourceOf } from "../../records/tray.ts";
import { fold } from "../../records/words/fold.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { addFlag } from "./add-flag.ts";
import { isSetUp } from "./parting-facts.ts";
import type { TrayDraft } from "./tray-draft.ts";
import type { EvidenceByDraft } from "./tray-evidence.ts";
import { trayKey } from "./tray-key.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

const trayWords = new Set([...phrasesOf((words) => words.tray), "no", "nr", "num", "#"]);
const initials = new Set([...trayWords].map((word) => word[0]));

const results = ["freshGrams", "dryGrams", "harvestedOn", "outcome"] as const;
type Result = (typeof results)[number];
const tells = (draft: TrayDraft, result: Result, evidence: EvidenceByDraft): boolean =>
  draft[result] !== undefined ||
  (result === "outcome" ? evidence.has(draft) : draft.flushes.some((flush) => flush[result] !== undefined));

/** A name's words before its number, and the number: "Bag 02" is "bag" and "2"; undefined for any other name. */
function numbered(name: string): { before: string; number: string } | undefined {
  const [, before, number] = /^(\D*?)[\s_.-]*0*(\d+)\s*$/.exec(name) ?? [];
  const words = fold(before ?? "")
    .split(" ")
    .filter((word) => word !== "" && !trayWords.has(word));
  return number === undefined ? undefined : { before: words.join(" "), number };
}

/** The numbers of names, where they differ in nothing else: "T1", "tray 2", "No. 3", or "1" to "3". */
function numbersOf(drafts: ReadonlyArray<TrayDraft>): Map<TrayDraft, string> {
  const parts = drafts.map(({ trayId }) => numbered(trayId));
  const letters = new Set(parts.map((part) => part?.before).filter((before) => before !== ""));
  const [letter] = letters;
  const isOne = letters.size === 0 || (letters.size === 1 && letter?.length === 1 && initials.has(letter));
  return new Map(isOne ? drafts.map((draft, at) => [draft, parts[at]!.number] as const) : []);
}

/** Drafts by the names that they may have in another sheet; no draft where two have one of them. */
function otherNames(drafts: ReadonlyArray<TrayDraft>): Map<string, TrayDraft | undefined> {
  const found = new Map<string, TrayDraft | undefined>();
  const numbers = numbersOf(drafts);
  for (const draft of drafts) {
    const { batch, trayId } = draft;
    const ofBatch = batch === undefined ? [] : [trayKey(`${batch}-${trayId}`), trayKey(`${batch}${trayId}`)];
    const number = numbers.get(draft);
    for (const name of new Set([trayKey(trayId), ...ofBatch, ...(number === undefined ? [] : [`# ${number}`])])) {
      const before = found.get(name);
      const isSame = before !== undefined && trayKey(before.trayId) === trayKey(trayId) && before.batch === batch;
      found.set(name, isSame || !found.has(name) ? draft : undefined);
    }
  }
  return found;
}

/**
 * Trays that a sheet of nothing but results calls otherwise than the sheet they were started in: "tray 2" and "T02", "7-1"
 * and tray 1 of batch 7. They take the name of their start where each has one; else they are flagged.
 * @param drafts renamed in place
 */
export function joinNamesAcrossSheets(drafts: ReadonlyArray<TrayDraft>, log: TrayLog, evidence: EvidenceByDraft): void {
  const sheets = grouped(drafts, (draft) => sourceOf(draft).file);
  if (sheets.size < 2) return;
  const parts = [...sheets.values()].map((rows) => ({ rows, isStart: rows.some(isSetUp) }));
  const started = parts.flatMap(({ rows, isStart }) => (isStart ? rows : []));
  if (started.length === 0 || parts.every(({ isStart }) => isStart)) return;
  const known = new Set(started.map(({ trayId }) => trayKey(trayId)));
  for (const { rows, isStart } of parts) {
    const told = isStart ? [] : results.filter((result) => rows.some((row) => tells(row, result, evidence)));
    const strangers = rows.filter(({ trayId }) => !known.has(trayKey(trayId)));
    const here = new Set(rows.map(({ trayId }) => trayKey(trayId)));
    const waiting = started.filter(
      (draft) => !here.has(trayKey(draft.trayId)) && told.some((result) => !tells(draft, result, evidence)),
    );
    if (strangers.length === 0 || waiting.length === 0) continue;
    const names = otherNames(waiting);
    const numbers = numbersOf(rows);
    const meant = strangers.map((row) => {
      const all = [row.trayId, `${row.batch}-${row.trayId}`, `${row.batch}${row.trayId}`].map(trayKey);
      return [...all, `# ${numbers.get(row)}`].map((name) => names.get(name)).find((start) => start !== undefined);
    });
    const areKnown = meant.every((start) => start !== undefined);
    for (const [at, row] of strangers.entries()) say(row, areKnown ? meant[at]!.trayId : undefined, log);
  }
}

function say(row: TrayDraft, name: string | undefined, log: TrayLog): void {
  const isKnown = name !== undefined;
  const raw = row.trayId;
  if (isKnown) row.trayId = name;
  else addFlag(row, "no-start-of-name");
  logAtRow(log, row.trayId, sourceOf(row), "tray_id", {
    ...{ rule: isKnown ? "name-of-start" : "no-start-of-name", severity: isKnown ? "note" : "warning", raw },
    ...(isKnown
      ? { result: name, reason: "taken for the tray that another sheet calls otherwise" }
      : {
          reason:
            "no sheet says how a tray of this name was set up, and other sheets have trays of which this one may tell",
        }),
    expected: "the tray's name as where it was started",
    action: isKnown
      ? "If it is another tray, give it a name of its own"
      : "Type the tray's name alike in both sheets, or its dose beside its weight",
  });
}
