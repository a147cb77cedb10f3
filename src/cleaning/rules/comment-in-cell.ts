import { type CleaningRule, keep } from "./cleaning-rule.ts";

/** "310 g (wet towel)": a remark in brackets behind a number; it stays in the log. */
export const commentInCell: CleaningRule = {
  code: "comment-in-cell",
  kinds: "every kind",
  apply(text) {
    const match = /^(.*\d.*?)\s*[([]\s*(\D[^()[\]]*)[)\]]$/.exec(text);
    if (match === null || /^(?:g|kg|oz|lbs?|ml|cc|[cf]|°[cf]?|days?|d|%)$/i.test(match[2]!.trim())) {
      return match === null
        ? keep
        : { kind: "rewrite", text: `${match[1]} ${match[2]!.trim()}`, reason: "a unit in brackets" };
    }
    return { kind: "rewrite", text: match[1]!, reason: "a remark behind the number, kept here only" };
  },
};
