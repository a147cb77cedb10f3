import { canonicalUnit } from "../../records/words/units.ts";
import type { BoundsReading } from "../values/quantity-reading.ts";
import { type CleaningRule, keep, type RuleStep, unreadable } from "./cleaning-rule.ts";

const low = /^(?:>=?|≥|over|above|more than|at least|min\.?(?:imum)?(?=\s+\d)|no less than|from)\s*(?=[\d.,½¼¾])/i;
const high = /^(?:<=?|≤|under|below|less than|at most|up to|max\.?(?:imum)?(?=\s+\d)|no more than|<~)\s*(?=[\d.,½¼¾])/i;
// each unit word is parted from the next by a space, so that a long word cannot be cut up in ever more ways
const part = '[\\d½¼¾][\\d.,/½¼¾ \']*(?:[a-zµ°%"][a-z°.%]*(?:\\s+[a-zµ°%"][a-z°.%]*)*)?';
const dashes = "-|–|—|\\.\\.\\.?|…|\\bto\\b|\\bbis\\b";
const range = new RegExp(`^(${part})\\s*(?:${dashes})\\s*(${part})$`, "i");
const rangeBetween = new RegExp(`^between\\s+(${part})\\s*(?:${dashes}|\\band\\b)\\s*(${part})$`, "i");
const mixedFraction = /^\d+\s*-\s*1\/(?:2|4|8)(?!\d)|^\d+\s*-\s*3\/(?:4|8)(?!\d)|^\d+\s*-\s*[57]\/8(?!\d)/;
const numberOnly = /^[\d.,/½¼¾ ']+$/;

function between(
  lowText: string,
  highText: string,
  between: boolean,
  read: (part: string) => ReturnType<Parameters<CleaningRule["apply"]>[1]["read"]>,
): RuleStep {
  // "40-50 g": the unit behind belongs to both ends
  const unit = numberOnly.test(lowText.trim()) ? highText.trim().replace(/^[\d.,/½¼¾ ']+/, "") : "";
  const first = read(unit === "" ? lowText.trim() : `${lowText.trim()} ${unit}`);
  const second = read(highText.trim());
  if (first.kind === "ambiguous")
    return { kind: "settle", reading: first, reason: "a range with an end that can be read two ways" };
  if (second.kind === "ambiguous")
    return { kind: "settle", reading: second, reason: "a range with an end that can be read two ways" };
  if (first.kind !== "value" || second.kind !== "value") {
    return between ? unreadable("one number", "a range whose ends are not both numbers") : keep;
  }
  if (first.value > second.value) {
    const isWeight = first.unit === canonicalUnit.mass;
    const less = `${Number((first.value - second.value).toPrecision(14))} g`;
    return unreadable(
      `one number${isWeight ? ` (${less} if the second is to be taken off)` : ""}, or the smaller end first`,
      `a range that runs backwards${isWeight ? ", or a weight to be taken off another" : ""}`,
    );
  }
  const reading: BoundsReading = {
    kind: "bounds",
    low: first.value,
    high: second.value,
    unit: first.unit,
    changes: [
      ...first.changes,
      ...second.changes.filter((change) => !first.changes.some((one) => one.rule === change.rule)),
    ],
  };
  return { kind: "settle", reading, reason: "a range, not one number: known only to lie between its ends" };
}

/** "40-50", ">50", "<1", "10 to 12", "50+": known only within bounds, so not a plain number. */
export const boundedAmount: CleaningRule = {
  code: "bounds",
  kinds: "every kind",
  apply(text, { read }) {
    // "7-1/2 oz" is seven and a half
    if (mixedFraction.test(text)) return keep;
    const isLow =
      low.test(text) ||
      /\d\s*\+(?:\s*[a-z°%]+)?$/i.test(text) ||
      /\d\s*[a-z]*\s+(?:or more|and up|plus|minimum)$/i.test(text);
    const isHigh = !isLow && (high.test(text) || /\d\s*[a-z]*\s+(?:or less|or fewer|max|maximum)$/i.test(text));
    if (isLow || isHigh) {
      const end = text
        .replace(isLow ? low : high, "")
        .replace(/\s*\+(\s*[a-z°%]+)?$/i, "$1")
        .replace(/\s+(?:or more|and up|plus|minimum|or less|or fewer|max|maximum)$/i, "");
      const reading = read(end);
      if (reading.kind === "ambiguous") return { kind: "settle", reading, reason: "a limit that can be read two ways" };
      if (reading.kind !== "value") return unreadable("one number", "a limit that is not a number");
      const { value, unit, changes } = reading;
      return {
        kind: "settle",
        reading: isLow ? { kind: "bounds", low: value, unit, changes } : { kind: "bounds", high: value, unit, changes },
        reason: isLow ? "a lower limit, not a number" : "an upper limit, not a number",
      };
    }
    const match = (/^between/i.test(text) ? rangeBetween : range).exec(text);
    return match === null ? keep : between(match[1]!, match[2]!, /^between/i.test(text), read);
  },
};
