/** A running sum that keeps what rounding drops. @source Neumaier 1974, Zeitschrift für Angewandte Mathematik und Mechanik 54(1):39-51 */
class CompensatedTotal {
  #sum = 0;
  #lost = 0;

  add(value: number): void {
    const next = this.#sum + value;
    this.#lost += Math.abs(this.#sum) >= Math.abs(value) ? this.#sum - next + value : value - next + this.#sum;
    this.#sum = next;
  }

  get total(): number {
    return this.#sum + this.#lost;
  }
}

/**
 * Adds numbers so that rounding does not grow with their count.
 * @returns the sum, within about one unit in the last place of the exact one; 0 for none
 * @example compensatedSum([1e16, 1, -1e16]) // 1
 */
export function compensatedSum(values: Iterable<number>): number {
  const sum = new CompensatedTotal();
  for (const value of values) sum.add(value);
  return sum.total;
}

/** The same of the values that belong to some places, without laying them out. */
export function compensatedSumOver(places: ReadonlyArray<number>, valueAt: (place: number) => number): number {
  const sum = new CompensatedTotal();
  for (const place of places) sum.add(valueAt(place));
  return sum.total;
}
