import { isLabelLike } from "../shape/value-like.ts";
import { type RecordOptions, readRecords } from "./read-records.ts";

/** What may stand between cells. */
export const delimiters = ["\t", ";", "|", ","] as const;
export type Delimiter = (typeof delimiters)[number];

interface Candidate {
  delimiter: Delimiter;
  /** cells most rows have */
  width: number;
  /** share of rows with exactly that many */
  share: number;
  /** the largest share of cells that read like column names, over the first rows of that width */
  header: number;
  /** share of cells with half of a quotation, which a wrong delimiter leaves */
  torn: number;
  /** share of the cells with a comma that are numbers with a decimal comma */
  decimalCommas: number;
}

const rowsLookedAt = 200;
const decimalComma = /^[+-]?\d+,\d+(?:\s*\p{L}{1,5})?$/u;

function candidateFor(sample: string, delimiter: Delimiter): Candidate {
  const rows = rowsOf(sample, { delimiter }).map((cells) => cells.map((cell) => cell.trim()));
  const counts = new Map<number, number>();
  for (const { length } of rows) counts.set(length, (counts.get(length) ?? 0) + 1);
  // lines of one cell are titles above a table; they say nothing for or against a delimiter unless all are such
  let width = 1;
  let most = 0;
  for (const [length, count] of counts) {
    if (length > 1 && (count > most || (count === most && length > width))) [width, most] = [length, count];
  }
  const named = rows
    .filter(({ length }) => length === width)
    .slice(0, 20)
    .map((cells) => cells.filter((cell) => cell !== "" && isLabelLike(cell)).length / cells.length);
  const all = rows.flat();
  const withComma = all.filter((cell) => cell.includes(","));
  return {
    delimiter,
    width,
    share: rows.length === 0 ? 0 : most / rows.length,
    header: Math.max(0, ...named),
    torn: all.length === 0 ? 0 : all.filter((cell) => cell.split('"').length % 2 === 0).length / all.length,
    decimalCommas:
      withComma.length === 0 ? 0 : withComma.filter((cell) => decimalComma.test(cell)).length / withComma.length,
  };
}

/**
 * Which delimiter a text uses, by evidence: how many rows it cuts into the same number of cells, how many cells that
 * is, and whether one of the rows it makes reads like a header. Quotes are honoured. A comma that another delimiter
 * shows to be a decimal mark counts for little.
 * @param sample the start of the text, complete lines where possible
 * @returns the comma where nothing is cut
 */
export function detectDelimiter(sample: string): Delimiter {
  // the line some spreadsheet programs write to say so
  const stated = /^\s*"?sep=([\t;|,])"?\s*(?:\r|\n|$)/i.exec(sample)?.[1];
  const declared = delimiters.find((delimiter) => delimiter === stated);
  if (declared !== undefined) return declared;
  const candidates = delimiters.map((delimiter) => candidateFor(sample, delimiter)).filter(({ width }) => width > 1);
  const marksDecimals = candidates.some(
    ({ delimiter, share, decimalCommas }) => delimiter !== "," && share >= 0.8 && decimalCommas >= 0.8,
  );
  let best: Delimiter = ",";
  let bestScore = 0;
  for (const { delimiter, width, share, header, torn } of candidates) {
    const doubted = delimiter === "," && marksDecimals ? 0.4 : 1;
    const score = doubted * share * Math.log2(width) * (0.25 + header) * (1 - torn);
    if (score > bestScore) [best, bestScore] = [delimiter, score];
  }
  return best;
}

/**
 * Whether spaces stand between delimiters and quotation marks, as in `A1, 10, "good, dense"`: then fewer quotation marks
 * are torn, and more rows have as many cells as most, when the spaces are skipped.
 * @param sample the start of the text
 */
export function spacesBeforeQuotes(sample: string, delimiter: string): boolean {
  if (!sample.includes(`${delimiter} `) || !/[,;|\t] +"/.test(sample)) return false;
  const cut = (skipSpace: boolean) => {
    const rows = rowsOf(sample, { delimiter, skipSpace });
    const torn = rows.flat().filter((cell) => cell.trim().startsWith('"')).length;
    return { torn, widths: new Set(rows.map(({ length }) => length)).size };
  };
  const [kept, skipped] = [cut(false), cut(true)];
  return skipped.torn < kept.torn && skipped.widths <= kept.widths;
}

/**
 * Whether a backslash before a delimiter makes it part of the cell, as in `Tray\,no`: unless more rows are of one width
 * where it does not. Nobody ends a cell with a backslash for its own sake.
 * @param sample the start of the text
 */
export function escapesDelimiters(sample: string, delimiter: string): boolean {
  if (!sample.includes(`\\${delimiter}`)) return false;
  const alike = (escapes: boolean): number => {
    const counts = new Map<number, number>();
    for (const { length } of rowsOf(sample, { delimiter, escapes })) counts.set(length, (counts.get(length) ?? 0) + 1);
    return Math.max(0, ...counts.values());
  };
  return alike(true) >= alike(false);
}

/** The first rows of a text that hold anything. */
function rowsOf(sample: string, options: RecordOptions): string[][] {
  const rows: string[][] = [];
  readRecords([sample], options, (cells) => {
    if (cells.some((cell) => cell.trim() !== "")) rows.push(cells);
    return rows.length < rowsLookedAt;
  });
  return rows;
}
