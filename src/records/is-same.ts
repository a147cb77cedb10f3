/**
 * Whether two pieces of plain data say the same: numbers, texts, lists and records, whatever the order of a record's
 * properties. A property that is undefined counts as absent.
 * @example isSame({ a: 1, b: undefined }, { a: 1 }) // true
 */
export function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [left, right] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const names = new Set([...Object.keys(left), ...Object.keys(right)]);
  return [...names].every((name) => isSame(left[name], right[name]));
}

/** The earlier list where the two say the same, otherwise the new one with the earlier records that say the same. */
export function keepSame<T>(before: T[] | undefined, now: T[]): T[] {
  if (before === undefined) return now;
  const merged = now.map((record, index) => (isSame(before[index], record) ? before[index]! : record));
  return merged.length === before.length && merged.every((record, index) => record === before[index]) ? before : merged;
}
