import type { Figure } from "../../analysis.ts";
import { formatQuantity, formatRange, type NumberSettings } from "../format-quantity.ts";
import { labelText, visibleText } from "../visible-text.ts";

/**
 * A range in words: "between 4.2 and 10.4". The unit is left to the number beside it; of a difference both ways it says
 * "between 2 less and 10 more".
 */
export function betweenText(
  { from, to, unit, digits, signed }: { from: number; to: number; unit: string; digits?: number; signed?: boolean },
  settings: NumberSettings,
): string {
  const write = (a: number, b: number): [string, string] => {
    const text = formatRange({ from: a, to: b, unit, ...(digits === undefined ? {} : { digits }) }, settings);
    const [first = "", second] = text.split(" to ");
    const bare = (part: string) => part.replace(/\u00a0(?!%).*$/, "").replace(/ per .*$/, "");
    return [bare(first), bare(second ?? first)];
  };
  if (!Number.isFinite(from) || !Number.isFinite(to))
    return formatRange({ from, to, unit, ...(digits === undefined ? {} : { digits }) }, settings);
  if (signed && to <= 0) {
    const [less, more] = write(-to, -from);
    return `between ${less} and ${more} less`;
  }
  if (signed && from < 0) return `between ${write(-from, to)[0]} less and ${write(-from, to)[1]} more`;
  const [first, second] = write(from, to);
  return `between ${first} and ${second}`;
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
