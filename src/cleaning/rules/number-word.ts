import { type CleaningRule, keep } from "./cleaning-rule.ts";

const numbers = new Map<string, string>([
  ["zero", "0"],
  ["nil", "0"],
  ["none", "0"],
  ["half", "0.5"],
  ["one", "1"],
  ["two", "2"],
  ["three", "3"],
  ["four", "4"],
  ["five", "5"],
  ["six", "6"],
  ["seven", "7"],
  ["eight", "8"],
  ["nine", "9"],
  ["ten", "10"],
  ["eleven", "11"],
  ["twelve", "12"],
  ["first", "1"],
  ["second", "2"],
  ["third", "3"],
  ["fourth", "4"],
]);

const measure = "(?=\\s+(?:kilos?|kilogram|kg|pound|lb|ounce|oz|cup|lit(?:er|re)|teaspoon|tablespoon|tsp|tbsp|ml)$)";
const partOf = new RegExp(`^(?:an?\\s+)?(half|quarter)(?:\\s+of)?(?:\\s+an?)?${measure}`, "i");
const oneOf = new RegExp(`^an?${measure}`, "i");

/** Small numbers written out: "zero", "two weeks", "first", "half a kilo", "a pound". */
export const numberWord: CleaningRule = {
  code: "number-word",
  kinds: "every kind",
  apply(text) {
    const part = partOf.exec(text)?.[1]?.toLowerCase();
    const rewritten =
      part !== undefined ? text.replace(partOf, part === "half" ? "0.5" : "0.25") : text.replace(oneOf, "1");
    if (rewritten !== text) return { kind: "rewrite", text: rewritten, reason: "a number written as a word" };
    const match = /^([a-z]{3,6})\b(.*)$/i.exec(text);
    const digits = match === null ? undefined : numbers.get(match[1]!.toLowerCase());
    if (match === null || digits === undefined || /^\s*-/.test(match[2]!)) return keep;
    // half of what
    if (digits === "0.5" && match[2]!.trim() === "") return keep;
    return { kind: "rewrite", text: `${digits}${match[2]}`, reason: "a number written as a word" };
  },
};
