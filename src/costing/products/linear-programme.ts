/** What rounding leaves of a number of like size as those of its row. */
const tiny = 1e-9;

/** Brings a row to coefficients of like size as those of other rows. */
function likeSize(coefficients: ReadonlyArray<number>, limit: number): number[] {
  const most = coefficients.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0) || 1;
  return [...coefficients, limit].map((value) => value / most);
}

/**
 * What is left of each limit in terms of the amounts that are 0, a row a limit: what one of each amount takes, then what is
 * there. In each step one amount that is 0 takes the place of one that is not. Below the limits stand prices, below 0 where
 * more of an amount would add to the sum.
 */
class Tableau {
  constructor(
    readonly rows: number[][],
    /** names of what the limits' rows stand for */
    readonly used: number[],
    /** names of the amounts that are 0, as the columns stand */
    readonly aside: number[],
  ) {}

  exchange(row: number, column: number): void {
    const own = this.rows[row]!;
    const pivot = own[column]!;
    for (let j = 0; j < own.length; j++) own[j]! /= pivot;
    own[column] = 1 / pivot;
    for (const other of this.rows) {
      const factor = other[column]!;
      if (other === own || factor === 0) continue;
      for (let j = 0; j < own.length; j++) if (j !== column) other[j]! -= factor * own[j]!;
      other[column] = -factor / pivot;
    }
    [this.used[row], this.aside[column]] = [this.aside[column]!, this.used[row]!];
  }

  /** Raises the sum that a row of prices tells of as far as it goes. @returns whether there is an end to it */
  raise(prices: ReadonlyArray<number>): boolean {
    const { rows, used, aside } = this;
    for (;;) {
      let column = -1;
      aside.forEach((name, j) => {
        if (prices[j]! < -tiny && (column < 0 || name < aside[column]!)) column = j;
      });
      if (column < 0) return true;
      let [row, least] = [-1, Number.POSITIVE_INFINITY];
      used.forEach((name, i) => {
        if (rows[i]![column]! <= tiny) return;
        const room = Math.max(0, rows[i]!.at(-1)!) / rows[i]![column]!;
        if (room < least || (room === least && name < used[row]!)) [row, least] = [i, room];
      });
      if (row < 0) return false;
      this.exchange(row, column);
    }
  }

  /** Makes all limits kept, with one more amount that loosens each of them and is then brought to 0. @returns whether they can be */
  settle(): boolean {
    const { rows, used, aside } = this;
    const shortest = used.reduce((worst, _, i) => (rows[i]!.at(-1)! < rows[worst]!.at(-1)! ? i : worst), 0);
    if (used.length === 0 || rows[shortest]!.at(-1)! >= -tiny) return true;
    const loosening = used.length + aside.length;
    rows.forEach((row, i) => {
      row.splice(-1, 0, i < used.length ? -1 : 0);
    });
    aside.push(loosening);
    const prices = [...aside.map((name) => (name === loosening ? 1 : 0)), 0];
    rows.push(prices);
    this.exchange(shortest, aside.length - 1);
    this.raise(prices);
    rows.pop();
    const left = used.indexOf(loosening);
    if (left >= 0) {
      if (rows[left]!.at(-1)! > tiny) return false;
      const sizes = rows[left]!.slice(0, -1).map(Math.abs);
      this.exchange(left, sizes.indexOf(Math.max(...sizes)));
    }
    const column = aside.indexOf(loosening);
    aside.splice(column, 1);
    for (const row of rows) row.splice(column, 1);
    return true;
  }
}

/**
 * The amounts, 0 or more, that make a sum largest while other sums stay within their limits.
 * @param objective what one of each amount adds to the sum
 * @param rows what one of each amount takes of each limit
 * @param limits one a row; may be below 0
 * @returns undefined where no amounts keep the limits
 * @throws Error if the sum has no finite largest value
 * @source simplex method in two phases: Dantzig 1963, Linear Programming and Extensions, chapter 5; which amount enters and
 *   leaves: Bland 1977, Mathematics of Operations Research 2(2):103-107
 * @example largestWithin([5, 4, 3], [[2, 3, 1], [4, 1, 2], [3, 4, 2]], [5, 11, 8]) // [2, 0, 1]
 */
export function largestWithin(
  objective: ReadonlyArray<number>,
  rows: ReadonlyArray<ReadonlyArray<number>>,
  limits: ReadonlyArray<number>,
): number[] | undefined {
  const count = objective.length;
  const prices = likeSize(objective, 0).map((value) => 0 - value);
  const tableau = new Tableau(
    [...rows.map((row, i) => likeSize(row, limits[i]!)), prices],
    limits.map((_, limit) => count + limit),
    objective.map((_, amount) => amount),
  );
  if (!tableau.settle()) return undefined;
  if (!tableau.raise(prices)) throw new Error("the programme has no finite best: nothing limits what can be made");
  const amounts = objective.map(() => 0);
  tableau.used.forEach((name, i) => {
    if (name < count) amounts[name] = Math.max(0, tableau.rows[i]!.at(-1)!);
  });
  return amounts;
}
