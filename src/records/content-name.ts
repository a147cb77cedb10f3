/**
 * A short name for a content, the same for the same content: two 32-bit multiplicative hashes side by side. Not a guard
 * against forgery.
 * @example contentName("tray") === contentName("tray") // true
 */
export function contentName(text: string): string {
  let [a, b] = [0x811c9dc5, 0x9747b28c];
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    a = Math.imul(a ^ code, 0x01000193);
    b = Math.imul(b ^ code, 0x5bd1e995) ^ (b >>> 13);
  }
  return [a, b].map((half) => (half >>> 0).toString(16).padStart(8, "0")).join("");
}
