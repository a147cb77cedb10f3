import { toCanonical, unitNamed } from "../../records/words/units.ts";
import type { QuantityKind } from "../values/quantity-reading.ts";

/** Units a weight may have been typed in without saying so. */
export const massUnits: ReadonlyArray<string> = ["g", "kg", "oz", "lb"];

/** Units a volume may have been typed in without saying so. */
export const volumeUnits: ReadonlyArray<string> = ["mL", "L", "fl oz", "tsp", "tbsp"];

/** A number typed in a unit given by name, in the canonical one. */
export const inUnit = (value: number, unit: string, kind: QuantityKind): number =>
  toCanonical(value, unitNamed(unit, kind)!);
