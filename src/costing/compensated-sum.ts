/**
 * Adds numbers so that rounding does not grow with their count.
 * @returns the sum, within about one unit in the last place of the exact one; 0 for none
 * @source Neumaier 1974, Zeitschrift für Angewandte Mathematik und Mechanik 54(1):39-51
 * @example compensatedSum([1e16, 1, -1e16]) // 1
 */
export function compensatedSum(values: Iterable<number>): number {
  let sum = 0;
  let lost = 0;
  for (const value of values) {
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}

/** The same of the values that belong to some places, without laying them out. */
export function compensatedSumOver(places: ReadonlyArray<number>, valueAt: (place: number) => number): number {
  let sum = 0;
  let lost = 0;
  for (let k = 0; k < places.length; k++) {
    const value = valueAt(places[k]!);
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}
