import { type CleaningRule, keep } from "./cleaning-rule.ts";

const replacements: ReadonlyArray<readonly [RegExp, string]> = [
  [/[\u00a0\u2000-\u200a\u202f\u205f\u3000]/g, " "],
  [/[\u200b-\u200f\u2060\ufeff\u00ad]/g, ""],
  [/[\u2212\ufe63\uff0d\u2010\u2011]/g, "-"],
  [/[\u2018\u2019\u02bc\u00b4`]/g, "'"],
  [/[\u201c\u201d\u2033]/g, '"'],
  [/\u2044/g, "/"],
  [/\uff0e/g, "."],
  [/\uff0c/g, ","],
];

/** Typographic spaces, minus signs, quotes and full-width digits become the plain ones. */
export const unusualCharacters: CleaningRule = {
  code: "unusual-characters",
  kinds: "every kind",
  apply(text) {
    let plain = text;
    for (const [pattern, by] of replacements) plain = plain.replace(pattern, by);
    plain = plain.replace(/[\uff10-\uff19]/g, (digit) => String(digit.charCodeAt(0) - 0xff10));
    return plain === text
      ? keep
      : { kind: "rewrite", text: plain, reason: "typographic characters read as plain ones" };
  },
};
