import { type CleaningRule, keep } from "./cleaning-rule.ts";

const sign =
  /^(-?)\s*(?:[$€£¥]|US\$|(?:EUR|USD|GBP|CHF|AUD|CAD|NZD|SEK|NOK|DKK|PLN|JPY)\b)\s*|\s*(?:[$€£¥]|\b(?:EUR|USD|GBP|CHF|AUD|CAD|NZD|SEK|NOK|DKK|PLN|JPY))$/i;

/** "$4.50", "4,50 €": the sign is not part of the number. Which currency it is in is a setting. */
export const currencySign: CleaningRule = {
  code: "currency-sign",
  kinds: ["number"],
  apply(text) {
    const bare = text.replace(sign, "$1");
    return bare === text || !/\d/.test(bare)
      ? keep
      : { kind: "rewrite", text: bare, reason: "a currency sign was taken off" };
  },
};
