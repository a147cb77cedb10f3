import { isDigit } from "../../records/words/digits.ts";
import { isNothing, nameMask } from "./cell-kind.ts";
import { SummaryArithmetic } from "./summary-arithmetic.ts";
import { namesSummary, summaryLabel } from "./summary-words.ts";
import type { TableColumns } from "./table-columns.ts";

const plainTray = /^(?:[A-Za-z]{0,3}[-_ ]?\d{1,7}|[A-Za-z]{1,2}\d{1,7}[-_ ./]\d{1,7})$/;

/** Whether a name differs from another in its digits only, and so is as plain as that one. */
function isAlike(name: string, other: string): boolean {
  if (name === "" || name.length !== other.length) return false;
  for (let at = 0; at < name.length; at++) {
    const [a, b] = [name.charCodeAt(at), other.charCodeAt(at)];
    if (a !== b && !(isDigit(a) && isDigit(b))) return false;
  }
  return true;
}

const formulaError = /^#(?:REF!|N\/A|DIV\/0!|VALUE!|NAME\?|NUM!|NULL!)$/i;

/** Whether a row has nothing behind its name but errors of formulas, which only a row that sums up can have. */
function isErrorsOnly(cells: ReadonlyArray<string>): boolean {
  const filled = cells.filter((cell) => !isNothing(cell)).map((cell) => cell.trim());
  return filled.length > 1 && !/\d/.test(filled[0]!) && filled.slice(1).every((cell) => formulaError.test(cell));
}

/** Tells the rows that sum up others from the rows of trays, by their labels and by their numbers. */
export class SummaryRows {
  private readonly arithmetic = new SummaryArithmetic();
  /** the name of the tray met last, where it is a plain one */
  private lastPlain = "";

  /**
   * @param isLookedFor otherwise no row is one
   * @param byArithmetic whether numbers alone may tell
   */
  constructor(
    private readonly columns: TableColumns,
    private readonly isLookedFor: boolean,
    private readonly byArithmetic: boolean,
  ) {}

  /**
   * Looks at a row.
   * @param afterSummary whether the row above sums up or is blank
   * @param dataRows rows of data above it
   * @returns its label, undefined where its numbers alone tell; nothing where it is no summary
   */
  look(cells: string[], afterSummary: boolean, dataRows: number): { label: string | undefined } | undefined {
    const { columns, arithmetic, byArithmetic } = this;
    if (byArithmetic) arithmetic.look(cells, columns.tray);
    if (!this.isLookedFor) return undefined;
    if (this.isPlainTray(cells)) {
      return byArithmetic && arithmetic.mayBeSum() && this.addsUp(cells, dataRows) ? { label: undefined } : undefined;
    }
    const isTrayName = (cell: string, column: number): boolean =>
      column === columns.tray && columns.masks.has(nameMask(cell)) && !namesSummary(cell);
    if (isErrorsOnly(cells)) return { label: cells.find((cell) => !isNothing(cell))!.trim() };
    const label = summaryLabel(cells, afterSummary, isTrayName)?.label ?? this.namedSummary(cells);
    return label !== undefined || (byArithmetic && this.addsUp(cells, dataRows)) ? { label } : undefined;
  }

  /** Whether a row of words stands where numbers stood, two at least, and has no tray's name: names of other columns. */
  isOtherHeader(cells: ReadonlyArray<string>): boolean {
    const name = cells[this.columns.tray] ?? "";
    return this.arithmetic.overNumbers(cells) >= 2 && !this.columns.masks.has(nameMask(name));
  }

  /** Takes the row looked at as data. */
  add(): void {
    this.arithmetic.add();
  }

  /** Takes the row looked at as a summary. */
  close(): void {
    this.arithmetic.close();
  }

  /** Whether a row has a tray's name like the others, as most rows do: with a number, and no word for a sum. */
  private isPlainTray(cells: ReadonlyArray<string>): boolean {
    const { tray, masks } = this.columns;
    if (tray < 0 || masks.size === 0) return false;
    const name = cells[tray] ?? "";
    if (isAlike(name, this.lastPlain)) return true;
    if (!masks.has(nameMask(name))) return false;
    const isPlain = plainTray.test(name);
    if (isPlain) this.lastPlain = name;
    return isPlain || (/^\p{L}.*\d/u.test(name) && !namesSummary(name));
  }

  /** A row whose tray's name itself is the name of a sum, whatever else stands in it. */
  private namedSummary(cells: ReadonlyArray<string>): string | undefined {
    const cell = cells[this.columns.tray]?.trim() ?? "";
    const isName = cell !== "" && !/^\d/.test(cell) && namesSummary(cell) && !this.columns.masks.has(nameMask(cell));
    return isName ? cell : undefined;
  }

  /** Whether a row is named unlike the trays, and says nothing of what was set for one, where the sheet has columns for it. */
  private isNoTray(cells: ReadonlyArray<string>): boolean {
    const { tray, masks, sorts } = this.columns;
    if (tray < 0 || masks.size === 0 || isNothing(cells[tray] ?? "") || masks.has(nameMask(cells[tray]!))) return false;
    const set = sorts.flatMap((sort, column) => (sort === "set" ? [cells[column] ?? ""] : []));
    return set.length > 0 && set.every(isNothing);
  }

  /** Whether a row's numbers are the sums, means or counts of those above it. */
  private addsUp(cells: ReadonlyArray<string>, dataRows: number): boolean {
    if (dataRows < 2) return false;
    const isNoTray = this.isNoTray(cells);
    const match = this.arithmetic.match(
      cells,
      isNoTray ? ["sum", "mean", "count", "spread", "least", "most"] : undefined,
    );
    if (match === undefined) return false;
    if (isNoTray) return match.misses === 0 && match.columns.length > 0;
    const { tray } = this.columns;
    const name = (tray >= 0 ? cells[tray] : cells[0]) ?? "";
    if (isNothing(name)) return match.misses === 0 || match.columns.length >= 2;
    return match.kind === "sum" && match.columns.length >= 2 && match.misses === 0 && dataRows >= 3;
  }
}
