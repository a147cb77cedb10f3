import { logGamma } from "../distributions/gamma.ts";
import { contingencyTable } from "./contingency-table.ts";

/** Tables whose chance exceeds the observed one by no more than this fraction count as equally likely: rounding, not rarity. */
const tieTolerance = 1e-7;
/** Ways of filling a column looked at before giving up: a second or two of work. */
const largestSearch = 6_000_000;

/** Everything that can happen to the columns not yet filled, once the rows have `remaining` places left. */
interface Stage {
  /** log of the most and least likely completion */
  most: number;
  least: number;
}

/**
 * Are the rows and columns of a small table of counts related? Exact, whatever the counts: sums the chances of all tables
 * with the observed margins that are no more likely than the observed one.
 * @param table counts, rows of equal length; empty rows and columns are left out
 * @returns p, two-sided, and midP, which counts only half the chance of tables as likely as the observed one
 * @throws RangeError if a cell is not a whole number of 0 or more, fewer than two rows or columns hold counts, or the table is too large to go through
 * @source Freeman and Halton 1951, Biometrika 38(1/2):141-149; network search with bounds on the longest and shortest
 *   path: Mehta and Patel 1983, Journal of the American Statistical Association 78(382):427-434
 * @example fisherExactTest([[3, 1], [1, 3]]).p // 0.4857142857142857
 */
export function fisherExactTest(table: ReadonlyArray<ReadonlyArray<number>>): { p: number; midP: number } {
  const full = contingencyTable("fisherExactTest", table);
  const upright = full.rowTotals.length <= full.columnTotals.length;
  const rows = upright ? full.rowTotals : full.columnTotals;
  const columns = upright ? full.columnTotals : full.rowTotals;
  // the largest columns come last, where their fillings are sorted once instead of being followed one by one
  const order = columns.map((_, index) => index).sort((a, b) => columns[a]! - columns[b]!);
  const sizes = order.map((index) => columns[index]!);
  const observedColumns = order.map((index) => (upright ? full.cells.map((row) => row[index]!) : full.cells[index]!));
  const logFactorial = Array.from({ length: full.total + 1 }, (_, n) => logGamma(n + 1));
  const search = new TableSearch(sizes, logFactorial);

  let remaining = rows;
  let observed = 0;
  for (const column of observedColumns) {
    observed += search.logChance(remaining, column);
    remaining = remaining.map((places, row) => places - column[row]!);
  }
  const limit = observed + Math.log1p(tieTolerance);
  const upToTies = search.chanceUpTo(rows, limit);
  const rarer = search.chanceUpTo(rows, observed - 2 * tieTolerance);
  return { p: Math.min(1, upToTies), midP: Math.min(1, (upToTies + rarer) / 2) };
}

class TableSearch {
  private readonly sizes: ReadonlyArray<number>;
  private readonly logFactorial: ReadonlyArray<number>;
  private readonly stages = new Map<string, Stage>();
  private readonly endings = new Map<string, { values: Float64Array; cumulative: Float64Array }>();
  private looked = 0;

  constructor(sizes: ReadonlyArray<number>, logFactorial: ReadonlyArray<number>) {
    this.sizes = sizes;
    this.logFactorial = logFactorial;
  }

  /** Log of the chance that the next column takes these places from the rows' remaining ones. */
  logChance(remaining: ReadonlyArray<number>, column: ReadonlyArray<number>): number {
    let places = 0;
    let size = 0;
    let sum = 0;
    remaining.forEach((left, row) => {
      places += left;
      size += column[row]!;
      sum += this.logChoose(left, column[row]!);
    });
    return sum - this.logChoose(places, size);
  }

  /** Chance of all tables whose log chance is at most `limit`. */
  chanceUpTo(rows: ReadonlyArray<number>, limit: number): number {
    let total = 0;
    // nodes of one stage: sorted remaining places, each with the distinct values of the paths so far and their mass
    let nodes = new Map<string, { remaining: number[]; paths: Map<number, { value: number; mass: number }> }>();
    const start = [...rows].sort((a, b) => a - b);
    nodes.set(start.join(), { remaining: start, paths: new Map([[0, { value: 0, mass: 1 }]]) });
    const lastSearched = Math.max(0, this.sizes.length - 2);
    for (let stage = 0; stage < lastSearched; stage++) {
      const next: typeof nodes = new Map();
      for (const { remaining, paths } of nodes.values()) {
        const open: { value: number; mass: number }[] = [];
        const { most, least } = this.bounds(stage, remaining);
        for (const path of paths.values()) {
          if (path.value + most <= limit) total += path.mass;
          else if (path.value + least <= limit) open.push(path);
        }
        if (open.length === 0) continue;
        this.fillings(stage, remaining, (left, logChance) => {
          const key = left.join();
          let node = next.get(key);
          if (node === undefined) {
            node = { remaining: left, paths: new Map() };
            next.set(key, node);
          }
          const chance = Math.exp(logChance);
          this.count(open.length);
          for (const path of open) {
            const value = path.value + logChance;
            // paths to one node with the same product of factorials merge; the rest differ by far more than this
            const rounded = Math.round(value * 1e9);
            const same = node.paths.get(rounded);
            if (same === undefined) node.paths.set(rounded, { value, mass: path.mass * chance });
            else same.mass += path.mass * chance;
          }
        });
      }
      nodes = next;
    }
    for (const { remaining, paths } of nodes.values()) {
      const { values, cumulative } = this.sortedEndings(lastSearched, remaining);
      for (const path of paths.values()) total += path.mass * massUpTo(values, cumulative, limit - path.value);
    }
    return total;
  }

  /** Log chance of the most and the least likely way to fill all columns from `stage` on. */
  private bounds(stage: number, remaining: ReadonlyArray<number>): Stage {
    if (stage >= this.sizes.length - 1) return { most: 0, least: 0 };
    const key = `${stage}:${remaining.join()}`;
    const known = this.stages.get(key);
    if (known !== undefined) return known;
    const found: Stage = { most: Number.NEGATIVE_INFINITY, least: Number.POSITIVE_INFINITY };
    this.fillings(stage, remaining, (left, logChance) => {
      const rest = this.bounds(stage + 1, left);
      found.most = Math.max(found.most, logChance + rest.most);
      found.least = Math.min(found.least, logChance + rest.least);
    });
    this.stages.set(key, found);
    return found;
  }

  /** The fillings of the last two columns in order of their log chance, with running sums of the chances. */
  private sortedEndings(
    stage: number,
    remaining: ReadonlyArray<number>,
  ): { values: Float64Array; cumulative: Float64Array } {
    const key = remaining.join();
    const known = this.endings.get(key);
    if (known !== undefined) return known;
    const found: number[] = [];
    this.fillings(stage, remaining, (_, logChance) => {
      found.push(logChance);
    });
    const values = Float64Array.from(found).sort();
    const cumulative = new Float64Array(values.length);
    let sum = 0;
    values.forEach((value, index) => {
      sum += Math.exp(value);
      cumulative[index] = sum;
    });
    const ending = { values, cumulative };
    this.endings.set(key, ending);
    return ending;
  }

  /** Calls `visit` with each way of filling the column of `stage`: the sorted places left and the log chance. */
  private fillings(
    stage: number,
    remaining: ReadonlyArray<number>,
    visit: (left: number[], logChance: number) => void,
  ): void {
    const size = this.sizes[stage]!;
    const places = remaining.reduce((sum, left) => sum + left, 0);
    const base = -this.logChoose(places, size);
    const left = [...remaining];
    const fill = (row: number, open: number, room: number, logChance: number): void => {
      const here = remaining[row]!;
      if (row === remaining.length - 1) {
        this.count(1);
        left[row] = here - open;
        visit(
          [...left].sort((a, b) => a - b),
          logChance + this.logChoose(here, open),
        );
        return;
      }
      const roomBelow = room - here;
      for (let take = Math.max(0, open - roomBelow); take <= Math.min(here, open); take++) {
        left[row] = here - take;
        fill(row + 1, open - take, roomBelow, logChance + this.logChoose(here, take));
      }
    };
    fill(0, size, places, base);
  }

  private count(steps: number): void {
    this.looked += steps;
    if (this.looked > largestSearch) {
      throw new RangeError(
        `fisherExactTest: the table must be small enough to go through; received ${this.sizes.length} columns of ${this.sizes.join(", ")}`,
      );
    }
  }

  private logChoose(n: number, k: number): number {
    return this.logFactorial[n]! - this.logFactorial[k]! - this.logFactorial[n - k]!;
  }
}

/** Mass of the values at or below `limit`, by bisection. */
function massUpTo(values: Float64Array, cumulative: Float64Array, limit: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]! <= limit) low = middle + 1;
    else high = middle;
  }
  return low === 0 ? 0 : cumulative[low - 1]!;
}
