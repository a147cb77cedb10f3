import { type CleaningRule, keep } from "./cleaning-rule.ts";

const before =
  /^(?:[~≈≅±]|c\.\s|ca\.?\s?(?=\d)|circa|about|abt\.?|around|approx\.?|approximately|roughly|est\.?|estimated|nearly|almost|maybe|ungefähr|etwa|env\.?|environ)\s*(?=[\d.,½¼¾])/i;
const after = /\s*(?:-?\s?ish|approx\.?|or so|roughly|est\.?|\s\?+|\?)\s*(\)?)$/i;
const inside = /^([\d.,]+)\s*-?ish\b/i;
const plusMinus = /\s*(?:±|\+\/-|\+-)\s*[\d.,]+(?=\s*[a-z°%]*\.?$)/i;

/**
 * "~45", "about 45", "45ish", "45?", "45 ± 2": the number counts, but its typist did not vouch for it. In "2??" the marks
 * stand for digits, so that it is no number.
 */
export const approximateAmount: CleaningRule = {
  code: "approximate",
  kinds: "every kind",
  apply(text) {
    let rest = text.replace(before, "").replace(/\s*\(\?+\)$/, "?");
    rest = rest.replace(inside, "$1");
    if (/\d/.test(rest)) rest = rest.replace(after, "$1").replace(plusMinus, "");
    if (rest === text || !/\d|[½¼¾]/.test(rest)) return keep;
    return { kind: "rewrite", text: rest, approximate: true, reason: "typed as about right, not as measured" };
  },
};
