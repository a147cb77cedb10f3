import { type CleaningRule, keep } from "./cleaning-rule.ts";

const signs: Record<string, [number, number]> = {
  "½": [1, 2],
  "⅓": [1, 3],
  "⅔": [2, 3],
  "¼": [1, 4],
  "¾": [3, 4],
  "⅕": [1, 5],
  "⅖": [2, 5],
  "⅗": [3, 5],
  "⅘": [4, 5],
  "⅙": [1, 6],
  "⅚": [5, 6],
  "⅛": [1, 8],
  "⅜": [3, 8],
  "⅝": [5, 8],
  "⅞": [7, 8],
};
const withSign = new RegExp(`(\\d+)?[ -]?([${Object.keys(signs).join("")}])`, "g");
/** Parts that kitchen scales, spoons and rulers come in. */
const halvings = new Set([2, 3, 4, 5, 6, 8, 10, 16, 32, 64]);
const withBar = /(?<![\d./])(?:(\d+)(?:\s+|\s*-\s*|\s+and\s+))?(\d{1,3})\s*\/\s*(\d{1,3})(?![\d./])/g;

/** "1 1/2 oz", "½ cup", "2¼ lb": vulgar fractions. */
export const fraction: CleaningRule = {
  code: "fraction",
  kinds: ["mass", "volume", "temperature", "days", "hours", "length", "number"],
  apply(text, { kind }) {
    const value = (whole: string | undefined, top: number, bottom: number) => String(Number(whole ?? 0) + top / bottom);
    const decimal = text
      .replace(withSign, (_, whole: string | undefined, sign: string) => {
        const [top, bottom] = signs[sign]!;
        return value(whole, top, bottom);
      })
      .replace(withBar, (typed: string, whole: string | undefined, top: string, bottom: string) =>
        // a twentieth of a roll
        Number(top) < Number(bottom) && (halvings.has(Number(bottom)) || (kind === "number" && top === "1"))
          ? value(whole, Number(top), Number(bottom))
          : typed,
      );
    return decimal === text ? keep : { kind: "rewrite", text: decimal, reason: "a fraction" };
  },
};
