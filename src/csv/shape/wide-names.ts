import { namesSummary } from "./summary-words.ts";

const amount = /^[~<>≤≥]?(\d+(?:[.,]\d+)?)\s*(\p{L}{1,5}|%|°\s?[CF])$/u;
const repeat =
  /^(?:rep(?:licate|eat|etition)?s?|nr|no|#|trays?|bags?|wdh|wiederholung|répétition|repetición|ripetizione|herhaling|powtórzenie|repetição)$/iu;
const numbered = /^(.*\p{L})[\s_.#-]*(\d{1,3}|(?<=[\s_.#-])\p{Lu})$/u;

/** Whether a name only counts trays that were treated alike: "rep", "Nr", "tray". */
export const isRepeat = (name: string): boolean => repeat.test(name.trim());

/** A name with a number or letter of its own: "rep 1", "Batch A". */
export function numberedName(name: string): { stem: string; code: string } | undefined {
  const match = numbered.exec(name.trim());
  return match === null ? undefined : { stem: match[1]!.trim(), code: match[2]! };
}

/** The unit that names share of which two at least, and half of all, are amounts: "5 mL", "10 mL". */
export function sharedUnit(names: ReadonlyArray<string>): { unit: string; columns: number[] } | undefined {
  const units = names.map((name) => amount.exec(name.trim())?.[2]?.toLowerCase());
  const unit = units.find((one) => one !== undefined);
  if (unit === undefined) return undefined;
  const columns = units.flatMap((own, column) => (own === unit ? [column] : []));
  const named = names.filter((name) => name !== "").length;
  return columns.length >= 2 && columns.length >= named / 2 ? { unit, columns } : undefined;
}

/** Cells of a row that look like values and may be names over columns: amounts of one unit, or one word numbered. */
export function namesOverColumns(cells: ReadonlyArray<string>): number[] {
  const shared = sharedUnit(cells);
  // weights side by side are data
  if (shared !== undefined && !/^(?:[mcd]?l|cc)$/.test(shared.unit)) return [];
  if (shared !== undefined)
    return new Set(shared.columns.map((column) => cells[column])).size === shared.columns.length ? shared.columns : [];
  const parts = cells.map(numberedName);
  const stem = parts.findLast((_, column) => !namesSummary(cells[column]!))?.stem.toLowerCase() ?? "";
  const columns = parts.flatMap((part, column) => (part?.stem.toLowerCase() === stem ? [column] : []));
  const isSeries =
    (stem.length >= 2 || (columns.length >= 3 && !columns.includes(0))) &&
    columns.length >= 2 &&
    columns.length >= cells.filter((cell) => cell !== "").length / 2;
  return isSeries && new Set(columns.map((column) => parts[column]!.code)).size === columns.length ? columns : [];
}
