import { addTo } from "../../records/grouped.ts";
import { sourceOf } from "../../records/tray.ts";
import { addFlag } from "./add-flag.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { trayKey } from "./tray-key.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

/** Words for a part of a tray in the eight languages, from memory. */
const word =
  /(?<!\p{L})(?:(?:left|right|top|bottom|front|back|linke|rechte|obere|untere|1st|2nd|first|second)\s+)?(?:split|half|halves|part|side|hälfte|seite|teil|moitié|partie|côté|mitad|parte|lado|metà|lato|helft|deel|kant|połowa|część|strona|metade)(?!\p{L})(?:\s*[1-4](?!\d))?/iu;
const lettered = /^(.*\d)[\s._-]?([a-d])$/i;

/** The tray that a name may be a part of, as `trayKey` folds it, and whether a word says so. */
function wholeOf(name: string): { key: string; letter: string; isSaid: boolean } | undefined {
  const rest = name.replace(word, "");
  const bare = rest.replace(/[()[\],:–-]+/g, " ").trim();
  const [, whole = bare, letter = ""] = lettered.exec(bare) ?? [];
  const isSaid = rest !== name && /\d/.test(bare);
  return isSaid || letter !== "" ? { key: trayKey(whole), letter: letter.toLowerCase(), isSaid } : undefined;
}

/** Whether a name may end in a letter or hold a word: most end in a number and do not, and a million of them are looked at. */
function mayBePart(name: string): boolean {
  const last = name.charCodeAt(name.length - 1);
  if (last > 57 || last === 41) return true;
  let letters = 0;
  for (let at = 0; at < name.length && letters < 4; at++) letters = name.charCodeAt(at) > 64 ? letters + 1 : 0;
  return letters === 4;
}

const isSetUpAlike = (a: TrayDraft, b: TrayDraft): boolean =>
  a.inoculumMillilitres === b.inoculumMillilitres && a.batch === b.batch && a.inoculatedOn === b.inoculatedOn;

/**
 * "A3a" and "A3b" among A1, A2 and A4 may be the halves of one tray, which would count twice: both are asked about where no
 * A3 is, their set-up is the same, and nearly all other names are without such letters; or where a word says "half".
 */
export function askHalves(trays: ReadonlyArray<TrayDraft>, log: TrayLog): void {
  const parts = new Map<string, { tray: TrayDraft; letter: string; isSaid: boolean }[]>();
  let count = 0;
  for (const tray of trays) {
    if (!mayBePart(tray.trayId) || !/\p{L}[)\]]?$|\p{L}{4}/u.test(tray.trayId) || tray.trayId.startsWith("row "))
      continue;
    const part = wholeOf(tray.trayId);
    if (part === undefined) continue;
    const { key, ...rest } = part;
    addTo(parts, key, { tray, ...rest });
    count++;
  }
  if (parts.size === 0) return;
  const names = new Set(trays.map(({ trayId }) => trayKey(trayId)));
  const areFew = parts.size <= (trays.length - count) / 3;
  for (const [key, several] of parts) {
    const isSaid = several.some((part) => part.isSaid);
    const isRun = [...several.map(({ letter }) => letter)].sort().join("") === "abcd".slice(0, several.length);
    if (several.length < 2 || several.some(({ tray }) => !isSetUpAlike(tray, several[0]!.tray))) continue;
    if (!isSaid && (names.has(key) || !isRun || !areFew)) continue;
    for (const { tray } of several) {
      tray.outcome = "asked";
      addFlag(tray, "part-of-tray");
      logAtRow(log, tray.trayId, sourceOf(tray), "tray_id", {
        rule: "part-of-tray",
        severity: "warning",
        raw: tray.trayId,
        result: "asked",
        reason: `${several.map((part) => part.tray.trayId).join(" and ")}: parts of one tray, or trays of their own? Its weight is not used`,
        expected: "one row for all of a tray, or a number of its own for each",
        action: "Type parts in one row, their weights as 120+110; or give each tray a number of its own",
      });
    }
  }
}
