import { type CleaningRule, keep } from "./cleaning-rule.ts";

/** `'12` and `"12"`: the mark by which a spreadsheet keeps a number as text, and quotes around the whole cell. */
export const quotedCell: CleaningRule = {
  code: "quoted-cell",
  kinds: "every kind",
  apply(text) {
    const inside = /^(?:'([^'"]+)'?|"([^'"]+)")$/.exec(text);
    const plain = (inside?.[1] ?? inside?.[2])?.trim();
    return plain === undefined || plain === ""
      ? keep
      : {
          kind: "rewrite",
          text: plain,
          reason: "a quotation mark around a number, or the mark of a number kept as text",
        };
  },
};
