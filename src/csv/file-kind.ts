/** What a file is, by its first bytes. `zip` and `compound` need a look inside. */
export type FileKind =
  | "text"
  | "empty"
  | "zip"
  | "compound"
  | "pdf"
  | "image"
  | "compressed"
  | "rich text"
  | "web page"
  | "XML"
  | "JSON"
  | "database"
  | "unknown";

const starts: ReadonlyArray<readonly [FileKind, ReadonlyArray<number>]> = [
  ["zip", [0x50, 0x4b, 0x03, 0x04]],
  ["zip", [0x50, 0x4b, 0x05, 0x06]],
  ["zip", [0x50, 0x4b, 0x07, 0x08]],
  ["compound", [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]],
  ["pdf", [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ["image", [0x89, 0x50, 0x4e, 0x47]],
  ["image", [0xff, 0xd8, 0xff]],
  ["image", [0x47, 0x49, 0x46, 0x38]],
  ["image", [0x49, 0x49, 0x2a, 0x00]],
  ["image", [0x4d, 0x4d, 0x00, 0x2a]],
  ["compressed", [0x1f, 0x8b]],
  ["compressed", [0x37, 0x7a, 0xbc, 0xaf]],
  ["compressed", [0x52, 0x61, 0x72, 0x21]],
  ["compressed", [0x28, 0xb5, 0x2f, 0xfd]],
  ["compressed", [0xfd, 0x37, 0x7a, 0x58, 0x5a]],
  ["rich text", [0x7b, 0x5c, 0x72, 0x74, 0x66]],
  ["database", [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65, 0x20, 0x66]],
];

const ascii = (bytes: Uint8Array, from: number, length: number): string =>
  String.fromCharCode(...bytes.subarray(from, from + length));

/**
 * What a file is, by the signatures at its start.
 * @param head its first bytes, 64 kB or all of it
 * @returns "text" where nothing speaks against it; text is looked at again once decoded (`textKind`)
 * @source the signatures are those registered for the formats (PKWARE APPNOTE 4.3, [MS-CFB] 2.2, ISO 32000-1 7.5.2, PNG
 *   5.2, RFC 1952; from memory)
 */
export function fileKind(head: Uint8Array): FileKind {
  if (head.length === 0) return "empty";
  for (const [kind, signature] of starts) {
    if (signature.every((byte, index) => head[index] === byte)) return kind;
  }
  const container = ascii(head, 0, 4);
  if (
    (container === "RIFF" && ascii(head, 8, 4) === "WEBP") ||
    /^ftyp(?:heic|heix|mif1|avif)/.test(ascii(head, 4, 8))
  ) {
    return "image";
  }
  return "text";
}

/**
 * What a decoded text is: a web page, XML or JSON saved under a sheet's name, something that is not text at all, or a sheet.
 * @param text the start of the file
 */
export function textKind(text: string): FileKind {
  const start = text.slice(0, 4096).trimStart().toLowerCase();
  if (/^(?:<!--(?:(?!-->)[\s\S])*-->\s*)*<(?:!doctype html|html|head|body|table|meta|div|script)\b/.test(start))
    return "web page";
  if (start.startsWith("<?xml")) return /<html\b/.test(start) ? "web page" : "XML";
  if (/^[[{]\s*(?:\{\s*"|"[^"]*"\s*:)/.test(start)) return "JSON";
  let odd = 0;
  for (let index = 0; index < text.length; index++) {
    const character = text.charCodeAt(index);
    // control characters no sheet has; tab, line ends, form feed and the old end-of-file mark may stand in one
    if ((character < 32 && !(character >= 9 && character <= 13) && character !== 26) || character === 0xfffd) odd++;
  }
  return odd > 1 + text.length * 0.01 ? "unknown" : "text";
}
