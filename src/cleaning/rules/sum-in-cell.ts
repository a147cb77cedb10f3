import type { Change, QuantityReading } from "../values/quantity-reading.ts";
import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const part = "[~≈]?\\s*\\d[\\d.,/½¼¾ ]*(?:[a-zµ°%][a-z.%]*)?";
const sum = new RegExp(`^=?\\s*(${part}(?:\\s*(?:\\+|&|\\bplus\\b|\\bund\\b|\\band\\b)\\s*${part})+)$`, "i");
const about = /^\s*[~≈]\s*/;
const joins = /\s*(?:\+|&|\bplus\b|\bund\b|\band\b)\s*/i;
const unitOf = (text: string): string => /[a-zµ°%][a-z.%]*$/i.exec(text.trim())?.[0] ?? "";
/** "1 lb and 3 oz" is one amount in two units */
const compound = /^\s*\d[\d.,]*\s*(?:lbs?|pounds?|kg)\b.*\b(?:oz|ounces?|g|grams?)\s*$/i;

/** "2.05E+02" is one number */
const power = /^\s*\d[\d.,]*e\s*[+-]?\s*\d+\s*$/i;

/** "150 + 60 = 210": a sum with its result typed behind it */
const withResult = /^(.*\d.*\+.*\d.*?)\s*=\s*(\d[\d.,]*\s*[a-z]*)$/i;

/** "205 + 40", "12ml + 5ml", "200 + 50 g": amounts taken one after the other, added up. */
export const sumInCell: CleaningRule = {
  code: "sum-in-cell",
  kinds: ["mass", "volume"],
  apply(cell, { read }) {
    // "150 (+60)"
    const typed = cell.replace(/\s*\(\s*(\+\s*\d[^()]*)\)$/, " $1");
    const [, left, result] = withResult.exec(typed) ?? [];
    const text = left ?? typed;
    const match = sum.exec(text);
    if (match === null || compound.test(text) || power.test(text)) return keep;
    const parts = match[1]!.split(joins);
    const unit = unitOf(parts.at(-1)!);
    let total = 0;
    const changes: Change[] = [];
    let first: QuantityReading | undefined;
    for (const amount of parts) {
      const bare = amount.replace(about, "");
      const reading = read(unitOf(bare) === "" && unit !== "" ? `${bare} ${unit}` : bare);
      if (reading.kind === "ambiguous")
        return { kind: "settle", reading, reason: "amounts to add up that can be read two ways" };
      if (reading.kind !== "value")
        return unreadable("one number, or numbers with + between them", "amounts to add up, not all of them numbers");
      first ??= reading;
      total += reading.value;
      for (const change of reading.changes) if (!changes.some(({ rule }) => rule === change.rule)) changes.push(change);
    }
    if (first === undefined || !("unit" in first)) return keep;
    const value = Number(total.toPrecision(14));
    if (result !== undefined) {
      const said = read(result);
      if (said.kind !== "value" || Math.abs(said.value - value) > 0.006 * value)
        return unreadable("one number, or a sum that comes out", "a sum and its result, which do not agree");
    }
    return {
      kind: "settle",
      reading: {
        kind: parts.some((amount) => about.test(amount)) ? "approximate" : "value",
        value,
        unit: first.unit,
        changes,
      },
      reason: "amounts with a plus between them, added up",
    };
  },
};
