import type { SheetSource } from "../records/sheet.ts";

/**
 * The bytes of a file in one piece, for formats that cannot be read in passing.
 * @param most no more of it than this is read
 */
export function allBytes(source: SheetSource, most: number): Uint8Array {
  let bytes = new Uint8Array(Math.min(source.size, most));
  let at = 0;
  for (const part of source.chunks()) {
    const taken = part.subarray(0, most - at);
    if (at + taken.length > bytes.length) {
      // it has grown since it was looked at
      const longer = new Uint8Array(Math.min(most, 2 * (at + taken.length)));
      longer.set(bytes);
      bytes = longer;
    }
    bytes.set(taken, at);
    at += taken.length;
    if (at >= most) break;
  }
  return bytes.subarray(0, at);
}
