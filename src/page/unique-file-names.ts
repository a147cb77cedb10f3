import { visibleText } from "../report/visible-text.ts";
import type { SheetInHand } from "./worker/messages.ts";

async function isSame(a: Blob, b: Blob): Promise<boolean> {
  if (a.size !== b.size) return false;
  const [first, second] = [new Uint8Array(await a.arrayBuffer()), new Uint8Array(await b.arrayBuffer())];
  return first.every((byte, index) => byte === second[index]);
}

/** A path with a number before its ending. @example numbered("a/costs.csv", 2) // "a/costs (2).csv" */
const numbered = (path: string, number: number): string => path.replace(/(\.[^./]*)?$/, ` (${number})$1`);

/** A path without such a number, as some browsers put it themselves. */
const withoutNumber = (path: string): string => path.replace(/ \(\d+\)(?=(?:\.[^./]*)?$)/, "");

/**
 * Sheets that came together, each with a path of its own: of two with one name and the same contents one is kept, of two
 * that differ the later one gets a number.
 * @returns the sheets, and a sentence on each that was left away or renamed
 */
export async function withUniqueFileNames(
  sheets: ReadonlyArray<SheetInHand>,
): Promise<{ sheets: SheetInHand[]; notes: string[] }> {
  const kept = new Map<string, SheetInHand>();
  const families = new Map<string, SheetInHand[]>();
  const notes: string[] = [];
  for (const sheet of sheets) {
    const family = families.get(withoutNumber(sheet.path)) ?? [];
    families.set(withoutNumber(sheet.path), family);
    const name = visibleText(withoutNumber(sheet.path), 80);
    const same = await Promise.all(family.map(({ bytes }) => isSame(bytes, sheet.bytes)));
    if (same.includes(true)) {
      notes.push(`${name} came twice with the same contents: read once.`);
      continue;
    }
    let [path, number] = [sheet.path, 1];
    while (kept.has(path)) path = numbered(sheet.path, ++number);
    if (path !== sheet.path) {
      notes.push(`Two different sheets are called ${name}: both are read, one as ${visibleText(path, 90)}.`);
    }
    const own = { ...sheet, path };
    kept.set(path, own);
    family.push(own);
  }
  return { sheets: [...kept.values()], notes };
}
