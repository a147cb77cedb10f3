import type { SheetSource } from "../../records/sheet.ts";
import { decodeText, type Encoding } from "./decode-text.ts";

/** How a file's bytes are to be read. */
export interface EncodingReading {
  encoding: Encoding;
  because: "byte-order mark" | "zero bytes" | "valid UTF-8" | "not UTF-8";
  /** whether reading it gives characters that stand for bytes that are none */
  damaged: boolean;
}

/** UTF-16 without a mark: letters, digits and separators of a sheet have a zero in one of their two bytes. */
function byZeroBytes(head: Uint8Array): Encoding | undefined {
  const pairs = Math.min(head.length, 4096) >> 1;
  let evenZeros = 0;
  let oddZeros = 0;
  for (let index = 0; index < pairs; index++) {
    if (head[2 * index] === 0) evenZeros++;
    if (head[2 * index + 1] === 0) oddZeros++;
  }
  if (oddZeros > 0.3 * pairs && evenZeros < 0.05 * pairs) return "utf-16le";
  if (evenZeros > 0.3 * pairs && oddZeros < 0.05 * pairs) return "utf-16be";
  return undefined;
}

function marked(head: Uint8Array): Encoding | undefined {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return "utf-8";
  if (head[0] === 0xff && head[1] === 0xfe) return "utf-16le";
  if (head[0] === 0xfe && head[1] === 0xff) return "utf-16be";
  return undefined;
}

/** The start of a text, good enough to tell that it is none; the rest of the file is not looked at. */
export const startOfText = (head: Uint8Array): string =>
  new TextDecoder(marked(head) ?? byZeroBytes(head) ?? "windows-1252").decode(head);

/** Whether no byte of a piece has its high bit set: looked at four at a time where they lie so. */
function isAscii(bytes: Uint8Array): boolean {
  const whole = bytes.byteOffset % 4 === 0 ? bytes.length >> 2 : 0;
  const fours = new Uint32Array(bytes.buffer, whole === 0 ? 0 : bytes.byteOffset, whole);
  let high = 0;
  for (let at = 0; at < whole; at++) high |= fours[at]!;
  for (let at = 4 * whole; at < bytes.length; at++) high |= bytes[at]!;
  return (high & 0x8080_8080) === 0;
}

/** Whether a file has none but plain ASCII characters, as most have: then nothing need be decoded to know it. */
function isAllAscii(source: SheetSource): boolean {
  for (const chunk of source.chunks()) if (!isAscii(chunk)) return false;
  return true;
}

/** Signs that Polish letters show as in Windows-1252, between letters, where no text of another language has them. */
const centralEuropean = /\p{L}[¹¿¯£¥]\p{L}|\p{Ll}³\p{Ll}|\p{L}œñ|\bŒ(?=[a-z])(?!uvre|il)/u;
/** What Windows-1252 leaves unassigned: the text is in some other encoding. */
const unassigned = /[\u0081\u008d\u008f\u0090\u009d]/;
const latin2 = /\p{L}[±¶¼]\p{L}/u;

/** characters of a text without a separator that are held back for the next piece */
const longestWord = 4096;

/** A text in pieces that end between words, however its bytes came. */
function* wholeWords(pieces: Iterable<string>): Generator<string> {
  let rest = "";
  for (const piece of pieces) {
    const text = rest + piece;
    const end = Math.max(...["\n", "\r", " ", ",", ";", "\t"].map((mark) => text.lastIndexOf(mark))) + 1;
    const cut = end === 0 && text.length > longestWord ? text.length : end;
    yield text.slice(0, cut);
    rest = text.slice(cut);
  }
  yield rest;
}

/** The eight-bit encoding of a text that is no UTF-8: Polish words show in Windows-1252 as signs amid letters. */
function eightBit(source: SheetSource): Omit<EncodingReading, "because"> {
  let isPolish = false;
  let damaged = false;
  for (const text of wholeWords(decodeText(source.chunks(), "windows-1252"))) {
    if (latin2.test(text)) return { encoding: "iso-8859-2", damaged: false };
    isPolish ||= centralEuropean.test(text);
    damaged ||= unassigned.test(text);
  }
  return isPolish ? { encoding: "windows-1250", damaged: false } : { encoding: "windows-1252", damaged };
}

const replacement = "\uFFFD";

/**
 * Decides a text file's encoding: by its byte-order mark, else by the pattern of zero bytes, else UTF-8 where every
 * byte of the file is valid in it, else Windows-1252, or Windows-1250 or ISO 8859-2 where Polish letters show as signs.
 * @param head the first bytes
 * @source WHATWG Encoding Standard, sections 4 and 9 (labels, windows-1252 index)
 */
export function detectEncoding(source: SheetSource, head: Uint8Array): EncodingReading {
  const mark = marked(head);
  const encoding = mark ?? byZeroBytes(head);
  if (encoding !== undefined) {
    let damaged = false;
    for (const text of decodeText(source.chunks(), encoding)) damaged ||= text.includes(replacement);
    return { encoding, because: mark === undefined ? "zero bytes" : "byte-order mark", damaged };
  }
  if (isAllAscii(source)) return { encoding: "utf-8", because: "valid UTF-8", damaged: false };
  try {
    let damaged = false;
    for (const text of decodeText(source.chunks(), "utf-8", true)) damaged ||= text.includes(replacement);
    return { encoding: "utf-8", because: "valid UTF-8", damaged };
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    return { ...eightBit(source), because: "not UTF-8" };
  }
}
