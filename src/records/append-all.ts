/** Adds items to the end of a list, however many: handed to `push` at once, a hundred thousand overflow the stack. */
export function appendAll<T>(list: T[], items: Iterable<T>): void {
  for (const item of items) list.push(item);
}
