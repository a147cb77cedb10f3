import { meaningsOfHeader } from "./match-columns.ts";

/**
 * How much of a row reads as names of harvest columns.
 * @returns 0 to 1: the share of the filled cells that name a known field
 */
export function looksLikeHarvestHeader(cells: string[]): number {
  let filled = 0;
  let known = 0;
  for (const cell of cells) {
    const text = cell.trim();
    if (text === "") continue;
    filled++;
    if (text.length <= 60 && /\p{L}|#/u.test(text) && meaningsOfHeader(text).length > 0) known++;
  }
  return filled === 0 ? 0 : known / filled;
}
