import type { Estimate, Quantity, QuantityRange, Sentence } from "../analysis.ts";
import type { Settings } from "../records/setting.ts";
import { type DisplayUnit, displayUnit, displayValue, isFineRate } from "./display-unit.ts";
import { isNothing, writeNumber } from "./write-number.ts";

/** The settings that decide how a number looks. */
export type NumberSettings = Pick<Settings, "displayUnits" | "locale" | "currency" | "currencyDecimals">;

/** no number is shown with more decimals than this */
const mostDecimals = 8;
const usualDigits = 3;
const noBreakSpace = "\u00a0";

/** The power of ten of the leading digit once rounded to `digits` significant digits. */
const leadingPower = (value: number, digits: number): number =>
  Number(
    Math.abs(value)
      .toExponential(digits - 1)
      .split("e")[1],
  );

const within = (decimals: number): number => Math.min(mostDecimals, Math.max(0, decimals));

/**
 * Decimals that show a number to so many significant digits, never fewer than the whole units.
 * Whole numbers get none unless digits are asked for. Money has the decimals of its coin, no fewer and no more, but for
 * money per gram or mL, which has three significant digits.
 * @param value as shown, after conversion
 * @param isFine money per gram or mL
 */
export function decimalsOf(
  value: number,
  style: DisplayUnit["style"],
  isFine: boolean,
  settings: NumberSettings,
  digits: number | undefined,
): number {
  if (!Number.isFinite(value) || isNothing(value)) return style === "money" ? settings.currencyDecimals : 0;
  if (style === "probability") return 3;
  const significant = within((digits ?? usualDigits) - 1 - leadingPower(value, digits ?? usualDigits));
  if (style === "money") {
    const coin = settings.currencyDecimals;
    if (digits !== undefined && significant === 0) return 0;
    return isFine ? Math.max(coin, significant) : coin;
  }
  if (digits !== undefined) return significant;
  // no zeros that the number does not need
  const needed = Number(value.toPrecision(12))
    .toFixed(significant)
    .replace(/\.?0*$/, "")
    .split(".")[1];
  return significant === 0
    ? 0
    : (needed?.length ?? (Number.isInteger(Number(value.toPrecision(12))) ? 0 : significant));
}

/** Decimals that show the width of a range to two significant digits. */
function decimalsOfRange(
  from: number,
  to: number,
  unit: DisplayUnit,
  settings: NumberSettings,
  digits?: number,
): number {
  const ends = [from, to].filter(Number.isFinite);
  const larger = Math.max(0, ...ends.map(Math.abs));
  const ofValue = decimalsOf(larger, unit.style, isFineRate(unit), settings, digits);
  if (digits !== undefined || ends.length < 2 || from === to) return ofValue;
  if (unit.style !== "money" && ends.every((end) => Number.isInteger(Number(end.toPrecision(12))))) return 0;
  const ofWidth = within(1 - leadingPower(to - from, 2));
  if (unit.style !== "money") return ofWidth;
  return isFineRate(unit) ? Math.max(settings.currencyDecimals, ofWidth) : settings.currencyDecimals;
}

/** A unit's name after a number: one of a thing has no plural. */
function nameAfter(text: string, unit: DisplayUnit, isNamed = false): string {
  const { name, per, style } = unit;
  const rate = per === "" || isNamed ? "" : ` per ${per}`;
  if (style !== "plain" || name === "") return rate;
  const singular = /^[+−]?1$/.test(text) && /[a-z]{2}s$/.test(name) && !name.endsWith("ss") ? name.slice(0, -1) : name;
  return `${noBreakSpace}${singular}${rate}`;
}

function requireNumber(caller: string, value: number): void {
  if (Number.isNaN(value)) throw new RangeError(`${caller}: the value must be a number, received ${value}`);
}

/**
 * A number with its unit in the reader's units and number format.
 * @param largest the largest magnitude shown beside it, which decides the unit
 * @param interval the interval it stands in, which decides its decimals unless its digits are asked for
 * @throws RangeError if the value is not a number
 * @example formatQuantity({ value: 12.345, unit: "g" }, defaultSettings) // "12.3 g"
 */
export function formatQuantity(
  quantity: Quantity,
  settings: NumberSettings,
  largest?: number,
  interval?: QuantityRange,
): string {
  requireNumber("formatQuantity", quantity.value);
  const { value, digits, signed = false } = quantity;
  const unit = displayUnit(quantity.unit, settings, largest ?? Math.abs(value), signed);
  const shown = displayValue(value, unit);
  const decimals =
    interval === undefined || digits !== undefined
      ? decimalsOf(shown, unit.style, isFineRate(unit), settings, digits)
      : decimalsOfRange(
          displayValue(interval.from, unit),
          displayValue(interval.to, unit),
          unit,
          settings,
          interval.digits,
        );
  const text = writeNumber(shown, { decimals, style: unit.style, signed, settings });
  return text + nameAfter(text, unit, quantity.isNamed);
}

/**
 * A range with its unit: "12.1 to 14.6 g". An infinite end is said in words.
 * @throws RangeError if an end is not a number
 * @example formatRange({ from: 12.1, to: 14.6, unit: "g" }, defaultSettings) // "12.1 to 14.6 g"
 */
export function formatRange(range: QuantityRange, settings: NumberSettings, largest?: number): string {
  requireNumber("formatRange", range.from);
  requireNumber("formatRange", range.to);
  const { digits, signed = false, isNamed } = range;
  const finite = [range.from, range.to].filter(Number.isFinite).map(Math.abs);
  const unit = displayUnit(range.unit, settings, largest ?? Math.max(0, ...finite), signed);
  const from = displayValue(range.from, unit);
  const to = displayValue(range.to, unit);
  if (finite.length === 0) return "any value";
  const decimals = decimalsOfRange(from, to, unit, settings, digits);
  // a range clear of 0 does not read as if it touched it
  const isClear = unit.style === "plain" && (from > 0 || to < 0);
  const ownDecimals = (value: number): number =>
    isClear && Math.abs(value) < 0.5 / 10 ** decimals
      ? decimalsOf(value, unit.style, isFineRate(unit), settings, 1)
      : decimals;
  const write = (value: number) =>
    writeNumber(value, { decimals: ownDecimals(value), style: unit.style, signed, settings });
  if (!Number.isFinite(from)) return `${write(to)}${nameAfter(write(to), unit, isNamed)} or less`;
  if (!Number.isFinite(to)) return `${write(from)}${nameAfter(write(from), unit, isNamed)} or more`;
  const first =
    unit.style === "share" ? writeNumber(from, { decimals, style: "plain", signed, settings }) : write(from);
  return `${first} to ${write(to)}${nameAfter("", unit, isNamed)}`;
}

/** The value and interval of an estimate, both to the digits that the interval can carry. */
export function formatEstimate(estimate: Estimate, settings: NumberSettings): { value: string; interval: string } {
  const { value, low, high, unit } = estimate;
  if (low === undefined || high === undefined)
    return { value: formatQuantity({ value, unit }, settings), interval: "" };
  const ends = [value, low, high].filter(Number.isFinite).map(Math.abs);
  const largest = Math.max(0, ...ends);
  const shown = displayUnit(unit, settings, largest);
  const decimals = decimalsOfRange(displayValue(low, shown), displayValue(high, shown), shown, settings);
  const text = writeNumber(displayValue(value, shown), { decimals, style: shown.style, signed: false, settings });
  return {
    value: text + nameAfter(text, shown),
    interval: formatRange({ from: low, to: high, unit }, settings, largest),
  };
}

/** A probability in the usual words. @example formatProbability(0.0004, defaultSettings) // "< 0.001" */
export function formatProbability(p: number, settings: NumberSettings): string {
  requireNumber("formatProbability", p);
  return writeNumber(p, { decimals: 3, style: "probability", signed: false, settings });
}

/** The range in a sentence that lies nearest to money per gram: what repeats or varies a figure has the figure's decimals. */
function rangeNear(sentence: Sentence, { value, unit }: Quantity): QuantityRange | undefined {
  const away = ({ from, to }: QuantityRange): number => Math.abs(Math.log(Math.abs((2 * value) / (from + to))));
  return sentence
    .flatMap((part) => (typeof part !== "string" && "from" in part && part.unit === unit ? [part] : []))
    .sort((a, b) => away(a) - away(b))[0];
}

/** The range in brackets right after a number: "7.3 g (4.5 to 10.2 g)". */
function intervalAfter(sentence: Sentence, index: number, unit: string): QuantityRange | undefined {
  const between = sentence[index + 1];
  const range = sentence[index + 2];
  if (typeof between !== "string" || !/^\s*\([^)]*$/.test(between)) return undefined;
  return range !== undefined && typeof range !== "string" && "from" in range && range.unit === unit ? range : undefined;
}

/**
 * A sentence of an answer as text. A number followed by its interval in brackets gets the interval's decimals, and so does
 * money per gram near it. Numbers of one kind are shown in one unit throughout the sentence.
 * @throws RangeError if a number in it is not a number
 * @example sentenceText(["It gave ", { value: 3, unit: "g", signed: true }, "."], defaultSettings) // "It gave +3 g."
 */
export function sentenceText(sentence: Sentence, settings: NumberSettings): string {
  const largest = new Map<string, number>();
  for (const part of sentence) {
    if (typeof part === "string") continue;
    const ends = "from" in part ? [part.from, part.to] : [part.value];
    const most = Math.max(0, ...ends.filter(Number.isFinite).map(Math.abs));
    largest.set(part.unit, Math.max(most, largest.get(part.unit) ?? 0));
  }
  return sentence
    .map((part, index) => {
      if (typeof part === "string") return part;
      const most = largest.get(part.unit);
      if ("from" in part) return formatRange(part, settings, most);
      const isFine = isFineRate(displayUnit(part.unit, settings, most ?? 0));
      const interval = part.isSet
        ? undefined
        : part.within !== undefined
          ? { ...part.within, unit: part.unit }
          : (intervalAfter(sentence, index, part.unit) ?? (isFine ? rangeNear(sentence, part) : undefined));
      return formatQuantity(part, settings, most, interval);
    })
    .join("");
}
