import { isValueLike } from "./value-like.ts";

const sum =
  /^(?:grand|sub|over-?all|running|cook|batch|tray|all|column|sheet)?[\s-]*(?:totals?|sums?|averages?|avg\.?|mean|medians?)(?:\s*[:=]|\s*\([^)]*\)|\s+(?:of|for|per|over|all|fresh|dry|dried|wet|weight|wt|yield|cost|costs|g|grams|kg)\b.*)?\s*$/i;
const trailing = /\b(?:sub-?)?(?:totals?|average|mean)\s*:?$/i;
const spreadLabel =
  /^(?:std\.?\s*dev\.?|st\.?\s*dev\.?|stdev|standard deviation|s\.?d\.?|min(?:imum)?|max(?:imum)?|count|range|cv|n)\s*[:=]?$/i;

/**
 * Whether a row sums up others ("Total", "Average dry", "Cook 1 subtotal") rather than being data: its first filled
 * cell says so and every other one is a number, a formula's error, or empty.
 * @param afterSummary whether the row right above is blank or sums up; spread labels such as "min" need that
 */
export function isTotalsRow(cells: ReadonlyArray<string>, afterSummary: boolean): boolean {
  let index = 0;
  while (index < cells.length && cells[index]!.trim() === "") index++;
  const label = cells[index]?.trim() ?? "";
  // most rows are ruled out by their first cell alone
  if (label === "" || label.length > 60 || !/\p{L}/u.test(label)) return false;
  const says = sum.test(label) || trailing.test(label) || (afterSummary && spreadLabel.test(label));
  if (!says) return false;
  for (let other = index + 1; other < cells.length; other++) {
    const cell = cells[other]!.trim();
    if (cell !== "" && !isValueLike(cell) && !spreadLabel.test(cell) && !sum.test(cell)) return false;
  }
  return true;
}

const same = (a: string, b: string): boolean => {
  if (a === b) return true;
  // most cells of data differ in their first character already (letters apart from their case)
  const first = a.charCodeAt(0);
  if (first > 32 && (first | 32) !== (b.charCodeAt(0) | 32)) return false;
  return a.length > 0 && b.length > 0 && a.replace(/\s+/g, " ").trim().toLowerCase() === b.toLowerCase();
};

/**
 * Whether a row repeats a header line: every filled cell is that column's name, and at least half the names are there.
 * @param header the line as found, tidied
 */
export function repeatsHeader(cells: ReadonlyArray<string>, header: ReadonlyArray<string>): boolean {
  let named = 0;
  let there = 0;
  for (let column = 0; column < Math.max(cells.length, header.length); column++) {
    const name = header[column] ?? "";
    const cell = cells[column] ?? "";
    if (name !== "") named++;
    if (cell === "" || (cell.trim() === "" && name === "")) continue;
    if (!same(cell, name)) return false;
    there++;
  }
  return there > 0 && there >= named / 2;
}

/** Whether every cell is empty or white space. */
export function isBlank(cells: ReadonlyArray<string>): boolean {
  for (const cell of cells) if (cell !== "" && cell.trim() !== "") return false;
  return true;
}
