import type { QuantityKind } from "../values/quantity-reading.ts";
import { currencyMark } from "./currency-mark.ts";

/** A number without words that say nothing new: "40 trays" where the setting, or its unit column, is in trays. */
export function withoutUnitWords(text: string, quantityKind: QuantityKind, units: ReadonlyArray<string>): string {
  if (quantityKind !== "number") return text;
  const words = units.filter((word) => word !== "");
  const bare = words.reduce(
    (rest, word) => (rest.toLowerCase().endsWith(word.toLowerCase()) ? rest.slice(0, -word.length).trim() : rest),
    text,
  );
  return words.length > 0 ? bare.replace(/\s+(?:trays?|places?|per hour|\/\s*h(?:our)?)$/i, "") : bare;
}

/** Whether a unit beside money says nothing else than that of the setting: "€/h" beside one per hour, not "per lb fresh". */
export function isOfUnit(unit: string, defined: string): boolean {
  const said = currencyMark(unit)
    .amount.toLowerCase()
    .replace(/\/|^(?:a|an|each)\s/g, " per ")
    .replace(/(?<=per\s+)(?:h|hrs?|hours?|std|stunde)$/, "hour")
    .replace(/(?<=per\s+)(?:kilos?|kilograms?)/, "kg")
    .replace(/\s+/g, " ")
    .trim();
  return said === "" || defined === "" || defined.startsWith(said) || `per ${said}` === defined;
}

const behind = /^(.*\d)\s*((?:\/|(?:per|an?|je|pro|par|por|al)\b)\s*\S.*)$/iu;

/** "14/h" is 14 for a rate per hour; an amount of another unit stays as it is. */
export function withoutUnitBehind(amount: string, defined: string): string {
  const [, number = amount, said] = behind.exec(amount) ?? [];
  return said !== undefined && defined !== "" && isOfUnit(said, defined) ? number : amount;
}
