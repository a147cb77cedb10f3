import type { Memo } from "./memo.ts";
import type { Tray } from "./tray.ts";

/** Fewer trays than this have no flag that stands out as the whole sheet's. */
const fewest = 4;

/**
 * Flags that more than half of the trays carry, such as of dates without a year: doubts of a whole sheet, answered once,
 * by which no tray is worse than the next.
 * @returns codes of rules
 */
export function sheetWideFlags(trays: ReadonlyArray<Tray>): ReadonlySet<string> {
  const counts = new Map<string, number>();
  for (const { flags } of trays) for (const flag of flags) counts.set(flag, (counts.get(flag) ?? 0) + 1);
  const wide = [...counts].filter(([, count]) => trays.length >= fewest && 2 * count > trays.length);
  return new Set(wide.map(([flag]) => flag));
}

/** Trays with a flag of their own, beside those that most trays carry. */
export function doubtfulTrays(trays: ReadonlyArray<Tray>): Tray[] {
  const flagged = trays.filter(({ flags }) => flags.length > 0);
  if (2 * flagged.length <= trays.length) return flagged;
  const wide = sheetWideFlags(trays);
  return flagged.filter(({ flags }) => flags.some((flag) => !wide.has(flag)));
}

/** The trays of a book without the doubtful ones; the very same list each time a memo is asked. */
export const unflaggedTrays = (trays: ReadonlyArray<Tray>, memo: Memo): ReadonlyArray<Tray> =>
  memo.once([trays], "trays without a flag", () => {
    const doubtful = new Set(doubtfulTrays(trays));
    return trays.filter((tray) => !doubtful.has(tray));
  });
