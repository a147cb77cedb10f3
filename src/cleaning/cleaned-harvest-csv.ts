import { writeCsv } from "../csv/write-csv.ts";
import type { Book } from "../records/book.ts";
import { type HarvestFieldKey, harvestField, harvestFields } from "../records/harvest-field.ts";
import type { Bounds, Flush, Tray } from "../records/tray.ts";
import { canonicalBounds, canonicalNumber } from "./rows/canonical-text.ts";
import { type PlainField, plainFields, trayProperty } from "./trays/tray-draft.ts";

const shown = (value: number | string | undefined, field: HarvestFieldKey): string =>
  value === undefined ? "" : typeof value === "string" ? value : canonicalNumber(value, harvestField(field).kind);

const isPlain = (field: HarvestFieldKey): field is PlainField => field in trayProperty;

/** What is left of a tray's limits on a weight for the one flush without it. */
function openBounds({ low, high }: Bounds, known: number): Bounds | undefined {
  const rest = (end: number | undefined): number | undefined =>
    end === undefined ? undefined : Number((end - known).toPrecision(14));
  const [lowRest, highRest] = [rest(low), rest(high)];
  if ((lowRest ?? 0) <= 0 && highRest === undefined) return undefined;
  return {
    ...(lowRest === undefined || lowRest <= 0 ? {} : { low: lowRest }),
    ...(highRest === undefined ? {} : { high: highRest }),
  };
}

function weight(tray: Tray, flush: Flush | undefined, isFirst: boolean, field: "fresh_g" | "dry_g"): string {
  const property = field === "fresh_g" ? "freshGrams" : "dryGrams";
  const value = flush?.[property];
  if (value !== undefined) return shown(value, field);
  const bounds = tray.bounds[field];
  if (bounds === undefined) return "";
  const known = tray.flushes.flatMap((one) => (one[property] === undefined ? [] : [one[property]]));
  if (known.length === 0) return isFirst ? canonicalBounds(bounds, "mass") : "";
  const firstOpen = tray.flushes.find((one) => one[property] === undefined);
  if (flush !== firstOpen) return "";
  const left = openBounds(
    bounds,
    known.reduce((sum, one) => sum + one, 0),
  );
  return left === undefined ? "" : canonicalBounds(left, "mass");
}

function cell(tray: Tray, flush: Flush | undefined, isFirst: boolean, field: HarvestFieldKey): string {
  if (isPlain(field)) {
    const value = tray[trayProperty[field]];
    const bounds = value === undefined ? tray.bounds[field] : undefined;
    return bounds === undefined ? shown(value, field) : canonicalBounds(bounds, harvestField(field).kind);
  }
  switch (field) {
    case "tray_id":
      return tray.trayId;
    case "outcome":
      return tray.outcome;
    case "fresh_g":
    case "dry_g":
      return weight(tray, flush, isFirst, field);
    case "harvested_on":
      return flush?.harvestedOn ?? "";
    case "flush":
      return flush !== undefined && (tray.flushes.length > 1 || flush.number !== 1) ? String(flush.number) : "";
    case "trays_in_pool":
      return tray.traysInPool === 1 ? "" : String(tray.traysInPool);
    case "note":
      return tray.note ?? "";
  }
}

/** The columns a cleaned sheet needs: those the book's sheets have, and those its trays fill. */
function columnsOf({ trays, columns }: Book): HarvestFieldKey[] {
  const needed = new Set<string>(["tray_id", "outcome", ...columns.map(({ field }) => field)]);
  for (const tray of trays) {
    for (const field of plainFields) if (tray[trayProperty[field]] !== undefined) needed.add(field);
    for (const field of Object.keys(tray.bounds)) needed.add(field);
    if (tray.traysInPool !== 1) needed.add("trays_in_pool");
    if (tray.note !== undefined) needed.add("note");
    if (tray.flushes.length > 1 || (tray.flushes[0]?.number ?? 1) !== 1) needed.add("flush");
    for (const { freshGrams, dryGrams, harvestedOn } of tray.flushes) {
      if (freshGrams !== undefined) needed.add("fresh_g");
      if (dryGrams !== undefined) needed.add("dry_g");
      if (harvestedOn !== undefined) needed.add("harvested_on");
    }
  }
  return harvestFields.map(({ key }) => key).filter((key) => needed.has(key));
}

/**
 * The trays of a book as one tidy harvest sheet: canonical columns first, then free ones; one row per tray, or per flush
 * where a tray has several; numbers in canonical units in the shortest text that reads back as the same number. Cells
 * that a spreadsheet would run as formulas are guarded. Reading it again gives the same trays.
 */
export function cleanedHarvestCsv(book: Book): string {
  const fields = columnsOf(book);
  const free = [...new Set(book.trays.flatMap(({ factors }) => Object.keys(factors)))];
  function* rows(): Generator<string[]> {
    yield [...fields, ...free];
    for (const tray of book.trays) {
      const flushes: (Flush | undefined)[] = tray.flushes.length > 0 ? tray.flushes : [undefined];
      for (const [index, flush] of flushes.entries()) {
        yield [
          ...fields.map((field) => cell(tray, flush, index === 0, field)),
          ...free.map((header) => (Object.hasOwn(tray.factors, header) ? tray.factors[header]! : "")),
        ];
      }
    }
  }
  return writeCsv(rows(), { guard: true });
}
