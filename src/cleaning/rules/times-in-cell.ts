import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const amount = "(\\d[\\d.,]*\\s*[a-zµ]*)";
const count = "(\\d{1,2})";
const times = "\\s*[x×*]\\s*";
const countFirst = new RegExp(`^${count}${times}${amount}$`, "i");
const countLast = new RegExp(`^${amount}${times}${count}$`, "i");

/**
 * "2 x 6 mL" of liquid culture is 12 mL. Of a weight it is asked: two pickings of one tray, or two trays.
 */
export const timesInCell: CleaningRule = {
  code: "times-in-cell",
  kinds: ["mass", "volume"],
  apply(text, { kind, read }) {
    const first = countFirst.exec(text);
    const last = first === null ? countLast.exec(text) : null;
    const [by, one] = first === null ? [last?.[2], last?.[1]] : [first[1], first[2]];
    if (by === undefined || one === undefined) return keep;
    if (kind === "mass")
      return unreadable(
        "the weight of one tray, or 2 trays 240 g",
        "a count times a weight: pickings of one tray, or several trays",
      );
    const reading = read(one);
    if (reading.kind !== "value") return keep;
    const value = Number((Number(by) * reading.value).toPrecision(14));
    return { kind: "settle", reading: { ...reading, value }, reason: "a count times an amount, multiplied" };
  },
};
