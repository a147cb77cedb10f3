/** Encodings a sheet's text is read in. */
export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252" | "windows-1250" | "iso-8859-2";

/** Where a UTF-8 text may be cut so that no character is torn: before a last character that is not complete. */
function wholeCharacters(bytes: Uint8Array): number {
  for (let back = 1; back <= 3 && back <= bytes.length; back++) {
    const byte = bytes[bytes.length - back]!;
    if (byte < 0x80) return bytes.length;
    if (byte >= 0xc0) {
      const needed = byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2;
      return needed > back ? bytes.length - back : bytes.length;
    }
  }
  return bytes.length;
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  if (a.length === 0) return b;
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

/** Whole pieces at a time, which is several times quicker than a decoder that keeps its state between pieces. */
function* decodeUtf8(chunks: Iterable<Uint8Array>, fatal: boolean): Generator<string> {
  const decoder = new TextDecoder("utf-8", { fatal, ignoreBOM: true });
  let carried: Uint8Array = new Uint8Array(0);
  for (const chunk of chunks) {
    const bytes = joined(carried, chunk);
    const end = wholeCharacters(bytes);
    carried = bytes.slice(end);
    yield decoder.decode(bytes.subarray(0, end));
  }
  if (carried.length > 0) yield decoder.decode(carried);
}

function* decodeWith(chunks: Iterable<Uint8Array>, encoding: Encoding): Generator<string> {
  // streaming, because a one-shot windows-1252 decoder of Node 20 leaves 0x80 to 0x9F as control characters
  const decoder = new TextDecoder(encoding, { ignoreBOM: true });
  for (const chunk of chunks) yield decoder.decode(chunk, { stream: true });
  yield decoder.decode();
}

/**
 * The text of a file piece by piece, without its byte-order mark. Bytes that are no characters become U+FFFD.
 * @param fatal for UTF-8: throw instead
 * @throws TypeError with `fatal` where the bytes are not UTF-8
 */
export function* decodeText(chunks: Iterable<Uint8Array>, encoding: Encoding, fatal = false): Generator<string> {
  let first = true;
  for (const text of encoding === "utf-8" ? decodeUtf8(chunks, fatal) : decodeWith(chunks, encoding)) {
    if (text === "") continue;
    yield first && text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
    first = false;
  }
}
