import { writeCsv } from "../csv/write-csv.ts";
import type { Book } from "../records/book.ts";
import { type HarvestFieldKey, harvestField, harvestFields } from "../records/harvest-field.ts";
import { type Bounds, type Flush, pickingsOf, type Tray } from "../records/tray.ts";
import { flushProperty, type PlainField, plainFields, trayProperty } from "../records/tray-property.ts";
import { freeName, markedFree } from "./columns/free-mark.ts";
import { meaningsOfHeader } from "./columns/match-columns.ts";
import { canonicalBounds, canonicalNumber } from "./rows/canonical-text.ts";
import { severalTrays } from "./rows/several-trays.ts";

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

/** What a tray of several flushes knows only of all of them together: a row of its own, without a flush number. */
function totalsOf({ flushes = [], freshGrams, dryGrams, harvestedOn }: Tray): Flush | undefined {
  if (flushes.length < 2) return undefined;
  const open = (property: "freshGrams" | "dryGrams" | "harvestedOn"): boolean =>
    flushes.some((flush) => flush[property] === undefined);
  const totals: Flush = { number: 0 };
  if (freshGrams !== undefined && open("freshGrams")) totals.freshGrams = freshGrams;
  if (dryGrams !== undefined && open("dryGrams")) totals.dryGrams = dryGrams;
  if (harvestedOn !== undefined && flushes.every((flush) => flush.harvestedOn === undefined))
    totals.harvestedOn = harvestedOn;
  return Object.keys(totals).length > 1 ? totals : undefined;
}

/** A flush of which only limits on its weight are known, and which no flush of the tray stands for. */
function openFlush({ freshGrams, dryGrams, bounds }: Tray, flushes: ReadonlyArray<Flush>): Flush | undefined {
  if (flushes.length === 0) return undefined;
  const isOpen = (
    property: "freshGrams" | "dryGrams",
    total: number | undefined,
    limits: Bounds | undefined,
  ): boolean => total === undefined && limits !== undefined && flushes.every((flush) => flush[property] !== undefined);
  if (!isOpen("freshGrams", freshGrams, bounds.fresh_g) && !isOpen("dryGrams", dryGrams, bounds.dry_g))
    return undefined;
  return { number: Math.max(...flushes.map(({ number }) => number)) + 1 };
}

/** One of the rows a tray takes: of one of its pickings, of all together, or of one that is open. */
interface TrayRow {
  tray: Tray;
  pickings: ReadonlyArray<Flush>;
  flush: Flush | undefined;
  isFirst: boolean;
}

function weight({ tray, pickings, flush, isFirst }: TrayRow, field: "fresh_g" | "dry_g"): string {
  const property = flushProperty[field];
  const value = flush?.[property];
  if (value !== undefined) return shown(value, field);
  const bounds = tray.bounds[field];
  if (bounds === undefined) return "";
  const known = pickings.flatMap((one) => (one[property] === undefined ? [] : [one[property]]));
  if (known.length === 0) return isFirst ? canonicalBounds(bounds, "mass") : "";
  const isExtra = flush !== undefined && flush.number > 0 && !pickings.includes(flush);
  const firstOpen = pickings.find((one) => one[property] === undefined);
  if (firstOpen === undefined ? !isExtra : flush !== firstOpen) return "";
  const left = openBounds(
    bounds,
    known.reduce((sum, one) => sum + one, 0),
  );
  if (left === undefined) return isExtra ? ">0" : "";
  return canonicalBounds(left, "mass");
}

function cell(row: TrayRow, field: HarvestFieldKey): string {
  const { tray, pickings, flush } = row;
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
      return weight(row, field);
    case "harvested_on":
      return flush?.harvestedOn ?? "";
    case "flush":
      if (flush === undefined || flush.number === 0) return "";
      return pickings.length > 1 || flush.number !== 1 ? String(flush.number) : "";
    case "trays_in_pool":
      return tray.traysInPool === 1 && severalTrays(tray.trayId) === undefined ? "" : String(tray.traysInPool);
    case "note":
      return tray.note ?? "";
  }
}

/** The columns a cleaned sheet needs: those the book's sheets have, and those its trays fill. */
function columnsOf({ trays, columns }: Pick<Book, "trays" | "columns">): HarvestFieldKey[] {
  const needed = new Set<string>(["tray_id", "outcome", ...columns.map(({ field }) => field)]);
  for (const tray of trays) {
    for (const field of plainFields) if (tray[trayProperty[field]] !== undefined) needed.add(field);
    for (const field of Object.keys(tray.bounds)) needed.add(field);
    if (tray.traysInPool !== 1 || severalTrays(tray.trayId) !== undefined) needed.add("trays_in_pool");
    if (tray.note !== undefined) needed.add("note");
    const pickings = pickingsOf(tray);
    if (pickings.length > 1 || (pickings[0]?.number ?? 1) !== 1 || openFlush(tray, pickings) !== undefined) {
      needed.add("flush");
    }
    for (const { freshGrams, dryGrams, harvestedOn } of pickings) {
      if (freshGrams !== undefined) needed.add("fresh_g");
      if (dryGrams !== undefined) needed.add("dry_g");
      if (harvestedOn !== undefined) needed.add("harvested_on");
    }
  }
  return harvestFields.map(({ key }) => key).filter((key) => needed.has(key));
}

/** Free headers that some tray has a text under, in the order of the sheets' columns. */
function freeColumnsOf({ trays, columns }: Pick<Book, "trays" | "columns">): string[] {
  const used = new Set<string>();
  for (const { factors } of trays) for (const header in factors) used.add(header);
  return [...new Set(columns.map(({ header }) => freeName(header)))].filter((header) => used.has(header));
}

/**
 * The trays of a book, those only planned at the end, as one tidy harvest sheet: canonical columns first, then free ones; one row per tray, or per flush
 * where a tray has several; numbers in canonical units in the shortest text that reads back as the same number. Cells
 * that a spreadsheet would run as formulas are guarded. Reading it again gives the same trays.
 */
export function cleanedHarvestCsv({ trays, planned = [], columns }: Book): string {
  const book = { trays: [...trays, ...planned], columns };
  const fields = columnsOf(book);
  const free = freeColumnsOf(book);
  function* rows(): Generator<string[]> {
    yield [...fields, ...free.map((name) => (meaningsOfHeader(name).length > 0 ? markedFree(name) : name))];
    for (const tray of book.trays) {
      const totals = totalsOf(tray);
      const pickings = pickingsOf(tray);
      const flushes: (Flush | undefined)[] = pickings.length > 0 ? [...pickings] : [undefined];
      if (totals !== undefined) flushes.push(totals);
      const open = openFlush(tray, pickings);
      if (open !== undefined) flushes.push(open);
      for (const [index, flush] of flushes.entries()) {
        yield [
          ...fields.map((field) => cell({ tray, pickings, flush, isFirst: index === 0 }, field)),
          ...free.map((header) => (Object.hasOwn(tray.factors, header) ? tray.factors[header]! : "")),
        ];
      }
    }
  }
  return writeCsv(rows(), { guard: true });
}
