import type { HarvestFieldKey } from "../../records/harvest-field.ts";
import type { RawTable } from "../../records/sheet.ts";
import { fold } from "../../records/words/fold.ts";
import { wordsOf } from "../../records/words/header-words.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { readOutcome } from "../values/outcome-words.ts";
import { cellClass } from "./cell-class.ts";
import { headerParts } from "./header-unit.ts";

/** A column that may hold what a book lacks. */
export interface FieldGuess {
  file: string;
  header: string;
  field: HarvestFieldKey;
  /** how likely, 0 to 1 */
  weight: number;
}

const rowsLookedAt = 200;

/** "none" among amounts is 0 of them. */
const nothing = new Set(phrasesOf((words) => words.no));

interface Seen {
  filled: number;
  texts: Set<string>;
  numbers: number[];
  dates: number;
  outcomes: number;
}

function look(table: RawTable, columns: ReadonlySet<number>): Map<number, Seen> {
  const seen = new Map<number, Seen>();
  let rows = 0;
  table.forEachRow((cells) => {
    if (rows++ >= rowsLookedAt) return;
    for (const column of columns) {
      const cell = cells[column]?.trim() ?? "";
      const look = cellClass(cell);
      if (look === "empty") continue;
      const own = seen.get(column) ?? { filled: 0, texts: new Set(), numbers: [], dates: 0, outcomes: 0 };
      seen.set(column, own);
      own.filled++;
      own.texts.add(cell.toLowerCase());
      if (look === "date" || look === "serial") own.dates++;
      else if (look !== "text") own.numbers.push(Number.parseFloat(cell.replace(",", ".")));
      else if (nothing.has(fold(cell))) own.numbers.push(0);
      else if (readOutcome(cell) !== undefined) own.outcomes++;
    }
  });
  return seen;
}

const middle = (values: ReadonlyArray<number>): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

function guessVaried({ filled, texts, numbers }: Seen): [HarvestFieldKey, number] | undefined {
  if (texts.size < 2 || texts.size > filled / 2) return undefined;
  const few = 1 - texts.size / filled;
  if (numbers.length === filled) return ["inoculum_ml", few];
  return numbers.length === 0 ? ["strain", 0.7 * few] : undefined;
}

/** @param at its place: of several days the last is that of the harvest */
function guessResult(
  { filled, texts, numbers, dates, outcomes }: Seen,
  header: string,
  at: number,
): [HarvestFieldKey, number] | undefined {
  if (outcomes >= 0.5 * filled) return ["outcome", 0.9];
  if (dates >= 0.8 * filled) return ["harvested_on", 0.4 + at / 1000];
  const { units } = headerParts(header);
  // "Cook 1 LC ml" is no weight
  if (numbers.length < 0.5 * filled || (units.length > 0 && !units.some(({ kind }) => kind === "mass")))
    return undefined;
  // rows counted from 1 on are names
  if (filled > 2 && numbers.length === filled && numbers.every((number, at) => number === at + 1)) return undefined;
  const usual = middle(numbers);
  const different = texts.size / filled;
  if ((usual >= 40 && usual <= 3000) || wordsOf(header).includes("fresh")) return ["fresh_g", different];
  return usual >= 2 && usual < 40 ? ["dry_g", 0.8 * different] : undefined;
}

/**
 * The columns of no known field that most likely hold what was varied, or a result, by their cells: few values that recur
 * for what was varied; weights within a tray's reach, dates or words of outcomes for a result.
 * @param unknown headers to look at, by file
 */
export function guessFields(
  tables: ReadonlyArray<RawTable>,
  unknown: ReadonlyMap<string, ReadonlySet<string>>,
  wanted: "varied" | "result",
): FieldGuess[] {
  const guesses = tables.flatMap((table) => {
    const names = unknown.get(table.file);
    const columns = new Set(table.header.flatMap((name, index) => (names?.has(name) ? [index] : [])));
    if (columns.size === 0) return [];
    return [...look(table, columns)].flatMap(([index, seen]): FieldGuess[] => {
      const guess = wanted === "varied" ? guessVaried(seen) : guessResult(seen, table.header[index]!, index);
      if (guess === undefined) return [];
      return [{ file: table.file, header: table.header[index]!, field: guess[0], weight: guess[1] }];
    });
  });
  return guesses.sort((a, b) => b.weight - a.weight).slice(0, 3);
}
