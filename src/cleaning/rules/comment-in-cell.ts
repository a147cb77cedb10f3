import { type CleaningRule, keep } from "./cleaning-rule.ts";

/** behind a number with its unit: a mark and words without a figure, or a word that says it is all there is */
const behind =
  /^(.*\d\s*(?:g|kg|grams?|oz|lbs?|ml|cc|°?[cf]|days?|d)\.?)(?:\s*[,;:–-]\s*[a-z][a-z' ]*|\s+(?:total|net|in all|altogether))?[.!\s]*$/i;

const withoutStop = (text: string): string => text.replace(/[.\s]+$/, "");

/** "310 g (wet towel)", "30 g, ok", "30 g total": a remark behind a number; it stays in the log. */
export const commentInCell: CleaningRule = {
  code: "comment-in-cell",
  kinds: "every kind",
  apply(text) {
    const match = /^(.*\d.*?)\s*[([]\s*(\D[^()[\]]*)[)\]]$/.exec(text);
    const plain = match === null ? behind.exec(text) : null;
    if (plain !== null && withoutStop(plain[1]!) !== withoutStop(text)) {
      return { kind: "rewrite", text: plain[1]!, reason: "a remark behind the number, kept here only" };
    }
    if (match === null || /^(?:g|kg|oz|lbs?|ml|cc|[cf]|°[cf]?|days?|d|%)$/i.test(match[2]!.trim())) {
      return match === null
        ? keep
        : { kind: "rewrite", text: `${match[1]} ${match[2]!.trim()}`, reason: "a unit in brackets" };
    }
    return { kind: "rewrite", text: match[1]!, reason: "a remark behind the number, kept here only" };
  },
};
