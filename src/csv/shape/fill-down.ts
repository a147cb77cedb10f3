import { isDigit } from "../../records/words/digits.ts";
import { cellKind, isNothing } from "./cell-kind.ts";
import type { ColumnSort } from "./sheet-words.ts";

/** Names that begin again after more than these are no lots of a cook. */
const mostNames = 2000;

/** Where a column is filled and where it changes, in ordinals of the data rows. */
interface Pattern {
  /** ordinals of filled rows; undefined once the column is filled too often to be one of blocks */
  fills: number[] | undefined;
  /** ordinals where a filled cell differs from the one above; undefined once that is too often */
  changes: number[] | undefined;
  filled: number;
  last: string;
}

/** What is to be done with a column that is blank below the first row of each block. */
export interface FillVerdict {
  column: number;
  /** why it is filled; undefined where it has to be asked */
  because: string | undefined;
  /** cells it would fill */
  cells: number;
}

/** Words for "as above", as patterns. */
const dittoWords =
  "ditto|dito|do\\.|dto\\.?|id\\.|[ií]dem|same|(?:same )?as above|[sw]\\. ?[ao]\\.|j\\.? ?w\\.?|igual|(?:wie|siehe) oben|zie boven|come sopra|c\\.s\\.|comme ci-dessus|jak wyżej";
const ditto = new RegExp(`^(?:"|''|,,|〃|″|”|\\||[-–—]+\\s?["'”″]{1,2}\\s?[-–—]+|${dittoWords}|↓)$`, "i");
const dittoLetters = new Set([..."dissawjzc"].map((letter) => letter.charCodeAt(0)));

/** Whether a cell says "as above". */
export function isDitto(cell: string): boolean {
  // most cells are blank, numbers, codes or other words
  const first = cell.charCodeAt(0) | 32;
  if (cell === "" || cell.length > 16 || isDigit(first) || isDigit(cell.charCodeAt(1))) return false;
  if (first >= 97 && first <= 122 && !dittoLetters.has(first)) return false;
  return ditto.test(cell.trim());
}

const sameList = (a: ReadonlyArray<number>, b: ReadonlyArray<number>): boolean =>
  a.length === b.length && a.every((value, index) => value === b[index]);

/** Follows how the columns of a table are filled, to know the ones that are typed once for each block of rows. */
export class FillSurvey {
  private readonly patterns: (Pattern | undefined)[];
  /** columns not filled and changed too often to be typed once for each block */
  private followed: number[];
  private readonly results: number[];
  private readonly separators: number[] = [];
  private rows = 0;
  private flushRises = true;
  /** every row without a tray's name has a day among its results, another than the row above */
  private daysDiffer = true;
  /** the row above */
  private above: ReadonlyArray<string> = [];
  /** ordinals where names of trays begin again; undefined once that is too often */
  private restarts: number[] | undefined = [0];
  private names = new Set<string>();

  constructor(
    private readonly sorts: ReadonlyArray<ColumnSort | undefined>,
    private readonly trayColumn: number,
    private readonly flushColumn: number,
  ) {
    this.results = [...sorts.keys()].filter((column) => sorts[column] === "result");
    this.patterns = sorts.map((sort) =>
      sort === "result" || sort === "note" || sort === "flush"
        ? undefined
        : { fills: [], changes: [], filled: 0, last: "" },
    );
    this.followed = [...this.patterns.keys()].filter((column) => this.patterns[column] !== undefined);
  }

  /** A blank row, a title or a repeated header stands above the next row. */
  separate(): void {
    if (this.separators.at(-1) !== this.rows) this.separators.push(this.rows);
  }

  add(cells: ReadonlyArray<string>): void {
    const at = this.rows++;
    for (const column of this.followed) {
      const pattern = this.patterns[column]!;
      const cell = cells[column] ?? "";
      if (cell === "" || isNothing(cell)) continue;
      pattern.filled++;
      if (pattern.fills !== undefined) {
        pattern.fills.push(at);
        if (at > 50 && pattern.filled > 0.6 * at) pattern.fills = undefined;
      }
      if (pattern.changes === undefined || cell === pattern.last) continue;
      pattern.changes.push(at);
      if (at > 50 && pattern.changes.length > 0.6 * at) {
        pattern.changes = undefined;
        this.followed = this.followed.filter((other) => other !== column);
      }
      pattern.last = cell;
    }
    if (this.trayColumn >= 0 && isNothing(cells[this.trayColumn] ?? "")) {
      const flush = this.flushColumn < 0 ? "" : (cells[this.flushColumn] ?? "");
      if (isNothing(flush) || /^\D*1\D*$/.test(flush)) this.flushRises = false;
      this.daysDiffer &&= this.isOnOtherDay(cells);
    } else if (this.trayColumn >= 0) this.follow(cells[this.trayColumn]!, at);
    this.above = cells;
  }

  private isOnOtherDay(cells: ReadonlyArray<string>): boolean {
    if (this.sorts.some((sort, column) => sort === "set" && !isNothing(cells[column] ?? ""))) return false;
    const isDay = (cell: string | undefined): boolean => cell !== undefined && cellKind(cell) === "date";
    return this.results.some(
      (column) => isDay(cells[column]) && isDay(this.above[column]) && cells[column] !== this.above[column],
    );
  }

  private follow(name: string, at: number): void {
    const { restarts, names } = this;
    if (restarts === undefined) return;
    if (names.has(name)) {
      restarts.push(at);
      names.clear();
      if (restarts.length > 20 && restarts.length > 0.6 * at) this.restarts = undefined;
    }
    names.add(name);
    if (names.size > mostNames) this.restarts = undefined;
  }

  /** Whether a row's ordinal begins a block after a separator. */
  private blocksBySeparators(): number[] {
    return [...new Set([0, ...this.separators])].filter((at) => at < this.rows).sort((a, b) => a - b);
  }

  private reasonFor(column: number, fills: number[], byNeighbour: boolean): string | undefined {
    for (let other = 0; other < this.patterns.length; other++) {
      const pattern = this.patterns[other];
      if (other === column || pattern === undefined || other === this.trayColumn) continue;
      // a column nobody is known to write is filled only beside one that is known
      if (this.sorts[other] !== "set") continue;
      if (byNeighbour && pattern.fills !== undefined && pattern.filled < this.rows && sameList(pattern.fills, fills))
        return "another column is filled on the same rows";
      const whole = pattern.filled === this.rows && pattern.changes !== undefined && pattern.changes.length < this.rows;
      if (whole && fills.length > 1 && sameList(pattern.changes!, fills))
        return "another column changes on just these rows";
    }
    if (fills.length > 1 && this.restarts !== undefined && sameList(this.restarts, fills))
      return "the trays' names begin again on just these rows";
    const separated = this.blocksBySeparators();
    if (separated.length > 1 && sameList(separated, fills)) return "each is the first row below a gap or a title";
    const sizes = fills.map((at, index) => (fills[index + 1] ?? this.rows) - at);
    const even = sizes.length >= 2 && sizes[0]! >= 3 && sizes.slice(0, -1).every((size) => size === sizes[0]);
    if (even && sizes.at(-1)! <= sizes[0]!) return `every block has ${sizes[0]} rows`;
    return undefined;
  }

  /**
   * The columns that are typed once for each block, and whether the sheet bears that out.
   * @param mayFill otherwise all of them are left in doubt
   */
  verdicts(mayFill: boolean): FillVerdict[] {
    const found: FillVerdict[] = [];
    for (let column = 0; column < this.patterns.length; column++) {
      const pattern = this.patterns[column];
      const fills = pattern?.fills;
      if (fills === undefined || fills.length === 0 || fills[0] !== 0 || this.rows < 2) continue;
      const cells = this.rows - fills.length;
      // a tick is said of its own row
      if (cells === 0 || (pattern!.changes?.length === 1 && /^[x✓✔☑✗✘☒]$/iu.test(pattern!.last))) continue;
      if (column === this.trayColumn) {
        if (mayFill && this.flushColumn >= 0 && this.flushRises)
          found.push({ column, because: "the rows below are further flushes", cells });
        else if (mayFill && this.flushColumn < 0 && this.daysDiffer)
          found.push({ column, because: "the rows below were picked on days of their own", cells });
        else if (mayFill && this.flushColumn < 0 && fills.length >= 2 && cells >= fills.length && this.rows >= 4)
          found.push({ column, because: undefined, cells });
        continue;
      }
      // it has to look like blocks; a column filled here and there is one with gaps
      const apart = fills.every((at, index) => index === 0 || at - fills[index - 1]! >= 2);
      const average = this.rows / fills.length;
      if (this.rows < 4 || !apart || average < 2) continue;
      // every second row blank may be the trays that got nothing
      const because = mayFill ? this.reasonFor(column, fills, average >= 2.5) : undefined;
      const known = this.sorts[column] === "set";
      // further flushes of a tray need not say its dose again
      const isDoubtful = known && (this.rows >= 6 || !found.some((one) => one.column === this.trayColumn));
      if (because !== undefined || isDoubtful) found.push({ column, because, cells });
    }
    return found;
  }
}
