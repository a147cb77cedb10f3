import { type CleaningRule, keep } from "./cleaning-rule.ts";

/** "12,5" is 12.5: a comma that cannot stand between thousands. */
export const decimalComma: CleaningRule = {
  code: "decimal-comma",
  kinds: "every kind",
  apply(text) {
    const pointed = text.replace(
      /(?<![\d.,])(\d*),(\d+)(?![\d.,])/g,
      (_, whole: string, part: string) => `${whole || "0"}.${part}`,
    );
    return pointed === text ? keep : { kind: "rewrite", text: pointed, reason: "a decimal comma" };
  },
};
