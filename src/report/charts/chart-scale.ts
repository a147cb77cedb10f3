import { asHead, headUnit, withUnit } from "../column-format.ts";
import { displayUnit, displayValue } from "../display-unit.ts";
import type { NumberSettings } from "../format-quantity.ts";
import { visibleText } from "../visible-text.ts";
import { titleLines } from "./named-places.ts";

/** A chart's axis in the reader's unit. */
export interface ChartScale {
  /** what the axis shows, with its unit, in lines: "Dry weight (g)" */
  title: string[];
  /** a stored number as the axis shows it */
  show(value: number): number;
}

/**
 * The scale of all numbers on one axis.
 * @param label what is measured
 * @param values every number the axis must hold
 * @throws RangeError if there is no value, or one that is not a finite number
 */
export function chartScale(
  label: string,
  unit: string,
  values: ReadonlyArray<number>,
  settings: NumberSettings,
): ChartScale {
  if (values.length === 0) throw new RangeError(`chartScale: "${label}" needs at least one value, received none`);
  const wrong = values.find((value) => !Number.isFinite(value));
  if (wrong !== undefined) throw new RangeError(`chartScale: "${label}" needs finite numbers, received ${wrong}`);
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const shown = displayUnit(unit, settings, largest);
  const name = headUnit(unit, settings, largest);
  return {
    // a unit is not broken over lines
    title: titleLines(withUnit(asHead(visibleText(label)), name.replaceAll(" ", "\u00a0"))),
    show: (value) => displayValue(value, shown),
  };
}

/** The numbers that are there. */
export const present = (...values: (number | undefined)[]): number[] => values.filter((value) => value !== undefined);
