import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const thing = "(?:trays?|bags?|blocks?|tubs?|boxes|box|bricks?)";
const counts: Record<string, number> = {
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
};
const count = `(\\d+|${Object.keys(counts).join("|")})`;
const countFirst = new RegExp(
  `^${count}\\s*${thing}\\s*(?:together|total|combined|weighed|at|of|gave|@)?\\s*[:=,;-]?\\s*(?=[\\d~])(.+)$`,
  "i",
);
const countLast = new RegExp(
  `^(.*\\d.*?)\\s*(?:[(/,;]|for|from|over|between|across|of)\\s*(?:all\\s+)?${count}\\s*${thing}\\s*(?:together|total|combined)?\\)?$`,
  "i",
);

/** "2 trays 310g": one number for several trays. It stays theirs together, because no tray's own part of it is known. */
export const pooledAmount: CleaningRule = {
  code: "pooled",
  kinds: ["mass", "volume"],
  apply(text, { read }) {
    const first = countFirst.exec(text);
    const last = first === null ? countLast.exec(text) : null;
    const typed = first?.[1] ?? last?.[2];
    const amount = first?.[2] ?? last?.[1];
    if (typed === undefined || amount === undefined) return keep;
    const trays = counts[typed.toLowerCase()] ?? Number(typed);
    const reading = read(amount.trim());
    if (reading.kind === "ambiguous") return { kind: "settle", reading, reason: "one number for several trays" };
    if ((reading.kind !== "value" && reading.kind !== "approximate") || trays < 1) {
      return unreadable(
        "a count of trays and one number, such as 2 trays 310 g",
        "looks like one number for several trays, but is not clear",
      );
    }
    const { value, unit, changes } = reading;
    return {
      kind: "settle",
      reading: { kind: "pool", trays, value, unit, changes },
      reason: "one number for several trays together",
    };
  },
};
