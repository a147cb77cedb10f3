import { isHarvestFieldKey } from "../../records/harvest-field.ts";
import { meaningsOfHeader } from "./match-columns.ts";

/**
 * How much of a row reads as names of harvest columns.
 * @param isKnown whether a name is one of a field's, where the caller remembers
 * @returns 0 to 1: the share of the filled cells that name a known field; 1 where two of them are canonical names
 */
export function looksLikeHarvestHeader(
  cells: ReadonlyArray<string>,
  isKnown: (name: string) => boolean = (name) => meaningsOfHeader(name).length > 0,
): number {
  let filled = 0;
  let known = 0;
  let canonical = 0;
  for (const cell of cells) {
    const text = cell.trim();
    if (text === "") continue;
    filled++;
    if (isHarvestFieldKey(text)) canonical++;
    if (text.length <= 60 && /\p{L}|#/u.test(text) && isKnown(text)) known++;
  }
  if (canonical >= 2) return 1;
  return filled === 0 ? 0 : known / filled;
}
