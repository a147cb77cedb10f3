const letters: Readonly<Record<string, string>> = { ł: "l", ß: "ss", ø: "o", æ: "ae", œ: "oe", đ: "d" };

/**
 * A text as words are compared: lower case, without accents, everything that is no letter, digit, # or % one space.
 * @example fold("  Nr. Schälchen / g ") // "nr schalchen g"
 */
export const fold = (text: string): string =>
  text
    .toLowerCase()
    .replace(/\bn\s*[.]?\s*[º°](?=\P{L}|$)|[#№]/gu, " # ")
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/[łßøæœđ]/g, (letter) => letters[letter]!)
    .replace(/[^\p{L}\p{N}#%✓✔☑☒☐σø]+/gu, " ")
    .trim();
