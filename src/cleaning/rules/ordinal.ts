import { type CleaningRule, keep } from "./cleaning-rule.ts";

/** "2nd", "#2", "flush 2", "F2", "G3": a count dressed as a name. */
export const ordinal: CleaningRule = {
  code: "ordinal",
  kinds: ["count"],
  apply(text) {
    const match =
      /^(?:#|no\.?|nr\.?|flush|pick|break|gen(?:eration)?|transfer|trays?|[fgtpb])\s*[-:.]?\s*(\d+)$/i.exec(text) ??
      /^(\d+)\s*(?:st|nd|rd|th|ème|e|\.)?\s*(?:flush|pick|break|gen(?:eration)?|transfers?|trays?|bags?|blocks?)?$/i.exec(
        text,
      );
    if (match === null || match[1] === text) return keep;
    return { kind: "rewrite", text: match[1]!, reason: "a count written as a name" };
  },
};
