import type { SheetSource } from "../records/sheet.ts";

/** All bytes of a file in one piece, for formats that cannot be read in passing. */
export function allBytes(source: SheetSource): Uint8Array<ArrayBuffer> {
  const parts = [...source.chunks()];
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
