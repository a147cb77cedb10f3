import { type CleaningRule, keep } from "./cleaning-rule.ts";

const marks = "US\\$|NZ\\$|[CAR]\\$|[$€£¥₹₽₺₩₴₪]|zł|zl|Kč|Kc|kr\\.?|lei|leu|лв\\.?";
const codes = "EUR|USD|GBP|CHF|AUD|CAD|NZD|SEK|NOK|DKK|PLN|CZK|HUF|RON|BGN|BRL|MXN|JPY|INR|ISK|UAH|TRY";
const sign = new RegExp(
  `^(-?)\\s*(?:${marks}|(?:${codes})\\b)\\s*(?=[\\d.,-])|\\s*(?:${marks}|\\b(?:${codes}))$`,
  "iu",
);

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
