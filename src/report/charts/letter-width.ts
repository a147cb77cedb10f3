/** Width of a letter as a share of its size in an everyday sans-serif face, within about a tenth. */
function shareOfSize(letter: string): number {
  if (/[ijlI.,:;'!|()[\]{}]/.test(letter)) return 0.27;
  if (/[ ftr\-/\\"]/.test(letter)) return 0.34;
  if (/[mwMW%@—…]/.test(letter)) return 0.87;
  if (/[A-Z&€$£]/.test(letter)) return 0.68;
  return letter.codePointAt(0)! >= 0x2e80 ? 1 : 0.56;
}

/**
 * About how wide a line of text is, the same on every machine.
 * @param size of the letters in pixels
 * @returns pixels
 * @example letterWidth("ll", 10) // 5.4
 */
export function letterWidth(text: string, size: number): number {
  let width = 0;
  for (const letter of text) width += shareOfSize(letter);
  return width * size;
}

/**
 * Text cut with an ellipsis so that it fits into so many pixels.
 * @param size of the letters in pixels
 * @example cutToWidth("shed rent", 40, 12.5) // "shed…"
 */
export function cutToWidth(text: string, pixels: number, size: number): string {
  if (letterWidth(text, size) <= pixels) return text;
  const letters = [...text];
  while (letters.length > 0 && letterWidth(`${letters.join("").trimEnd()}…`, size) > pixels) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}
