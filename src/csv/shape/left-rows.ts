import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { RawTable, Remark } from "../../records/sheet.ts";
import { isNothing } from "./cell-kind.ts";

const remarkRules: ReadonlySet<string> = new Set<Remark["rule"]>(["title-line", "section-title", "footnote"]);

/** The lines beside a table's rows among rows that were left out. */
export function remarksOf(leftOut: ReadonlyArray<LeftOutRow>): Pick<RawTable, "remarks"> {
  const remarks = leftOut.flatMap(({ row, cells, rule }): Remark[] =>
    remarkRules.has(rule)
      ? [{ row, cells: cells.flatMap((cell) => (isNothing(cell) ? [] : [cell.trim()])), rule: rule as Remark["rule"] }]
      : [],
  );
  return remarks.length === 0 ? {} : { remarks };
}

/** What is shown of a long text in the log. */
export const shortened = (text: string): string => (text.length > 300 ? `${text.slice(0, 299)}…` : text);

/** The rows of a table that are no data: where they stand, and why each was left out. */
export class LeftRows {
  readonly rows: LeftOutRow[] = [];
  readonly issues: Issue[] = [];
  private readonly stretches: [number, number][] = [];
  private blankFrom = 0;
  private blankTo = 0;

  constructor(readonly file: string) {}

  /** Leaves a row out; without a rule it takes no part and needs no word: a header. */
  leave(cells: string[], row: number, rule: string, reason: string): void {
    this.cover(row, row);
    if (rule !== "") this.rows.push({ file: this.file, row, cells, rule, reason });
  }

  private cover(from: number, to: number): void {
    const last = this.stretches.at(-1);
    if (last !== undefined && last[1] === from - 1) last[1] = to;
    else this.stretches.push([from, to]);
  }

  /** Says that a quotation mark is never closed. */
  sayUnclosed(cells: ReadonlyArray<string>, row: number): void {
    this.issues.push(
      logEntry({
        file: this.file,
        row,
        rule: "unclosed-quote",
        severity: "warning",
        raw: shortened(cells.find((cell) => cell.includes('"')) ?? ""),
        reason: "a cell starts with a quotation mark that is never closed; the line was read as it stands",
        expected: "a closing quotation mark at the end of the cell, or none at its start",
        action: "Look at the row in a text editor and close or remove the quotation mark",
      }),
    );
  }

  blanks(from: number, to: number): void {
    this.cover(from, to);
    if (this.blankFrom === 0) this.blankFrom = from;
    this.blankTo = to;
  }

  endBlanks(isEndOfSheet: boolean): void {
    if (this.blankFrom === 0) return;
    const { blankFrom, blankTo } = this;
    const reason =
      blankFrom === blankTo
        ? "the row is blank"
        : `rows ${blankFrom} to ${blankTo} are blank${isEndOfSheet ? ", to the end" : ""}`;
    this.rows.push({ file: this.file, row: blankFrom, cells: [], rule: "blank-row", reason });
    this.blankFrom = 0;
  }

  /** Blank rows from that row on are another table's. */
  forgetBlanksFrom(row: number): void {
    if (this.blankFrom >= row) this.blankFrom = 0;
  }

  /** First and last row number of each stretch that is not data, in order. */
  inOrder(): [first: number, last: number][] {
    this.rows.sort((a, b) => a.row - b.row);
    this.issues.sort((a, b) => a.row - b.row);
    return this.stretches.sort((a, b) => a[0] - b[0]);
  }
}
