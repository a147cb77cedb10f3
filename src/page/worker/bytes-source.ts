import type { SheetSource } from "../../records/sheet.ts";

const pieceBytes = 1 << 20;

/**
 * Bytes as a sheet that is read piece by piece, from the start each time.
 * @param path the sheet's path inside the book
 */
export function bytesSource(path: string, bytes: Uint8Array): SheetSource {
  function* chunks(): Generator<Uint8Array> {
    for (let at = 0; at < bytes.length; at += pieceBytes) yield bytes.subarray(at, at + pieceBytes);
  }
  return { path, size: bytes.length, chunks };
}
