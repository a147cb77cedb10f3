import { isVoid } from "../../records/words/void-words.ts";
import { isNothing, nameMask } from "./cell-kind.ts";
import type { LeftRows } from "./left-rows.ts";
import { isVolume, type SectionTitle, titlePairs } from "./section-title.ts";
import type { SheetWords } from "./sheet-words.ts";
import { namesSummary } from "./summary-words.ts";
import type { TableColumns } from "./table-columns.ts";

const otherSeparators = /^(?!.*=)[^;|\t,]{1,20}([;|\t,])[^;|\t,]*\d[^;|\t,]*\1/;

interface LoneRow {
  row: number;
  cells: string[];
  filled: string[];
  column: number;
  /** data stand below it */
  followed: boolean;
}

/**
 * Rows with one cell, or with the names and values of a title. What each is shows in the rows around it: a tray of which
 * nothing is known yet, a title over rows, or a remark under the table.
 */
export class LoneRows {
  private readonly rows: LoneRow[] = [];

  constructor(
    private readonly columns: TableColumns,
    private readonly words: SheetWords,
    private readonly names: ReadonlyArray<string>,
  ) {}

  /** Takes a row that is one; false where it is a row like others. */
  take(cells: string[], row: number): boolean {
    let first = -1;
    let count = 0;
    for (let column = 0; column < cells.length; column++) {
      if (isNothing(cells[column]!)) continue;
      if (first < 0) first = column;
      if (++count > 4) return false;
    }
    if (first < 0) return false;
    const filled = cells.flatMap((cell) => (isNothing(cell) ? [] : [cell.trim()]));
    // a tray of which nothing is known yet
    if (filled.length === 1 && first === this.columns.tray && this.columns.masks.has(nameMask(filled[0]!)))
      return false;
    // in two columns a name alone is a tray without a result, unless it says something of those below
    const isPlain = () => !titlePairs(filled, this.words).some(({ known }) => known);
    if (this.names.length < 3 && !this.isProse(filled) && isPlain()) return false;
    // a row apart by other separators than the rest
    if (filled.length === 1 && otherSeparators.test(filled[0]!) && isPlain()) return false;
    // a number alone under a weight may be a sum
    if (
      filled.length === 1 &&
      first !== this.columns.tray &&
      this.columns.sorts[first] === "result" &&
      /^[~\d]/.test(filled[0]!)
    )
      return false;
    if (
      filled.length > 1
        ? !this.areNamesAndValues(filled) &&
          !this.explainsMark(cells, filled) &&
          !this.isTitleInCells(cells, first, filled)
        : namesSummary(filled[0]!)
    )
      return false;
    this.rows.push({ row, cells: [...cells], filled, column: first, followed: false });
    return true;
  }

  /** "power cut for three days" among trays that are called otherwise. */
  private isProse([text = "", more]: ReadonlyArray<string>): boolean {
    const { masks } = this.columns;
    return more === undefined && masks.size > 0 && !masks.has(nameMask(text)) && text.split(" ").length > 3;
  }

  private areNamesAndValues(filled: ReadonlyArray<string>): boolean {
    if (filled.length % 2 !== 0 || filled.length >= this.names.length) return false;
    const first = filled[0]!;
    const key = first.replace(/\s*[:=]$/, "");
    if (key !== first) return /\p{L}/u.test(key);
    if (/^\p{L}{0,3}[-_ ]?\d/u.test(first) || this.columns.masks.has(nameMask(first))) return false;
    return this.words.columnSort(key, true) === "set";
  }

  /** "Cook 5" beside "8 ml" under a weight, and "10 Feb": a title whose commas parted it. */
  private isTitleInCells(cells: ReadonlyArray<string>, first: number, filled: ReadonlyArray<string>): boolean {
    const { tray, sorts } = this.columns;
    if (first !== tray || !cells.some((cell, column) => sorts[column] === "result" && isVolume(cell.trim())))
      return false;
    const pairs = titlePairs(filled, this.words);
    return pairs.length > 1 && pairs.every(({ known }) => known);
  }

  /** "G" beside "green mould" under trays that are numbered: a line of a legend, where the words stand under something set. */
  private explainsMark(cells: ReadonlyArray<string>, [mark = "", meaning = "", more]: ReadonlyArray<string>): boolean {
    const { tray, sorts, masks } = this.columns;
    // "red" beside "= contaminated"
    if (more === undefined && /^\p{L}{1,12}$/u.test(mark) && /^[=:]\s*\p{L}[^\d]{2,}$/u.test(meaning)) return true;
    return (
      more === undefined &&
      /^\p{L}{1,3}$/u.test(mark) &&
      /^\p{L}[^\d]{3,}$/u.test(meaning) &&
      cells[tray]?.trim() === mark &&
      sorts[cells.findIndex((cell) => cell.trim() === meaning)] === "set" &&
      [...masks].some((mask) => mask.includes("9")) &&
      !this.words.isTidy(this.names)
    );
  }

  /** Data stand below the rows taken last. */
  follow(): void {
    for (let index = this.rows.length - 1; index >= 0 && !this.rows[index]!.followed; index--) {
      this.rows[index]!.followed = true;
    }
  }

  /** Gives back the rows right above another table, which are its titles. @returns its first row */
  giveBack(row: number): number {
    let start = row;
    while (this.rows.length > 0 && !this.rows.at(-1)!.followed) start = this.rows.pop()!.row;
    return start;
  }

  private isTray({ filled, column }: LoneRow): boolean {
    const { tray, masks } = this.columns;
    if (filled.length > 1 || column !== tray) return false;
    return masks.size === 0 ? /\d/.test(filled[0]!) && filled[0]!.length < 16 : masks.has(nameMask(filled[0]!));
  }

  /** What a title says; alone under a column set before the harvest it is that column's value. */
  private pairsOf({ filled, column }: LoneRow): SectionTitle["pairs"] {
    const name = this.names[column] ?? "";
    const pairs = titlePairs(filled, this.words);
    if (isVoid(filled[0]!)) return [{ name: "Remark", value: filled.join(" "), known: true }];
    if (pairs.some(({ known }) => known) || filled.length > 1 || this.columns.sorts[column] !== "set") return pairs;
    return [{ name, value: filled[0]!, known: true }];
  }

  /** Leaves out titles and remarks. @returns the titles, and how many rows are trays after all */
  settle(left: LeftRows): { titles: SectionTitle[]; trays: number } {
    const titles: SectionTitle[] = [];
    let trays = 0;
    for (const lone of this.rows) {
      if (this.isTray(lone)) {
        trays++;
        continue;
      }
      const { row, cells, filled, followed } = lone;
      if (!filled.some((cell) => /[\p{L}\p{N}]/u.test(cell))) {
        left.leave(cells, row, "marks-only", "it has no letter and no digit");
        continue;
      }
      const rule = followed ? "section-title" : "footnote";
      left.leave(
        cells,
        row,
        rule,
        followed ? "it is a title over the rows below it" : "it is a remark under the table",
      );
      if (followed) titles.push({ row, pairs: this.pairsOf(lone) });
    }
    return { titles, trays };
  }
}
