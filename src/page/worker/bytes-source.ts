import type { SheetSource } from "../../records/sheet.ts";

/** Reads a stretch of bytes at once, as workers can. */
export type ReadBytes = (part: Blob) => ArrayBuffer;

const pieceBytes = 1 << 20;

/**
 * Bytes in the browser's keeping as a sheet that is read piece by piece, from the start each time.
 * @param path the sheet's path inside the book
 * @param read reads one piece; in a worker, `FileReaderSync`
 */
export function bytesSource(path: string, bytes: Blob, read: ReadBytes): SheetSource {
  function* chunks(): Generator<Uint8Array> {
    for (let at = 0; at < bytes.size; at += pieceBytes) yield new Uint8Array(read(bytes.slice(at, at + pieceBytes)));
  }
  return { path, size: bytes.size, chunks };
}
