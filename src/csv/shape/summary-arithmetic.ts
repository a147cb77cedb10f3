import { numberIn } from "./cell-kind.ts";

/** What a row's numbers are of the rows above it. */
export type SummaryKind = "sum" | "mean" | "count" | "spread";

interface Running {
  count: number;
  sum: number;
  squares: number;
  least: number;
  most: number;
}

/** A match of one row with the rows above. */
export interface SummaryMatch {
  kind: SummaryKind;
  /** columns whose number is that of the rows above, and differs from what a tray could repeat */
  columns: number[];
  /** columns whose number is not */
  misses: number;
}

const start = (): Running => ({ count: 0, sum: 0, squares: 0, least: Infinity, most: -Infinity });

/** Half of the last digit a number is written with, and a little for binary fractions. */
function halfDigit(cell: string, value: number): number {
  const decimals = /[.,](\d+)\s*\D*$/.exec(cell)?.[1]?.length ?? 0;
  return 0.5000001 * 10 ** -decimals + 1e-9 * Math.abs(value);
}

/**
 * Adds up each column since the last summary and since the start of a table, to know a row that sums up by its numbers
 * alone.
 */
export class SummaryArithmetic {
  private sinceLast: Running[] = [];
  private sinceStart: Running[] = [];
  private subtotals: Running[] = [];

  /** Takes a row as data. */
  add(cells: ReadonlyArray<string>): void {
    for (let column = 0; column < cells.length; column++) {
      const value = numberIn(cells[column]!);
      if (value === undefined) continue;
      put(this.sinceLast, column, value);
      put(this.sinceStart, column, value);
    }
  }

  /** Takes a row as a summary: what follows is summed up anew, and grand totals may add up subtotals. */
  close(cells: ReadonlyArray<string>): void {
    if (this.sinceLast.length > 0) {
      for (let column = 0; column < cells.length; column++) {
        const value = numberIn(cells[column]!);
        if (value !== undefined) put(this.subtotals, column, value);
      }
    }
    this.sinceLast = [];
  }

  /** What a row is of the rows above it, the reading with most columns; undefined where it is nothing of them. */
  match(cells: ReadonlyArray<string>): SummaryMatch | undefined {
    let best: SummaryMatch | undefined;
    const above = [this.sinceLast, this.sinceStart, this.subtotals].filter((part) => part.length > 0);
    for (const part of above) {
      for (const kind of ["sum", "mean", "count", "spread"] as const) {
        const found = matchOf(cells, part, kind);
        if (found.columns.length > (best?.columns.length ?? 0)) best = found;
      }
    }
    return best;
  }
}

function put(running: Running[], column: number, value: number): void {
  let here = running[column];
  if (here === undefined) {
    here = start();
    running[column] = here;
  }
  here.count++;
  here.sum += value;
  here.squares += value * value;
  if (value < here.least) here.least = value;
  if (value > here.most) here.most = value;
}

function expected(kind: SummaryKind, { count, sum, squares }: Running): number {
  if (kind === "sum") return sum;
  if (kind === "mean") return sum / count;
  if (kind === "count") return count;
  return count < 2 ? Number.NaN : Math.sqrt(Math.max(0, squares - (sum * sum) / count) / (count - 1));
}

function matchOf(cells: ReadonlyArray<string>, above: ReadonlyArray<Running>, kind: SummaryKind): SummaryMatch {
  const columns: number[] = [];
  let misses = 0;
  for (let column = 0; column < cells.length; column++) {
    const cell = cells[column]!;
    const value = numberIn(cell);
    if (value === undefined) continue;
    const running = above[column];
    const wanted = running === undefined || running.count < 2 ? Number.NaN : expected(kind, running);
    if (Math.abs(value - wanted) > halfDigit(cell, value) || Number.isNaN(wanted)) {
      misses++;
      continue;
    }
    // a column of one value repeats its own mean, a sum of noughts is nought
    const tells = kind === "sum" ? running!.sum !== running!.most : running!.least !== running!.most;
    if (tells) columns.push(column);
  }
  return { kind, columns, misses };
}
