import { withoutOrdinal } from "../../records/words/flush-words.ts";
import { isNothing, numberIn } from "./cell-kind.ts";
import type { SheetRow } from "./grid.ts";
import type { SheetWords } from "./sheet-words.ts";

/** Two neighbouring columns that are one quantity. */
export interface ColumnJoin {
  /** a number and its unit; pounds and ounces of one weight; one weight typed in two units; a dose given in two shots */
  how: "unit" | "parts" | "either" | "shots";
  left: number;
  right: number;
  /** of the joined column */
  name: string;
  units: readonly [left: string, right: string];
}

const unitHeader =
  /^(?:units?|uom|u\/m|einheit(?:en)?|unites?|unidad(?:es)?|unita|eenheid|eenheden|jednostka|jedn\.?|unidades?|measure|g ?(?:\/|or) ?(?:oz|kg|lb))?$/;
const amountUnit = /^(?:m?g|kg|gr|grams?|oz|lbs?|ml|cc)$/i;
const perUnit: Readonly<Record<string, number>> = { g: 1, kg: 1000, oz: 28.349523125, lb: 453.59237 };

const folded = (text: string): string => text.normalize("NFKD").replace(/\p{M}/gu, "").trim().toLowerCase();

/** Whether a header, folded or not, is that of a column of units; a blank one may be. */
export const namesUnits = (name: string): boolean => unitHeader.test(folded(name));

function columnCells(rows: ReadonlyArray<SheetRow>, column: number): string[] {
  return rows.map(({ cells }) => (cells[column] ?? "").trim()).filter((cell) => !isNothing(cell));
}

function unitJoin(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  at: number,
  words: SheetWords,
): ColumnJoin | undefined {
  const header = folded(names[at + 1]!);
  const units = columnCells(rows, at + 1);
  // a group's name may stand before or above: "Results Unit", "Results"
  const isNamed = namesUnits(header) || namesUnits(header.split(" ").at(-1)!);
  if (
    !isNamed &&
    (words.columnSort(names[at + 1]!, true) !== "result" || !units.every((cell) => amountUnit.test(cell)))
  )
    return undefined;
  const numbers = columnCells(rows, at);
  const areUnits = units.length > 0 && units.filter((cell) => words.isUnit(cell)).length >= 0.9 * units.length;
  const areNumbers =
    numbers.length > 0 && numbers.filter((cell) => numberIn(cell) !== undefined).length >= 0.5 * numbers.length;
  if (!areUnits || !areNumbers) return undefined;
  const join = { how: "unit", left: at, right: at + 1 } as const;
  const different = new Set(units.map((unit) => unit.toLowerCase()));
  // one unit throughout belongs into the name
  return different.size === 1 && words.massUnit(names[at]!) === undefined
    ? { ...join, name: `${names[at]} (${units[0]})`, units: ["", units[0]!] as const }
    : { ...join, name: names[at]!, units: ["", ""] as const };
}

function massJoin(names: ReadonlyArray<string>, rows: ReadonlyArray<SheetRow>, at: number, words: SheetWords) {
  const left = words.massUnit(names[at]!);
  const right = words.massUnit(names[at + 1]!);
  if (left === undefined || right === undefined || left.unit === right.unit) return undefined;
  if (right.name !== "" && folded(left.name) !== folded(right.name)) return undefined;
  const pairs = rows.map(({ cells }) => [numberIn(cells[at] ?? ""), numberIn(cells[at + 1] ?? "")] as const);
  const both = pairs.filter((pair): pair is [number, number] => pair[0] !== undefined && pair[1] !== undefined);
  const ounces = pairs.flatMap(([, ounce]) => (ounce === undefined ? [] : [ounce]));
  const name = left.name === "" ? "Weight" : left.name;
  const units = [left.unit, right.unit] as const;
  const join = { left: at, right: at + 1, name, units };
  const ratio = perUnit[left.unit]! / perUnit[right.unit]!;
  const equal = both.filter(([a, b]) => Math.abs(a * ratio - b) <= 0.03 * Math.abs(b) + 0.6).length;
  if (both.length >= 2 && equal === both.length) return { ...join, how: "either" } as ColumnJoin;
  const small = ounces.length > 0 && ounces.every((ounce) => ounce >= 0 && ounce < 16);
  if (left.unit === "lb" && right.unit === "oz" && small) return { ...join, how: "parts" } as ColumnJoin;
  if (both.length === 0 && ounces.length > 0) return { ...join, how: "either" } as ColumnJoin;
  return undefined;
}

/** "1st shot ml" and "2nd shot ml": a dose given in two goes. */
function doseJoin(names: ReadonlyArray<string>, at: number, words: SheetWords): ColumnJoin | undefined {
  const [one, other] = [at, at + 1].map((column) => withoutOrdinal(names[column]!));
  if (one === undefined || other === undefined || one.place === other.place || one.name !== other.name)
    return undefined;
  if (words.dateOf(one.name) !== "inoculated_on") return undefined;
  return { how: "shots", left: at, right: at + 1, name: one.name, units: ["", ""] };
}

/**
 * The neighbouring columns that say one quantity: a column of units beside a column of numbers, pounds and ounces, one
 * weight in two units.
 * @param rows some rows of data
 */
export function findJoins(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  words: SheetWords,
): ColumnJoin[] {
  const joins: ColumnJoin[] = [];
  for (let at = 0; at + 1 < names.length; at++) {
    if (names[at] === "") continue;
    const join = unitJoin(names, rows, at, words) ?? massJoin(names, rows, at, words) ?? doseJoin(names, at, words);
    if (join === undefined) continue;
    joins.push(join);
    at++;
  }
  return joins;
}

const withUnit = (cell: string, unit: string): string =>
  isNothing(cell) || unit === "" || /\p{L}/u.test(cell) ? cell : `${cell} ${unit}`;

/** The cell of two joined ones. @example joinedCell(pounds, "7", "3.5") // "7 lb 3.5 oz" */
export function joinedCell({ how, units }: ColumnJoin, left: string, right: string): string {
  const [a, b] = [left.trim(), right.trim()];
  if (how === "shots") return isNothing(a) || isNothing(b) ? (isNothing(a) ? b : a) : `${a} + ${b}`;
  if (how === "unit" && b.toLowerCase() === units[1].toLowerCase()) return left;
  if (how === "unit") return isNothing(a) || isNothing(b) || !/\d\s*$/.test(a) ? a : `${a} ${b}`;
  if (how === "either") return isNothing(a) ? withUnit(b, units[1]) : withUnit(a, units[0]);
  if (isNothing(b) || /^0+(?:[.,]0+)?$/.test(b)) return withUnit(a, units[0]);
  if (isNothing(a) || /^0+(?:[.,]0+)?$/.test(a)) return withUnit(b, units[1]);
  return `${withUnit(a, units[0])} ${withUnit(b, units[1])}`;
}
