import { type CleaningRule, keep } from "./cleaning-rule.ts";

/** "12/12" or "16:8" hours are so many hours on and the rest of the day off. */
export const lightCycle: CleaningRule = {
  code: "light-cycle",
  kinds: ["hours"],
  apply(text) {
    const match = /^(\d{1,2})\s*(?:h|hrs?|hours?)?\s*(?:on)?\s*[/:]\s*(\d{1,2})\s*(?:h|hrs?|hours?)?\s*(?:off)?$/i.exec(
      text,
    );
    if (match === null || Number(match[1]) + Number(match[2]) !== 24) return keep;
    return { kind: "rewrite", text: `${match[1]} h`, reason: "hours on out of a day of 24" };
  },
};
