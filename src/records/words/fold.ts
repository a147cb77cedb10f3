const letters: Readonly<Record<string, string>> = { ł: "l", ß: "ss", ø: "o", æ: "ae", œ: "oe", đ: "d" };

/** what folding leaves as it is, known by one look: most words of every list, and most headers */
const isFolded = /^[a-z0-9%]+(?: [a-z0-9%]+)*$/;

/**
 * A text as words are compared: lower case, without accents, everything that is no letter, digit, # or % one space.
 * @example fold("  Nr. Schälchen / g ") // "nr schalchen g"
 */
export function fold(text: string): string {
  const lower = text.toLowerCase();
  if (isFolded.test(lower)) return lower;
  return lower
    .replace(/\bn\s*[.]?\s*[º°](?=\P{L}|$)|[#№]/gu, " # ")
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replace(/[łßøæœđ]/g, (letter) => letters[letter]!)
    .replace(/[^\p{L}\p{N}#%✓✔☑☒☐σø]+/gu, " ")
    .trim();
}
