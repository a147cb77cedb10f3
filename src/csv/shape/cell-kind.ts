import { isValueLike } from "./value-like.ts";

/** What a cell is at a glance. */
export type CellKind = "blank" | "number" | "date" | "code" | "text";

const blank = /^[\s.·…_=*~–—-]*$/;
const number =
  /^[~≈<>≤≥±+\-−(]*\s*(?:[$€£¥₹]\s*)?(?:\d[\d.,'\s\u00a0\u202f]*|[.,]\d+)(?:\s*[½¼¾⅓⅔⅛])?\s*(?:%|\p{L}{1,6}\.?|°\s?[CF]|[$€£])?\)?$/u;
const date =
  /^(?:\d{1,4}[-./]\d{1,2}[-./]\d{1,4}|\d{1,2}[-./ ]?\p{L}{3,9}\.?(?:[-./ ,]+\d{2,4})?|\p{L}{3,9}\.? \d{1,2}(?:,? \d{2,4})?)(?:[T ]\d{1,2}:\d\d(?::\d\d)?)?$/u;

/** Whether a cell says nothing: empty, or filled with dots or dashes. */
export const isNothing = (cell: string): boolean => cell === "" || blank.test(cell);

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

/** The number a cell begins with, its decimal mark guessed from the cell alone; undefined where it has none. */
export function numberIn(cell: string): number | undefined {
  const code = cell.charCodeAt(0);
  // most cells are plain digits or plain words
  if (code > 57 && code < 128) return undefined;
  const plain = Number(cell);
  if (cell !== "" && !Number.isNaN(plain)) return cell.trim() === "" ? undefined : plain;
  const match = /^[~≈+]?\s*(-?(?:\d[\d.,'\u00a0\u202f ]*\d|\d|[.,]\d+))\s*(?:\p{L}{1,6}\.?|%)?$/u.exec(cell.trim());
  if (match === null) return undefined;
  let digits = match[1]!.replace(/['\u00a0\u202f ]/g, "");
  const point = digits.lastIndexOf(".");
  const comma = digits.lastIndexOf(",");
  if (point >= 0 && comma >= 0) digits = digits.replaceAll(point > comma ? "," : ".", "").replace(",", ".");
  else if (comma >= 0)
    digits = /^-?[1-9]\d{0,2}(?:,\d{3})+$/.test(digits) ? digits.replaceAll(",", "") : digits.replace(",", ".");
  const value = Number(digits);
  return Number.isNaN(value) ? undefined : value;
}

/** The pattern of a name: letters a, digits 9, runs made one. @example nameMask("T-101") // "a-9" */
export const nameMask = (name: string): string =>
  name
    .trim()
    .replace(/\p{L}+/gu, "a")
    .replace(/\d+/g, "9")
    .replace(/\s+/g, " ");
