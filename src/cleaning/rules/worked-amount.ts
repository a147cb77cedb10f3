import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const withWorking = /^(\d[\d.,]*\s*(?:g|grams?|m[lL]s?|cc)?)\s*[([]\s*(\d[^()[\]]*\d[^()[\]]*)[)\]]$/;
const withResult = /^(\d[^=+]*?)\s*=\s*(\d[\d.,]*\s*\p{L}{0,5})$/u;
const unsuited = /\d\s*(?:kg|oz|lbs?|l\b)|[/%?~]|\d,\d{3}\b/i;

/** Whether numbers come to a result: added up, multiplied, or the others taken off the first. */
function comesTo(result: number, numbers: ReadonlyArray<number>): boolean {
  const [first = 0, ...others] = numbers;
  const rest = others.reduce((sum, one) => sum + one, 0);
  const near = (value: number): boolean => Math.abs(value - result) <= 0.006 * result;
  return others.length > 0 && (near(first + rest) || near(first - rest) || near(numbers.reduce((a, b) => a * b)));
}

/** "10 (2 shots of 5)", "267 (312-45)", "312 - 45 = 267": a result beside what it was worked out from. */
export const workedAmount: CleaningRule = {
  code: "worked-amount",
  kinds: ["mass", "volume"],
  apply(text) {
    const bracket = withWorking.exec(text);
    const equation = bracket === null ? withResult.exec(text) : null;
    const result = bracket?.[1] ?? equation?.[2];
    if (result === undefined || unsuited.test(text)) return keep;
    const numbers = (part: string): number[] =>
      (part.match(/\d+(?:[.,]\d+)?/g) ?? []).map((digits) => Number(digits.replace(",", ".")));
    if (comesTo(numbers(result)[0]!, numbers((bracket?.[2] ?? equation?.[1])!)))
      return { kind: "rewrite", text: result, reason: "an amount with what it was worked out from, which agree" };
    return bracket !== null
      ? keep
      : unreadable("one number, or a sum that comes out", "a sum and its result, which do not agree");
  },
};
