/** the longest text shown in one cell; the rest is counted */
const longest = 280;
/** a text without a space for so many letters is cut anywhere */
const longestWord = 40;

/** control characters, broken halves of characters, and marks that turn the reading direction or have no width */
const unseen = /[\p{Cc}\p{Surrogate}\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff]/gu;

function visibleSign(character: string): string {
  const code = character.codePointAt(0)!;
  if (character === "\n" || character === "\r") return "↵";
  if (character === "\t") return " ";
  if (code < 0x20) return String.fromCodePoint(0x2400 + code);
  return code === 0x7f ? "␡" : "\ufffd";
}

/** The beginning of a long text: between words, where one ends near the limit, as half a name is another name. */
function cut(text: string, most: number): string {
  const end = text.lastIndexOf(" ", most);
  const kept = text.slice(0, end > Math.max(0, most - longestWord) ? end : most).replace(/[\s,;]+$/, "");
  return `${kept}… (${text.length} characters)`;
}

/**
 * Text from a cell as it can safely be shown on a line: broken halves of characters, control characters and marks that
 * turn the reading direction become visible signs, and a very long text is cut with its length stated. Markup is not
 * touched: whoever prints the text escapes it.
 * @param most characters kept
 * @example visibleText("two\nlines") // "two↵lines"
 */
export function visibleText(text: string, most = longest): string {
  return (text.length > most ? cut(text, most) : text).replaceAll("\r\n", "\n").replace(unseen, visibleSign);
}

/** Text as a label of a picture: visible, in at most so many letters, cut with an ellipsis. @example labelText("shed rent", 6) // "shed…" */
export function labelText(text: string, most: number): string {
  const shown = visibleText(text);
  return shown.length <= most ? shown : `${shown.slice(0, most - 1).trimEnd()}…`;
}
