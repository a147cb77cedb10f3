import type { SheetSource } from "../../src/records/sheet.ts";

/** A sheet in memory, handed over in chunks of a given size. */
export function sourceOf(content: string | Uint8Array, path = "sheet.csv", chunkSize = 1 << 16): SheetSource {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return {
    path,
    size: bytes.length,
    *chunks() {
      for (let at = 0; at < bytes.length; at += chunkSize) yield bytes.subarray(at, at + chunkSize);
    },
  };
}
