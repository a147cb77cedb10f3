/**
 * The least and the greatest of some numbers, however many there are: a call with each as an argument overflows.
 * @returns infinite ends, the least above the greatest, where there is none
 * @example endsOf([3, 1, 2]) // [1, 3]
 */
export function endsOf(values: Iterable<number>): [least: number, greatest: number] {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return [least, greatest];
}
