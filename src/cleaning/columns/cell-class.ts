import type { FieldKind } from "../../records/harvest-field.ts";
import { unitOfAnyKind } from "../../records/words/units.ts";
import { parseDate } from "../dates/parse-date.ts";
import { missingWord } from "../rules/missing-word.ts";
import { withoutCulture } from "../rules/named-amount.ts";
import { withoutEach } from "../rules/per-tray.ts";

/** What a cell looks like before it is known what its column holds. */
export type CellClass =
  | "empty"
  | "date"
  | "serial"
  | "number"
  | "mass"
  | "volume"
  | "temperature"
  | "days"
  | "hours"
  | "percent"
  | "text";

const amount = /^[~<>≈≤≥]?\s*[-+]?\d[\d.,' /½¼¾-]*\s*([^\d]{0,20})$/;

/** "1 lb 2 oz", "2 weeks 3 days". */
const compound = /^\d[\d.,]*\s*(?:lbs?|kg|wk|weeks?)\b.*\d/i;
const worded = /^(?:about|over|under|approx).*\d/i;

/** What one cell looks like. */
export function cellClass(text: string): CellClass {
  const whole = withoutCulture(withoutEach(text.trim()));
  // "12 mL + 5 mL" looks like its last amount, "2 x 5 mL" and "5 mL x2" like their one
  const last = /\d[^+]*\+\s*\d/.test(whole) ? whole.slice(whole.lastIndexOf("+") + 1).trim() : whole;
  const one = last.replace(/^\d{1,2}\s*[x×*]\s*(?=\d)|(?<=\d\s?\p{L}{1,5}\s*)[x×*]\s*\d{1,2}$/iu, "").trim();
  const cell = one.replace(/(?<=\d\s?\p{L}{1,5})\s*\([^()]*\)$/u, "");
  if (missingWord(cell) !== undefined) return "empty";
  if (/^\d+(?:[.,]\d+)?$/.test(cell)) {
    // "20260114"
    if (/^(?:19|20)\d{6}$/.test(cell) && parseDate(cell).kind === "date") return "date";
    const value = Number(cell.replace(",", "."));
    return Number.isInteger(value) && value >= 36_000 && value < 62_000 ? "serial" : "number";
  }
  // "5 of 6" counts
  if (/^\d{1,3}\s*(?:(?:out )?of|von|sur|de|di|su|van|z)\s*\d{1,3}$/i.test(cell)) return "number";
  const date = parseDate(cell);
  if (date.kind === "date" || date.kind === "ambiguous" || date.kind === "yearless") return "date";
  if (date.changes.some(({ rule }) => rule === "impossible-date")) return "date";
  if (/^\d{1,2}(?:st|nd|rd|th|\.|er|re|e|ème|[ªº])$/i.test(cell)) return "number";
  const match = amount.exec(cell);
  if (match === null) return compound.test(cell) || worded.test(cell) ? "number" : "text";
  const unitText = match[1]!.trim();
  if (unitText === "" || /^(?:ish|deg|°|\?)$/i.test(unitText)) return "number";
  const unit = unitOfAnyKind(unitText, "mass");
  if (unit === undefined) return "text";
  return unit.kind === "length" || unit.kind === "count" || unit.kind === "number" ? "text" : unit.kind;
}

/** How well a column of one kind is served by cells of one class, 0 to 1. */
export function fits(kind: FieldKind, cell: CellClass): number {
  if (kind === "text" || kind === "outcome") return cell === "text" ? 1 : cell === "number" ? 0.3 : 0.05;
  if (cell === "text") return 0;
  if (kind === "date") return cell === "date" ? 1 : cell === "serial" ? 0.9 : 0;
  if (cell === "number") return 0.6;
  if (cell === "serial") return 0.2;
  if (kind === "hours" && cell === "days") return 0.9;
  return cell === kind ? 1 : 0;
}
