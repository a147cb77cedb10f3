/** Has a build made in a folder of its own beside its place, and moved there when it is whole. */
export function buildInto(
  place: string,
  make: (fresh: string) => void | Promise<void>,
  options: { entry: string; isAlone?: boolean; now?: number },
): Promise<void>;
