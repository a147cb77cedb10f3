import { type CleaningRule, keep } from "./cleaning-rule.ts";

const spaced = /(?<![\d.,])(\d{1,3}(?:[ '_]\d{3})+)(?![\d'])/g;
const pointThenComma = /(?<![\d.,])(\d{1,3}(?:\.\d{3})+)(?=,\d+(?![\d.,]))/g;
const commaThenPoint = /(?<![\d.,])(\d{1,3}(?:,\d{2,3})*,\d{3})(?=\.\d+(?![\d.,]))/g;
const severalCommas = /(?<![\d.,])\d{1,3}(?:,\d{2,3})*,\d{3},\d{3}(?![\d.,])/g;
const severalPoints = /(?<![\d.,])\d{1,3}(?:\.\d{3}){2,}(?![\d.,])/g;

/** "1 234", "1'234", "1.234,5", "1,234.5" and "1,234,567" carry a thousands mark beyond doubt. */
export const thousandsMark: CleaningRule = {
  code: "thousands-mark",
  kinds: "every kind",
  apply(text) {
    const bare = text
      .replace(spaced, (number) => number.replace(/[ '_]/g, ""))
      .replace(pointThenComma, (number) => number.replaceAll(".", ""))
      .replace(commaThenPoint, (number) => number.replaceAll(",", ""))
      .replace(severalCommas, (number) => number.replaceAll(",", ""))
      .replace(severalPoints, (number) => number.replaceAll(".", ""));
    return bare === text ? keep : { kind: "rewrite", text: bare, reason: "marks between thousands were taken off" };
  },
};
