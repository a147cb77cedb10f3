import { grouped } from "../../records/grouped.ts";
import { isDigit } from "../../records/words/digits.ts";

const isMark = (code: number): boolean =>
  code === 32 || code === 35 || code === 45 || code === 46 || code === 47 || code === 92 || code === 95;

/** A word for a tray before its number says nothing. Words for other containers may tell two lots apart. */
const trayAndNumber =
  /^\s*(?:tray|schale|barquette|bandeja|vaschetta|bak|tack?a)(?:\s+(?:no|nr|num)\.?)?[\s_#.:-]*(\d[^\s]*)\s*$/iu;

/** Whether a name may begin with a word: "C1-001" does not. */
function beginsWithWord(name: string): boolean {
  const first = name.charCodeAt(0);
  return first <= 32 || first > 126 || ((first | 32) >= 97 && (name.charCodeAt(1) | 32) >= 97);
}

/** characters of a name that is written down at once; no name is longer */
const longestPlain = 1000;

/**
 * Writes down the key of a name of plain letters, digits and marks.
 * @param codes has room for as many characters as the name has
 * @returns how many characters it has; 0 for any other name, whose key takes more to find
 */
export function plainKey(name: string, codes: Uint16Array): number {
  if (name.length > Math.min(codes.length, longestPlain)) return 0;
  if (name.length > 3 && beginsWithWord(name) && trayAndNumber.test(name)) return 0;
  let count = 0;
  let marked = false;
  let before = 0;
  for (let at = 0; at < name.length; at++) {
    const code = name.charCodeAt(at);
    const digit = isDigit(code);
    const letter = code | 32;
    if (!digit && !(letter >= 97 && letter <= 122)) {
      if (!isMark(code)) return 0;
      marked = true;
      continue;
    }
    // marks part two numbers; beside a letter they mean nothing
    if (marked && digit && isDigit(before)) {
      codes[count++] = 45;
      before = 0;
    }
    marked = false;
    const leads = code === 48 && !isDigit(before) && isDigit(name.charCodeAt(at + 1));
    if (leads) continue;
    codes[count++] = digit ? code : letter;
    before = code;
  }
  return count;
}

/**
 * The form in which two spellings of one tray's name are the same: case, spaces, hyphens and leading zeros do not matter,
 * but two numbers stay two.
 * @example trayKey("T 01") // "t1"
 * @example trayKey("1-12") // "1-12"
 * @example trayKey("Tray 3") // "3"
 */
export function trayKey(name: string): string {
  const codes = new Uint16Array(name.length);
  const plain = plainKey(name, codes);
  if (plain > 0) return String.fromCharCode(...codes.subarray(0, plain));
  const number = name.length > 3 ? trayAndNumber.exec(name)?.[1] : undefined;
  if (number !== undefined) return trayKey(number);
  const folded = name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[\s_.#/\\–—-]+/g, "-")
    .replace(/(?<=\p{L})-|-(?=\p{L})|^-|-$/gu, "")
    .replace(/(?<!\d)0+(?=\d)/g, "");
  return folded === "" ? name : folded;
}

/** Finds the trays of a name, be they called "A3" or, among several of that name, "A3 (cook 2)". */
export function byName<Named extends { trayId: string }>(trays: ReadonlyArray<Named>): (name: string) => Named[] {
  const found = grouped(trays, ({ trayId }) => trayKey(trayId.replace(/ \([^()]*\)$/, "")));
  return (name) => found.get(trayKey(name.replace(/^#\s*/, ""))) ?? [];
}
