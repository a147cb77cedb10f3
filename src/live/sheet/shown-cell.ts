import type { Settings } from "../../records/setting.ts";
import { visibleText } from "../../report/visible-text.ts";
import { writeNumber } from "../../report/write-number.ts";
import type { LiveColumn } from "../model/live-sheet.ts";

const plainNumber = /^(-?\d+)(?:\.(\d+))?(\s*%)?$/;

/** A cell as it is shown: a number in the book's number format with the digits it has, anything else as it is. */
export function shownCell(
  text: string,
  column: LiveColumn,
  settings: Pick<Settings, "locale" | "currency" | "currencyDecimals">,
): string {
  const match = column.isNumber ? plainNumber.exec(text) : null;
  if (match === null) return visibleText(text, 120);
  const [, whole = "", decimals = "", sign = ""] = match;
  // a number too long for exact arithmetic stays as it was typed; so does one that names something, such as a seed
  if (whole.length > 15) return text;
  const number = Number(`${whole}.${decimals || "0"}`);
  // the whole text comes up when the cell is opened
  const digits = whole.replace("-", "") === "0" ? Math.max(6, 5 + decimals.search(/[1-9]/)) : 6;
  return `${writeNumber(number, { decimals: Math.min(decimals.length, digits), style: "plain", signed: false, settings })}${sign}`;
}

/** The first number of a text, for sorting and for limits; undefined where there is none. */
export function numberIn(text: string): number | undefined {
  const match = /-?\d+(?:\.\d+)?(?:e[-+]?\d+)?/i.exec(text);
  return match === null ? undefined : Number(match[0]);
}
