import { type HarvestFieldKey, harvestField, harvestFields } from "../../records/harvest-field.ts";
import { type Bounds, pickingsOf, type Tray } from "../../records/tray.ts";
import { fieldProperty } from "../../records/tray-property.ts";
import { columnFormat } from "../column-format.ts";
import type { NumberSettings } from "../format-quantity.ts";
import type { SheetColumn } from "./sheet-table.tsx";

/** Columns that come before the others, which keep their canonical order; flushes are shown by themselves. */
const firstFields: ReadonlyArray<HarvestFieldKey> = [
  "tray_id",
  "outcome",
  "inoculum_ml",
  "fresh_g",
  "dry_g",
  "final_moisture_pct",
];
const fieldsInOrder = [...new Set([...firstFields, ...harvestFields.map(({ key }) => key)])].filter(
  (key) => key !== "flush",
);

/** One column of the trays table with its cells. */
export interface TrayColumn {
  column: SheetColumn;
  cells: string[];
}

const unitOf = (unit: string): string => (unit === "%" ? "share" : unit === "" ? "factor" : unit);

function boundsText(bounds: Bounds, write: (value: number) => string): string {
  const { low, high } = bounds;
  if (low !== undefined && high !== undefined) return `${write(low)} to ${write(high)}`;
  if (low !== undefined) return `over ${write(low)}`;
  return high === undefined ? "" : `under ${write(high)}`;
}

function fieldColumn(
  trays: ReadonlyArray<Tray>,
  key: Exclude<HarvestFieldKey, "flush">,
  settings: NumberSettings,
): TrayColumn {
  const { label, unit, kind } = harvestField(key);
  const values = trays.map((tray) => tray[fieldProperty[key]]);
  const numbers = values.filter((value) => typeof value === "number");
  if (kind === "text" || kind === "date" || kind === "outcome")
    return {
      column: { label, wide: key === "note" },
      cells: values.map((value) => (typeof value === "string" ? value : "")),
    };
  const ends = trays.flatMap(({ bounds }) => [bounds[key]?.low, bounds[key]?.high]);
  const format = columnFormat(
    { label, unit: unitOf(unit) },
    [...numbers, ...ends.filter((end) => end !== undefined)],
    settings,
    true,
  );
  return {
    column: { label, numeric: true, ...(format.unit === "" || format.unit === "days" ? {} : { unit: format.unit }) },
    cells: values.map((value, index) => {
      if (typeof value === "number") return format.write(value);
      const bounds = trays[index]!.bounds[key];
      return bounds === undefined ? "" : boundsText(bounds, format.write);
    }),
  };
}

/** free columns shown; the sheets have the rest */
const mostFactors = 20;

/**
 * The columns of the trays table: those in which something is stated, tray and outcome first, then the sheets' own
 * columns, then the flags.
 * @returns the columns, those that read the same for every tray apart, and how many free columns were left away
 */
export function trayColumns(trays: ReadonlyArray<Tray>, settings: NumberSettings) {
  const factors = [...new Set(trays.flatMap((tray) => Object.keys(tray.factors)))];
  const flushes = trays.some((tray) => pickingsOf(tray).length > 1)
    ? [
        {
          column: { label: "Flushes", numeric: true },
          cells: trays.map((tray) => String(pickingsOf(tray).length)),
        },
      ]
    : [];
  const every: TrayColumn[] = [
    ...fieldsInOrder.map((key) => fieldColumn(trays, key, settings)),
    ...flushes,
    ...factors.slice(0, mostFactors).map((factor) => ({
      column: { label: factor },
      cells: trays.map((tray) => (Object.hasOwn(tray.factors, factor) ? (tray.factors[factor] ?? "") : "")),
    })),
    {
      column: { label: "Flagged for", wide: true },
      cells: trays.map((tray) => tray.flags.map((flag) => flag.replaceAll("-", " ")).join(", ")),
    },
  ].filter(({ cells }, index) => index === 0 || cells.some((cell) => cell !== ""));
  const isSame = ({ cells }: TrayColumn, index: number) =>
    index > 1 && cells.length > 1 && cells.every((cell) => cell === cells[0]);
  return {
    columns: every.filter((column, index) => !isSame(column, index)),
    same: every.filter(isSame).map(({ column, cells }) => ({ ...column, value: cells[0]! })),
    factorsLeftAway: Math.max(0, factors.length - mostFactors),
  };
}
