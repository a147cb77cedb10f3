import type { TableColumn } from "../analysis.ts";
import { displayUnit, displayValue, isFineRate } from "./display-unit.ts";
import { decimalsOf, type NumberSettings } from "./format-quantity.ts";
import { currencyName, isNothing, writeNumber } from "./write-number.ts";

/** One column's head and how its numbers are written: the unit stands in the head, not in the cells. */
export interface ColumnFormat {
  unit: string;
  write(value: number): string;
}

/** The unit of a column's head: "g per tray", "€ per g", "%". */
export function headUnit(unit: string, settings: NumberSettings, largest: number): string {
  const shown = displayUnit(unit, settings, largest);
  const name = shown.style === "money" ? currencyName(settings) : shown.name;
  return [name, shown.per === "" ? "" : `per ${shown.per}`].filter((part) => part !== "").join(" ");
}

/** A label as the head of a column or axis: its first word gets a capital unless it is a symbol such as p, n or mL. */
export const asHead = (label: string): string =>
  /^[a-z]{2,}\b/.test(label) ? label[0]!.toUpperCase() + label.slice(1) : label;

/** A label with its unit, unless the label names the unit already: "Dry weight (g)", "Days to colonise". */
export const withUnit = (label: string, unit: string): string =>
  unit === "" || (/^[a-z]{3,}$/.test(unit) && label.toLowerCase().includes(unit)) ? label : `${label} (${unit})`;

/**
 * Decimals for a whole column: three digits of a number larger than most, two digits of the middle one; a lone tiny
 * value must not lengthen the rest.
 */
function commonDecimals(shown: ReadonlyArray<number>, decimalsFor: (value: number, digits?: number) => number): number {
  const sorted = shown.map(Math.abs).sort((a, b) => a - b);
  const upper = sorted[Math.round((sorted.length - 1) * 0.75)];
  const middle = sorted[Math.floor(sorted.length / 2)];
  if (upper === undefined || middle === undefined) return 0;
  const whole = shown.every((value) => decimalsFor(value) === 0);
  return whole ? 0 : Math.max(decimalsFor(upper, 3), decimalsFor(middle, 2));
}

/** Decimals a recorded number was typed with, up to two; one with more was worked out of another unit and has three digits. */
function recordedDecimals(value: number): number {
  const typed = Number(value.toPrecision(12));
  if (Number(typed.toFixed(2)) !== typed) return Math.min(2, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(typed)))));
  return (typed.toFixed(2).replace(/0+$/, "").split(".")[1] ?? "").length;
}

/**
 * How a column of a table is written: one unit and one number of decimals for all its numbers.
 * @param asRecorded for a record and not a result: as many decimals as its numbers have, up to two
 * @throws RangeError if a value is not a number
 */
export function columnFormat(
  column: TableColumn,
  values: ReadonlyArray<number>,
  settings: NumberSettings,
  asRecorded = false,
): ColumnFormat {
  const wrong = values.find(Number.isNaN);
  if (wrong !== undefined) {
    throw new RangeError(`columnFormat: the column "${column.label}" must hold numbers, received ${wrong}`);
  }
  const unit = column.unit ?? "factor";
  const finite = values.filter(Number.isFinite);
  const largest = finite.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const shown = displayUnit(unit, settings, largest);
  const isFine = isFineRate(shown);
  const converted = finite.map((value) => displayValue(value, shown)).filter((value) => !isNothing(value));
  // plain sums of money keep to the coin
  const isSum = shown.style === "money" && !isFine;
  const decimals = asRecorded
    ? Math.max(0, ...new Set(converted.map(recordedDecimals)))
    : commonDecimals(converted, (value, digits) =>
        decimalsOf(value, shown.style, isFine, settings, column.digits ?? (isSum ? undefined : digits)),
      );
  // a column of money keeps its coins even where every cell is 0
  const atLeast = shown.style === "money" && column.digits === undefined ? settings.currencyDecimals : 0;
  const inCells = shown.style === "probability" ? "probability" : "plain";
  const style = { decimals: Math.max(decimals, atLeast), style: inCells, signed: false, settings } as const;
  return {
    unit: headUnit(unit, settings, largest),
    write: (value) => writeNumber(displayValue(value, shown), style),
  };
}
