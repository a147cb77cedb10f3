import type { Figure } from "../../analysis.ts";
import { formatQuantity, formatRange, type NumberSettings } from "../format-quantity.ts";
import { labelText, visibleText } from "../visible-text.ts";

/** The ends of a range as they are written, the unit at the second one alone; money has its symbol at both. */
export function rangeEnds(
  from: number,
  to: number,
  unit: string,
  digits: number | undefined,
  settings: NumberSettings,
) {
  const range = { from, to, unit, ...(digits === undefined ? {} : { digits }) };
  const [first = "", second = first] = formatRange(range, settings)
    .replace(/ per .*$/, "")
    .split(" to ");
  return [first.replace(/\u00a0.*$/, ""), second] as const;
}

/**
 * A range in words: "between 4.2 and 10.4 g"; of a difference both ways it says "between 2 less and 10 g more".
 */
export function betweenText(
  { from, to, unit, digits, signed }: { from: number; to: number; unit: string; digits?: number; signed?: boolean },
  settings: NumberSettings,
): string {
  if (!Number.isFinite(from) || !Number.isFinite(to))
    return formatRange({ from, to, unit, ...(digits === undefined ? {} : { digits }) }, settings);
  if (signed && to <= 0) {
    const [less, more] = rangeEnds(-to, -from, unit, digits, settings);
    return `between ${less} and ${more} less`;
  }
  if (signed && from < 0) {
    const [less, more] = [-from, to].map((value) =>
      withoutRate(
        formatQuantity({ value, unit }, settings, undefined, {
          from,
          to,
          unit,
          ...(digits === undefined ? {} : { digits }),
        }),
      ),
    );
    const low = less!.replace(/\u00a0.*$/, "");
    return `between ${/[1-9]/.test(low) ? `${low} less` : low} and ${more} more`;
  }
  const [low, high] = rangeEnds(from, to, unit, digits, settings);
  return `between ${low} and ${high}`;
}

/** A number without what it is a rate over, which its label says. */
const withoutRate = (text: string): string => text.replace(/ per .*$/, "");

/** An answer's large number, and what is written small under it. */
export interface FigureText {
  large: string;
  small: string;
}

/** A figure in the reader's units: "7 of 84" over "lost; between 4% and 16%". */
export function figureText(figure: Figure, settings: NumberSettings): FigureText {
  const label = visibleText(figure.label, 60);
  if ("text" in figure) return { large: labelText(figure.text, 40), small: label };
  const { value, unit, from, to, of, digits, signed } = figure;
  const quantity = { value, unit, ...(digits === undefined ? {} : { digits }), ...(signed ? { signed } : {}) };
  const range =
    from === undefined || to === undefined || of !== undefined
      ? undefined
      : { from, to, unit, ...(digits === undefined ? {} : { digits }), ...(signed ? { signed } : {}) };
  const large =
    of === undefined
      ? withoutRate(
          formatQuantity(quantity, settings, undefined, range === undefined ? undefined : { ...range, signed: false }),
        )
      : `${formatQuantity({ value, unit: "factor" }, settings)} of ${formatQuantity({ value: of, unit: "factor" }, settings)}`;
  const shares =
    of === undefined || from === undefined || to === undefined || of === 0
      ? undefined
      : { from: from / (unit === "share" ? 1 : of), to: to / (unit === "share" ? 1 : of), unit: "share" };
  const between = range ?? shares;
  // a range without width is none
  const isRange = between !== undefined && between.from < between.to;
  return {
    large,
    small: [label, isRange ? betweenText(between, settings) : ""].filter((part) => part !== "").join("; "),
  };
}
