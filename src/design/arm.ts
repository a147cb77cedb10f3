import type { Tray } from "../records/tray.ts";
import type { Factor } from "./factor.ts";

/** The trays that had one level of a treatment. */
export interface Arm {
  level: string;
  /** the level as a number, for amounts */
  value?: number;
  trays: Tray[];
}

/**
 * Sorts trays into arms by a factor: by number for amounts, else by name with numbers in it compared as numbers.
 * Trays on which the factor is not recorded are in none.
 */
export function armsOf(trays: ReadonlyArray<Tray>, factor: Factor): Arm[] {
  const byLevel = new Map<string, Arm>();
  for (const tray of trays) {
    const level = factor.level(tray);
    if (level === undefined) continue;
    const arm = byLevel.get(level);
    if (arm !== undefined) arm.trays.push(tray);
    else {
      const value = factor.value?.(tray);
      byLevel.set(level, { level, ...(value === undefined ? {} : { value }), trays: [tray] });
    }
  }
  return [...byLevel.values()].sort(
    (a, b) =>
      (a.value ?? Number.NaN) - (b.value ?? Number.NaN) || a.level.localeCompare(b.level, "en", { numeric: true }),
  );
}

/** How many started trays records stand for: a pool counts as its trays. */
export const startedCount = (trays: ReadonlyArray<Tray>): number =>
  trays.reduce((total, tray) => total + tray.traysInPool, 0);
