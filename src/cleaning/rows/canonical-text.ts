import type { FieldKind } from "../../records/harvest-field.ts";
import type { Bounds } from "../../records/tray.ts";

/** A stored number as its canonical column shows it: the shortest text that reads back as the same number; shares as %. */
export function canonicalNumber(value: number, kind: FieldKind): string {
  if (kind !== "percent") return String(value);
  return String(Number((value * 100).toPrecision(14)));
}

/** Bounds as a cell: "10 to 12", ">14", "<1". */
export function canonicalBounds({ low, high }: Bounds, kind: FieldKind): string {
  if (low === undefined) return high === undefined ? "" : `<${canonicalNumber(high, kind)}`;
  return high === undefined
    ? `>${canonicalNumber(low, kind)}`
    : `${canonicalNumber(low, kind)} to ${canonicalNumber(high, kind)}`;
}
