const isDigit = (code: number): boolean => code >= 48 && code <= 57;

/** Whether a name is its own key but for the case of its letters: letters and digits, no number with a leading 0. */
function isPlain(name: string): boolean {
  let before = 0;
  for (let at = 0; at < name.length; at++) {
    const code = name.charCodeAt(at);
    const letter = code | 32;
    if (!isDigit(code) && !(letter >= 97 && letter <= 122)) return false;
    if (code === 48 && !isDigit(before)) return false;
    before = code;
  }
  return true;
}

const isMark = (code: number): boolean =>
  code === 32 || code === 35 || code === 45 || code === 46 || code === 47 || code === 92 || code === 95;

/** The key of a name of plain letters, digits and marks; undefined for any other name. */
function asciiKey(name: string): string | undefined {
  let key = "";
  let marked = false;
  let before = 0;
  for (let at = 0; at < name.length; at++) {
    const code = name.charCodeAt(at);
    const digit = isDigit(code);
    const letter = code | 32;
    if (!digit && !(letter >= 97 && letter <= 122)) {
      if (!isMark(code)) return undefined;
      marked = true;
      continue;
    }
    // marks part two numbers; beside a letter they mean nothing
    if (marked && digit && isDigit(before)) {
      key += "-";
      before = 0;
    }
    marked = false;
    const leads = code === 48 && !isDigit(before) && isDigit(name.charCodeAt(at + 1));
    if (leads) continue;
    key += String.fromCharCode(digit ? code : letter);
    before = code;
  }
  return key === "" ? undefined : key;
}

/** A word for a tray before its number says nothing. Words for other containers may tell two lots apart. */
const trayAndNumber =
  /^\s*(?:tray|schale|barquette|bandeja|vaschetta|bak|tack?a)(?:\s+(?:no|nr|num)\.?)?[\s_#.:-]*(\d[^\s]*)\s*$/iu;

/**
 * The form in which two spellings of one tray's name are the same: case, spaces, hyphens and leading zeros do not matter,
 * but two numbers stay two.
 * @example trayKey("T 01") // "t1"
 * @example trayKey("1-12") // "1-12"
 * @example trayKey("Tray 3") // "3"
 */
export function trayKey(name: string): string {
  if (name.length > 3) {
    const number = trayAndNumber.exec(name)?.[1];
    if (number !== undefined) return trayKey(number);
  }
  if (isPlain(name)) return name.toLowerCase();
  const plain = asciiKey(name);
  if (plain !== undefined) return plain;
  const folded = name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[\s_.#/\\–—-]+/g, "-")
    .replace(/(?<=\p{L})-|-(?=\p{L})|^-|-$/gu, "")
    .replace(/(?<!\d)0+(?=\d)/g, "");
  return folded === "" ? name : folded;
}
