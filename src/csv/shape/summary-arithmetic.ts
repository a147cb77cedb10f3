import { numberOf } from "./cell-kind.ts";

/** What a row's numbers are of the rows above it. */
export type SummaryKind = "sum" | "mean" | "count" | "spread" | "least" | "most";

/** What is known of the numbers of a column so far. */
class Running {
  count = 0;
  sum = 0;
  squares = 0;
  least = Infinity;
  most = -Infinity;

  add(value: number): void {
    this.count++;
    this.sum += value;
    this.squares += value * value;
    if (value < this.least) this.least = value;
    if (value > this.most) this.most = value;
  }
}

/** A match of one row with the rows above. */
export interface SummaryMatch {
  kind: SummaryKind;
  /** columns whose number is that of the rows above, and differs from what a tray could repeat */
  columns: number[];
  /** columns whose number is not */
  misses: number;
}

/** Half of the last digit a number is written with, and a little for binary fractions. */
function halfDigit(cell: string, value: number): number {
  const decimals = /[.,](\d+)\s*\D*$/.exec(cell)?.[1]?.length ?? 0;
  return 0.5000001 / 10 ** decimals + 1e-9 * Math.abs(value);
}

/**
 * Adds up each column since the last summary and since the start of a table, to know a row that sums up by its numbers
 * alone.
 */
export class SummaryArithmetic {
  private readonly sinceStart: Running[] = [];
  /** the same as since the start until a row sums up */
  private sinceLast = this.sinceStart;
  private subtotals: Running[] = [];
  private values: number[] = [];
  /** how many of the values are larger than any above them */
  private larger = 0;

  /**
   * Takes the numbers of a row, which the other methods are about.
   * @param tray column of names, whose numbers are none; -1 where there is none
   */
  look(cells: ReadonlyArray<string>, tray: number): void {
    const { values, sinceLast } = this;
    if (values.length !== cells.length) values.length = cells.length;
    let larger = 0;
    for (let column = 0; column < cells.length; column++) {
      const value = column === tray ? Number.NaN : numberOf(cells[column]!);
      values[column] = value;
      if (value > (sinceLast[column]?.most ?? Number.NEGATIVE_INFINITY)) larger++;
    }
    this.larger = larger;
  }

  /** Columns that hold numbers so far and in which a row has something else. */
  overNumbers(cells: ReadonlyArray<string>): number {
    return cells.filter(
      (cell, column) =>
        cell.trim() !== "" && (this.sinceStart[column]?.count ?? 0) >= 2 && Number.isNaN(numberOf(cell)),
    ).length;
  }

  /** Takes the row as data. */
  add(): void {
    const { values, sinceLast, sinceStart } = this;
    for (let column = 0; column < values.length; column++) {
      const value = values[column]!;
      if (Number.isNaN(value)) continue;
      put(sinceStart, column, value);
      if (sinceLast !== sinceStart) put(sinceLast, column, value);
    }
  }

  /** Takes the row as a summary: what follows is summed up from the start, and grand totals may add up subtotals. */
  close(): void {
    if (this.sinceLast.length > 0) {
      for (const [column, value] of this.values.entries()) {
        if (!Number.isNaN(value)) put(this.subtotals, column, value);
      }
    }
    this.sinceLast = [];
  }

  /** Whether two of the row's numbers are larger than any above them, as sums are. */
  mayBeSum(): boolean {
    return this.larger >= 2;
  }

  /** What the row is of the rows above it, the reading with most columns; undefined where it is nothing of them. */
  match(
    cells: ReadonlyArray<string>,
    kinds: ReadonlyArray<SummaryKind> = ["sum", "mean", "count", "spread"],
  ): SummaryMatch | undefined {
    let best: SummaryMatch | undefined;
    const above = [this.sinceLast, this.sinceStart, this.subtotals].filter((part) => part.length > 0);
    for (const part of above) {
      for (const kind of kinds) {
        const found = matchOf(cells, this.values, part, kind);
        if (found.columns.length > (best?.columns.length ?? 0)) best = found;
      }
    }
    return best;
  }
}

function put(running: Running[], column: number, value: number): void {
  let here = running[column];
  if (here === undefined) {
    here = new Running();
    running[column] = here;
  }
  here.add(value);
}

function expected(kind: SummaryKind, { count, sum, squares, least, most }: Running): number {
  if (kind === "sum") return sum;
  if (kind === "mean") return sum / count;
  if (kind === "count") return count;
  if (kind === "least") return least;
  if (kind === "most") return most;
  return count < 2 ? Number.NaN : Math.sqrt(Math.max(0, squares - (sum * sum) / count) / (count - 1));
}

function matchOf(
  cells: ReadonlyArray<string>,
  values: ReadonlyArray<number>,
  above: ReadonlyArray<Running>,
  kind: SummaryKind,
): SummaryMatch {
  const columns: number[] = [];
  let misses = 0;
  for (let column = 0; column < cells.length; column++) {
    const cell = cells[column]!;
    const value = values[column]!;
    if (Number.isNaN(value)) continue;
    const running = above[column];
    const wanted = running === undefined || running.count < 2 ? Number.NaN : expected(kind, running);
    if (Math.abs(value - wanted) > halfDigit(cell, value) || Number.isNaN(wanted)) {
      misses++;
      continue;
    }
    // a column of one value repeats its own mean, a sum of zeros is zero
    const tells = kind === "sum" ? running!.sum !== running!.most : running!.least !== running!.most;
    if (tells) columns.push(column);
  }
  return { kind, columns, misses };
}
