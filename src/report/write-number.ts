import type { Settings } from "../records/setting.ts";

/** How one number is to be written. */
export interface NumberStyle {
  decimals: number;
  /** "share" is already x 100 and gets a percent sign */
  style: "plain" | "money" | "share" | "probability";
  signed: boolean;
  settings: Pick<Settings, "locale" | "currency" | "currencyDecimals">;
}

/** the number format of a book whose locale is not known here */
export const fallbackLocale = "en-GB";

const isLanguageTag = (locale: string): boolean => /^[A-Za-z]{2,3}(-[A-Za-z0-9]{1,8})*$/.test(locale);

/** The locale used for numbers: the one asked for where it is known, otherwise the fallback. */
export function knownLocale(locale: string): string {
  return isLanguageTag(locale) && Intl.NumberFormat.supportedLocalesOf([locale]).length > 0 ? locale : fallbackLocale;
}

const isCurrencyCode = (currency: string): boolean => /^[A-Za-z]{3}$/.test(currency);

/** The number format of a style, made once for each: a book has some twenty, and making one takes as long as using it a hundred times. */
const formatFor = (() => {
  const made = new Map<string, Intl.NumberFormat>();
  return ({ decimals, style, signed, settings }: NumberStyle): Intl.NumberFormat => {
    const currency = style === "money" && isCurrencyCode(settings.currency) ? settings.currency : "";
    const key = `${settings.locale} ${decimals} ${style === "share"} ${currency} ${signed}`;
    const before = made.get(key);
    if (before !== undefined) return before;
    const format = new Intl.NumberFormat(knownLocale(settings.locale), {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      signDisplay: signed ? "exceptZero" : "negative",
      ...(style === "share" ? { style: "percent" } : {}),
      ...(currency === "" ? {} : { style: "currency", currency }),
    });
    made.set(key, format);
    return format;
  };
})();

/** Whether a number is nothing: the last few bits of a sum that should be 0 are no amount. */
export const isNothing = (value: number): boolean => Math.abs(value) <= 1e-12;

/**
 * A number with fixed decimals in the book's number format. A number above 0 that would print as 0 is written as less than
 * the smallest that can be shown, one below 0 as 0; the minus sign is the typographic one.
 * @example writeNumber(1234.5, { decimals: 1, style: "plain", signed: false, settings: defaultSettings }) // "1,234.5"
 */
export function writeNumber(value: number, how: NumberStyle): string {
  const format = formatFor(how);
  const write = (number: number) => {
    const text = format.format(how.style === "share" ? number / 100 : number).replaceAll("-", "−");
    return how.style === "money" && !isCurrencyCode(how.settings.currency) ? `${text} ${how.settings.currency}` : text;
  };
  const smallest = 1 / 10 ** how.decimals;
  // no test gives a probability of exactly 0
  const vanishes = Math.abs(value) < smallest / 2 && (how.style === "probability" || !isNothing(value));
  if (vanishes && how.decimals > 0) return value >= 0 ? `< ${write(smallest)}` : write(0);
  return write(value);
}

/** A symbol for the book's money, as it stands in a column's head. @example currencyName(defaultSettings) // "€" */
export function currencyName(settings: NumberStyle["settings"]): string {
  if (!isCurrencyCode(settings.currency)) return settings.currency;
  const parts = new Intl.NumberFormat(knownLocale(settings.locale), {
    style: "currency",
    currency: settings.currency,
  }).formatToParts(0);
  return parts.find(({ type }) => type === "currency")?.value ?? settings.currency;
}
