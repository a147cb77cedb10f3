import { type CleaningRule, keep } from "./cleaning-rule.ts";

const numbers = new Map<string, string>([
  ["zero", "0"],
  ["nil", "0"],
  ["none", "0"],
  ["nothing", "0"],
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

/** Small numbers written out: "zero", "two weeks", "first". */
export const numberWord: CleaningRule = {
  code: "number-word",
  kinds: "every kind",
  apply(text) {
    const match = /^([a-z]{3,6})\b(.*)$/i.exec(text);
    const digits = match === null ? undefined : numbers.get(match[1]!.toLowerCase());
    if (match === null || digits === undefined || /^\s*-/.test(match[2]!)) return keep;
    return { kind: "rewrite", text: `${digits}${match[2]}`, reason: "a number written as a word" };
  },
};
