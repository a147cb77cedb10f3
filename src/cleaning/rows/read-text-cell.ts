import { missingWord, whyMissing } from "../rules/missing-word.ts";
import { isSpreadsheetError } from "../rules/spreadsheet-error.ts";
import { type CellFact, nothing } from "./cell-fact.ts";

/** Words that say "nothing" where a name could stand; "none" is a level of a factor like any other. */
const namesNothing = /^(?:[-–—?*.]+|n\/?a|n\.a\.?|unknown|not applicable|not recorded|not known)$/i;

/** Whether a text holds only plain characters with single spaces between them. */
const isTidy = (text: string): boolean => {
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code <= 32 || code >= 160) {
      if (code !== 32 || at === 0 || at === text.length - 1 || text.charCodeAt(at + 1) === 32) return false;
    }
  }
  return true;
};

/**
 * Whether a cell of names can be taken as it stands without a closer look: tidy, and starting with a letter or digit
 * that no word for nothing starts with. The quick way past the rest for columns in which every name is another one.
 */
export function isPlainName(text: string): boolean {
  const first = text.charCodeAt(0) | 32;
  const isLetter = first >= 97 && first <= 122 && first !== 110 && first !== 117 && first !== 101;
  return (isLetter || (first >= 48 && first <= 57)) && isTidy(text);
}

/**
 * What a cell of names adds to its tray: the text with spaces at its ends and doubled ones taken off.
 * @param text not empty
 * @param asTyped whether words for nothing are kept, as in free columns and notes
 */
export function readTextCell(text: string, asTyped: boolean): CellFact {
  const plain = isTidy(text)
    ? text
    : text
        .normalize("NFC")
        .replace(/[\u200b-\u200f\u2060\ufeff\u00ad]/g, "")
        .replace(/[^\S\n]+/g, " ")
        .trim();
  if (plain === "") return nothing;
  const kept = asTyped ? undefined : (/^="([^"]+)"$/.exec(plain) ?? /^['‘]([^'‘’]+)['’]?$/.exec(plain))?.[1]?.trim();
  if (kept !== undefined && kept !== "" && kept !== plain) {
    const reason = "the marks that keep a name as text were taken off";
    return {
      value: kept,
      remark: { rule: "quoted-cell", severity: "change", reason, result: kept, expected: "", action: "" },
    };
  }
  const base = { result: "", expected: "", action: "" };
  if (!asTyped) {
    if (isSpreadsheetError(plain)) {
      const reason = "a spreadsheet's error, not a value";
      const expected = "the text the formula should have given";
      return {
        remark: {
          rule: "spreadsheet-error",
          severity: "warning",
          reason,
          result: "",
          expected,
          action: `Type ${expected}`,
        },
      };
    }
    if (namesNothing.test(plain)) {
      return {
        remark: {
          ...base,
          rule: "missing-word",
          severity: "change",
          reason: whyMissing(missingWord(plain) ?? "unknown"),
        },
      };
    }
  }
  if (plain === text) return { value: text };
  return {
    value: plain,
    remark: {
      ...base,
      rule: "surrounding-space",
      severity: "change",
      reason: "spaces that mean nothing were taken off",
      result: plain,
    },
  };
}
