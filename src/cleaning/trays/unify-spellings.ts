import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import { sourceOf } from "../../records/tray.ts";
import { plainFields, trayProperty } from "../../records/tray-property.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

/** The key under which a column's different texts are gathered: a tray's property, or a free header. */
export const levelKey = (name: string, isFactor: boolean): string => (isFactor ? `factor ${name}` : name);

const folded = (text: string): string => {
  const lower = text.toLowerCase();
  return /[\s_-]/.test(lower) ? lower.replace(/[\s_-]+/g, " ") : lower;
};

const fieldOfProperty = new Map<string, HarvestFieldKey>(plainFields.map((field) => [trayProperty[field], field]));

type Loose = Record<string, unknown>;

/** Names that differ only in case, spaces or hyphens, where any do: every spelling by its folded form. */
function variants(texts: ReadonlyArray<string>): Set<string> {
  const seen = new Map<string, string>();
  const several = new Set<string>();
  for (const text of new Set(texts)) {
    const key = folded(text);
    if (seen.has(key)) several.add(key);
    else seen.set(key, text);
  }
  return several;
}

/**
 * Names that differ only in case, spaces or hyphens are one name ("Rye", "rye "): each is read in its most frequent
 * spelling, the first in the alphabet of equally frequent ones.
 * @param levels the different texts of each column of names, of every sheet
 */
export function unifySpellings(
  drafts: ReadonlyArray<TrayDraft>,
  levels: ReadonlyArray<ReadonlyMap<string, ReadonlyArray<string>>>,
  log: TrayLog,
): void {
  const keys = new Set(levels.flatMap((sheet) => [...sheet.keys()]));
  for (const key of keys) {
    const several = variants(levels.flatMap((sheet) => sheet.get(key) ?? []));
    if (several.size === 0) continue;
    const header = key.startsWith("factor ") ? key.slice(7) : undefined;
    const textOf = (draft: TrayDraft): string | undefined =>
      header === undefined
        ? ((draft as unknown as Loose)[key] as string | undefined)
        : Object.hasOwn(draft.factors, header)
          ? draft.factors[header]
          : undefined;
    const counts = new Map<string, Map<string, number>>();
    for (const draft of drafts) {
      const text = textOf(draft);
      if (text === undefined || !several.has(folded(text))) continue;
      const spellings = counts.get(folded(text)) ?? new Map<string, number>();
      spellings.set(text, (spellings.get(text) ?? 0) + 1);
      counts.set(folded(text), spellings);
    }
    const chosen = new Map(
      [...counts].map(([fold, spellings]) => [
        fold,
        [...spellings].sort(([a, n], [b, m]) => m - n || (a < b ? -1 : 1))[0]![0],
      ]),
    );
    for (const draft of drafts) {
      const text = textOf(draft);
      const spelling = text === undefined ? undefined : chosen.get(folded(text));
      if (text === undefined || spelling === undefined || spelling === text) continue;
      if (header === undefined) (draft as unknown as Loose)[key] = spelling;
      else draft.factors[header] = spelling;
      const field = header === undefined ? (fieldOfProperty.get(key) ?? "") : "";
      logAtRow(log, draft.trayId, sourceOf(draft), field, {
        rule: "spelling-unified",
        severity: "change",
        raw: text,
        result: spelling,
        reason: "differs from another name only in case, spaces or hyphens: read as the more frequent spelling",
        ...(header === undefined ? {} : { column: header }),
      });
    }
  }
}
