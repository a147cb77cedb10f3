import { gzipSync, strToU8 } from "fflate";
import { base91Of, bytesOf91 } from "./base91.mjs";

/** A text as gzip in letters that may stand in a page. The same text, the same letters. */
export const packText = (text: string): string => base91Of(gzipSync(strToU8(text), { level: 9, mtime: 0 }));

/** The text that was packed. @throws Error in a browser that cannot unpack gzip, or where a letter is damaged */
export async function unpackText(packed: string): Promise<string> {
  if (typeof DecompressionStream === "undefined")
    throw new Error("this browser is too old to unpack the program; use a newer one");
  const stream = new Blob([bytesOf91(packed)]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).text();
}
