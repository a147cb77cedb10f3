import { type FieldKind, type HarvestFieldKey, harvestField, isHarvestFieldKey } from "../../records/harvest-field.ts";
import { type CellClass, fits } from "./cell-class.ts";
import { meaningsOf } from "./field-phrases.ts";
import { isMarkedFree } from "./free-mark.ts";
import { headerParts } from "./header-unit.ts";
import { correctedWords, wordsOf } from "./header-words.ts";

/** One way to take a column. */
export interface ColumnMeaning {
  field: HarvestFieldKey;
  /** what decided, for the log: "canonical name", "synonym", "spelling", "pinned in columns.csv" */
  because: string;
  /** how sure: a canonical name or pin 3, a synonym or its misspelling 2, a word that says little 1 */
  rank: number;
  /** unit stated in the header, by name; "" when none */
  unit: string;
  /** for a weight or date of one flush in a column of its own */
  flush?: number;
}

const withUnit = (kind: FieldKind, units: ReturnType<typeof headerParts>["units"]): string | undefined =>
  units.length === 0 ? "" : units.find((unit) => unit.kind === kind)?.name;

const flushFirst = /\b(?:flush|pick|picking|break|harvest|crop)\s*#?\s*(\d)\b/i;
const ordinalFirst = /\b(\d)\s*(?:st|nd|rd|th)\s*(?:flush|pick|picking|break|harvest|crop)\b/i;
const letterFirst = /^f\s?(\d)\b/i;

function flushMeanings(header: string): ColumnMeaning[] {
  const match = flushFirst.exec(header) ?? ordinalFirst.exec(header) ?? letterFirst.exec(header);
  if (match === null) return [];
  const rest = header.replace(match[0], " ").trim();
  const parts = headerParts(rest);
  const words = wordsOf(parts.name);
  const named = /\p{L}/u.test(parts.name)
    ? meaningsOf(words)
    : (["fresh_g", "harvested_on"] as const).map((field) => ({ field, weak: false }));
  return named.flatMap(({ field }) => {
    const unit = withUnit(harvestField(field).kind, parts.units);
    if (unit === undefined || (field !== "fresh_g" && field !== "dry_g" && field !== "harvested_on")) return [];
    return [{ field, because: `synonym, of flush ${match[1]}`, rank: 2, unit, flush: Number(match[1]) }];
  });
}

/**
 * Every field that a header may name, by its words, their misspellings, and the unit it states; several where only the
 * cells can tell ("Dried": a date or a weight). Empty for a header nobody is known to write.
 */
export function meaningsOfHeader(header: string): ColumnMeaning[] {
  if (isMarkedFree(header)) return [];
  const key = header.trim();
  if (isHarvestFieldKey(key)) {
    const unit = harvestField(key).unit;
    return [{ field: key, because: "canonical name", rank: 3, unit }];
  }
  const byFlush = flushMeanings(header);
  if (byFlush.length > 0) return byFlush;
  const parts = headerParts(header);
  const variants = [header, parts.full, parts.name].map(wordsOf);
  for (const word of ["tray", "date", "total"]) {
    for (const words of variants.slice(0, 3)) {
      if (words.length > 1 && words.includes(word)) variants.push(words.filter((other) => other !== word));
    }
  }
  for (const because of ["synonym", "spelling"]) {
    for (const words of variants) {
      const spelt = because === "spelling" ? correctedWords(words) : words;
      if (spelt === undefined) continue;
      const found = meaningsOf(spelt).flatMap(({ field, weak }): ColumnMeaning[] => {
        const unit = withUnit(harvestField(field).kind, parts.units);
        return unit === undefined ? [] : [{ field, because, rank: weak ? 1 : 2, unit }];
      });
      if (found.length > 0) return found;
    }
  }
  return [];
}

/** Counts of cells by what they look like. */
export type ColumnProfile = Readonly<Partial<Record<CellClass, number>>>;

/** How well a field's kind is served by a column's cells, 0 to 1; 0.5 for a column with nothing in it. */
export function fitness(field: HarvestFieldKey, profile: ColumnProfile): number {
  const { kind } = harvestField(field);
  let served = 0;
  let cells = 0;
  for (const [cell, count] of Object.entries(profile) as [CellClass, number][]) {
    if (cell === "empty") continue;
    served += fits(kind, cell) * count;
    cells += count;
  }
  return cells === 0 ? 0.5 : served / cells;
}

/** The one meaning that a column's cells bear out; several where they cannot tell. */
export function borneOut(meanings: ReadonlyArray<ColumnMeaning>, profile: ColumnProfile): ColumnMeaning[] {
  const scored = meanings
    .map((meaning) => ({ meaning, fit: fitness(meaning.field, profile) }))
    .sort((a, b) => b.fit - a.fit || b.meaning.rank - a.meaning.rank);
  const best = scored[0];
  if (best === undefined || best.fit < 0.25) return [];
  return scored.filter(({ fit }) => fit > best.fit - 0.1).map(({ meaning }) => meaning);
}
