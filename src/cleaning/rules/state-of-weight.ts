import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const stated =
  /^(.*\d[^([]*?)[\s,]*[([]?\s*\b(fresh|wet|undried|dry|dried)(?:\s+(?:weight|wt\.?|mass))?\s*[)\]]?\s*[.!]*$/i;

const dryWords: ReadonlySet<string> = new Set(["dry", "dried"]);

/** "310 g fresh": a word for the weight's state that repeats what its column says, or belongs to another column. */
export const stateOfWeight: CleaningRule = {
  code: "state-of-weight",
  kinds: ["mass"],
  apply(text, { conventions: { measures } }) {
    const match = stated.exec(text);
    if (match === null || (measures !== "fresh_g" && measures !== "dry_g")) return keep;
    const weightState = measures === "fresh_g" ? "fresh" : "dry";
    const typed = dryWords.has(match[2]!.toLowerCase()) ? "dry" : "fresh";
    return typed === weightState
      ? { kind: "rewrite", text: match[1]!, reason: `the word repeats that the column is of ${weightState} weights` }
      : unreadable(
          `the ${weightState} weight, such as 310 g`,
          `the cell says ${typed}, in a column of ${weightState} weights`,
        );
  },
};
