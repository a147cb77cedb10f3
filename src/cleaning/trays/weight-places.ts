import { grouped } from "../../records/grouped.ts";
import { type HarvestFieldKey, isWeightField } from "../../records/harvest-field.ts";
import { type Flush, pickingsOf, type RowSource, sourceOf, sourcesOf, type Tray } from "../../records/tray.ts";
import { type FlushField, flushProperty } from "../../records/tray-property.ts";
import type { TrayDraft } from "./tray-draft.ts";

/** A cell of a sheet. */
export interface CellPlace extends RowSource {
  /** header as typed; "" where the sheet has no column for it */
  column: string;
}

/** What of a tray tells where a fact of it was typed. */
export type PlacedTray = Pick<
  Tray,
  "trayId" | "file" | "row" | "sources" | "flushes" | "freshGrams" | "dryGrams" | "harvestedOn"
>;

/** Where a fact of a tray was typed. @param flush of which picking; the heaviest one unless given */
export type PlaceOf = (tray: PlacedTray, field: HarvestFieldKey, flush?: number) => CellPlace;

/** The header over a field in a file; over that of one flush where flushes stand side by side; "" when it has none. */
export type HeaderOf = (file: string, field: HarvestFieldKey, flush?: number) => string;

/** The heaviest picking of a tray: where a total is wrong, most likely the one that was mistyped. */
export function heaviestFlush(flushes: ReadonlyArray<Flush>, property: "freshGrams" | "dryGrams"): Flush | undefined {
  let heaviest: Flush | undefined;
  for (const flush of flushes) if ((flush[property] ?? -1) > (heaviest?.[property] ?? -1)) heaviest = flush;
  return heaviest;
}

const isOfFlush = (field: HarvestFieldKey): field is FlushField => field in flushProperty;

/**
 * Finds the cell of a tray's weight or harvest day: of its row among the tray's rows, and its column where flushes stand
 * side by side. Rows are looked through only when a tray of several rows is asked about.
 * @param drafts the rows of all sheets
 */
export function weightPlaces(drafts: ReadonlyArray<TrayDraft>, headerOf: HeaderOf): PlaceOf {
  let byRow: Map<string, TrayDraft[]> | undefined;
  const placeOf = ({ file, row }: RowSource): string => `${file}\n${row}`;
  const rowsAt = (source: RowSource): ReadonlyArray<TrayDraft> => {
    byRow ??= grouped(drafts, (draft) => placeOf(sourceOf(draft)));
    return byRow.get(placeOf(source)) ?? [];
  };
  const tells = (source: RowSource, field: FlushField, number: number): boolean =>
    rowsAt(source).some(({ flushes }) =>
      flushes.some((flush) => flush.number === number && flush[flushProperty[field]] !== undefined),
    );
  return (tray, field, flush) => {
    const number = flush ?? (isWeightField(field) ? heaviestNumber(pickingsOf(tray), field) : undefined);
    const rows = sourcesOf(tray).filter(({ file }) => headerOf(file, field, number) !== "");
    const [first = sourceOf(tray), ...more] = rows;
    let source = first;
    if (more.length > 0 && isOfFlush(field) && number !== undefined)
      // a weight without a number is of the first flush
      source = [number, 0].flatMap((one) => rows.filter((row) => tells(row, field, one)))[0] ?? first;
    return { ...source, column: headerOf(source.file, field, number) };
  };
}

const heaviestNumber = (flushes: ReadonlyArray<Flush>, field: "fresh_g" | "dry_g"): number | undefined =>
  heaviestFlush(flushes, flushProperty[field])?.number;
