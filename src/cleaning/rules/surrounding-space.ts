import { type CleaningRule, keep } from "./cleaning-rule.ts";

/** Spaces before, after or doubled inside a cell mean nothing. */
export const surroundingSpace: CleaningRule = {
  code: "surrounding-space",
  kinds: "every kind",
  apply(text) {
    const trimmed = text.trim().replace(/\s+/g, " ");
    if (trimmed === text || trimmed === "") return keep;
    return { kind: "rewrite", text: trimmed, reason: "spaces that mean nothing were taken off" };
  },
};
