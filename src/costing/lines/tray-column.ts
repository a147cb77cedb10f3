import { harvestField, isHarvestFieldKey } from "../../records/harvest-field.ts";
import { nameKey } from "../../records/name-key.ts";
import { pickingsOf, type Tray } from "../../records/tray.ts";
import { fieldProperty } from "../../records/tray-property.ts";

/**
 * What a tray's record says in a column: a canonical column by its key, any other by its own header.
 * @returns undefined when not recorded
 * @example trayColumn(tray, "supplement_grade") // "fine"
 */
export function trayColumn(tray: Tray, column: string): string | number | undefined {
  if (!isHarvestFieldKey(column)) return Object.hasOwn(tray.factors, column) ? tray.factors[column] : undefined;
  if (column === "flush") return pickingsOf(tray).length || undefined;
  const value = tray[fieldProperty[column]];
  return typeof value === "number" && harvestField(column).kind === "percent" ? value * 100 : value;
}

/**
 * Whether a tray is one of those a cost line is for. Text is compared without regard to case and outer blanks, numbers as numbers.
 * @param column absent: every tray is
 */
export function isWhere(tray: Tray, column: string | undefined, value: string | undefined): boolean {
  if (column === undefined) return true;
  const found = trayColumn(tray, column);
  const wanted = nameKey(value);
  if (found === undefined) return wanted === "";
  if (wanted !== "" && Number.isFinite(Number(wanted)) && Number.isFinite(Number(found))) {
    return Math.abs(Number(found) - Number(wanted)) <= 1e-9 * Math.max(1, Math.abs(Number(wanted)));
  }
  return nameKey(String(found)) === wanted;
}
