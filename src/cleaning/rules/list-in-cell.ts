import { addedUp } from "../values/read-amount.ts";
import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const amount = "\\d{1,4}(?:\\.\\d+)?(?: ?(?:g|kg|oz|lbs?))?";
/** three amounts or more with commas between them, which can be no decimals and no thousands */
const list = new RegExp(`^${amount}(?:,(?: +| ?(?!\\d{3}(?!\\d)))${amount}){2,}$`, "i");
const pair = new RegExp(`^${amount},( *)${amount}$`, "i");

/** Whether a cell is three amounts or more with commas between them. */
export const isList = (text: string): boolean => list.test(text);

/** The same amounts with plus signs between them. */
export const asSum = (text: string): string => text.replace(/, */g, " + ");

/** "120, 60, 25": weights of pickings, to be added up; "130, 60", too, where other cells of the column are such lists. */
export const listInCell: CleaningRule = {
  code: "list-in-cell",
  kinds: ["mass"],
  apply(text, { conventions: { measures, commasPart, decimalMark } }) {
    if (measures !== "fresh_g" && measures !== "dry_g") return keep;
    const space = commasPart ? pair.exec(text)?.[1] : undefined;
    if (space === "" || (space !== undefined && decimalMark === ","))
      return unreadable(addedUp, "two weights, or one with decimals?");
    return isList(text) || space !== undefined
      ? { kind: "rewrite", text: asSum(text), reason: "weights with commas between them, added up" }
      : keep;
  },
};
