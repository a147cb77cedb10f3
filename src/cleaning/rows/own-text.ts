/** Up to this many letters a part of a text is copied by itself. */
const copied = 12;

/**
 * A text with letters of its own. Longer parts of a text are kept by V8 as a view on all of it: a cell that stays would
 * hold on to the whole stretch of the sheet that it was cut from.
 */
export function ownText(text: string): string {
  if (text.length <= copied || text.length > 1000) return text;
  const codes: number[] = [];
  for (let at = 0; at < text.length; at++) codes.push(text.charCodeAt(at));
  return String.fromCharCode(...codes);
}
