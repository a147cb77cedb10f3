import { isLoss } from "../../records/tray.ts";
import { readOutcome } from "../values/outcome-words.ts";
import { type CleaningRule, keep } from "./cleaning-rule.ts";

const leadingAmount = /^[~<>]?\s*\d[\d.,]*\s*(?:g|kg|oz|lbs?|ml|cc)?\b[\s,;:(-]*/i;

/** "contam", "green", "tossed" or "mold?" where a number should be tells what became of the tray. */
export const outcomeInNumber: CleaningRule = {
  code: "outcome-word",
  kinds: "every kind",
  apply(text) {
    const rest = text.replace(leadingAmount, "");
    if (!/\p{L}{3}/u.test(rest)) return keep;
    const found = readOutcome(rest);
    if (found === undefined || !found.whole || found.says === "good" || found.says === "not lost") return keep;
    // "250 g, drying": the number counts, and what stands behind it is a remark
    if (rest !== text && (found.says === "growing" || !isLoss(found.says))) return keep;
    return {
      kind: "settle",
      reading: { kind: "outcome-word", says: found.says, queried: found.queried, changes: [] },
      reason: found.queried
        ? "a word for what became of the tray, with a doubt"
        : "a word for what became of the tray, not a number",
    };
  },
};
