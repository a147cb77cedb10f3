import { isValueLike } from "./value-like.ts";

/** What a cell is at a glance. */
export type CellKind = "blank" | "number" | "date" | "code" | "text";

const blank = /^[\s.·…_=*~:–—-]*$/;
const number =
  /^[~≈<>≤≥±+\-−(]*\s*(?:[$€£¥₹]\s*)?(?:\d[\d.,'\s\u00a0\u202f]*|[.,]\d+)(?:\s*[½¼¾⅓⅔⅛])?\s*(?:%|\p{L}{1,6}\.?|°\s?[CF]|[$€£])?\)?$/u;
const date =
  /^(?:\d{1,4}[-./]\d{1,2}[-./]\d{1,4}|\d{1,2}[-./ ]?\p{L}{3,9}\.?(?:[-./ ,]+\d{2,4})?|\p{L}{3,9}\.? \d{1,2}(?:,? \d{2,4})?)(?:[T ]\d{1,2}:\d\d(?::\d\d)?)?$/u;

/** A text with one space for each run of spaces and line breaks; a run that is one already, as most are, costs nothing. */
export const tidy = (text: string): string => text.replace(/[^\S ]\s*| \s+/g, " ").trim();

/** Whether a cell says nothing: empty, or filled with dots or dashes. */
export function isNothing(cell: string): boolean {
  if (cell === "") return true;
  const code = cell.charCodeAt(0) | 32;
  // letters and digits, which most cells begin with
  if ((code >= 97 && code <= 122) || (code >= 48 && code <= 57)) return false;
  return blank.test(cell);
}

/** What a cell is at a glance, whatever its column. @example cellKind("10 mL") // "number" */
export function cellKind(cell: string): CellKind {
  const text = cell.trim();
  if (isNothing(text)) return "blank";
  if (
    date.test(text) &&
    !/^\d+\.\d+$/.test(text) &&
    !/^\d{1,4}\s?(?:\p{L}{1,2}|grams?|days?|hours?|weeks?)$/u.test(text)
  )
    return "date";
  if (number.test(text)) return "number";
  return isValueLike(text) ? "code" : "text";
}

const amount = /^[~≈+]?\s*(-?(?:\d[\d.,'\u00a0\u202f ]*\d|\d|[.,]\d+))\s*(?:\p{L}{1,6}\.?|%)?$/u;

/** Plain digits with at most one point as a number, several times quicker than Number(); NaN for everything else. */
function plainDigits(cell: string): number {
  let value = 0;
  let scale = 0;
  for (let index = 0; index < cell.length; index++) {
    const code = cell.charCodeAt(index);
    if (code === 46 && scale === 0 && index > 0) scale = 1;
    else if (code < 48 || code > 57) return Number.NaN;
    else {
      value = value * 10 + code - 48;
      scale *= 10;
    }
  }
  return scale > 1 ? value / scale : value;
}

/** The number a cell begins with, its decimal mark guessed from the cell alone; NaN where it has none. */
export function numberOf(cell: string): number {
  if (cell === "") return Number.NaN;
  const code = cell.charCodeAt(0);
  // most cells are plain digits or plain words
  if ((code > 57 && code < 126) || cell.length > 24) return Number.NaN;
  if (code >= 48 && code <= 57 && cell.length < 15) {
    const plain = plainDigits(cell);
    if (!Number.isNaN(plain)) return plain;
    // dates and times
    if (cell.charCodeAt(4) === 45 || cell.includes("/") || cell.includes(":")) return Number.NaN;
  }
  const match = amount.exec(cell.trim());
  if (match === null) return Number.NaN;
  let digits = match[1]!.replace(/['\u00a0\u202f ]/g, "");
  const point = digits.lastIndexOf(".");
  const comma = digits.lastIndexOf(",");
  if (point >= 0 && comma >= 0) digits = digits.replaceAll(point > comma ? "," : ".", "").replace(",", ".");
  else if (comma >= 0) {
    digits = /^-?[1-9]\d{0,2}(?:,\d{3})+$/.test(digits) ? digits.replaceAll(",", "") : digits.replace(",", ".");
  }
  return Number(digits);
}

/** The number a cell begins with; undefined where it has none. */
export function numberIn(cell: string): number | undefined {
  const value = numberOf(cell);
  return Number.isNaN(value) ? undefined : value;
}

/** The pattern of a name of plain letters, digits and marks; undefined for any other name. */
function plainMask(name: string): string | undefined {
  let mask = "";
  let before = "";
  for (let at = 0; at < name.length; at++) {
    const code = name.charCodeAt(at);
    const letter = code | 32;
    const isEdge = at === 0 || at === name.length - 1 || before === " ";
    if (code < 32 || code > 126 || (code === 32 && isEdge)) return undefined;
    const sign = letter >= 97 && letter <= 122 ? "a" : code >= 48 && code <= 57 ? "9" : name[at]!;
    if (sign !== before || (sign !== "a" && sign !== "9")) mask += sign;
    before = sign;
  }
  return mask;
}

/** The pattern of a name: letters a, digits 9, runs made one. @example nameMask("T-101") // "a-9" */
export const nameMask = (name: string): string =>
  plainMask(name) ??
  name
    .trim()
    .replace(/\p{L}+/gu, "a")
    .replace(/\d+/g, "9")
    .replace(/\s+/g, " ");
