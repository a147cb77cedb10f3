import { doseOf, type Tray } from "../../records/tray.ts";
import { groupsOf, type TrayGroups } from "./tray-groups.ts";

/** What a book's trays are compared by, found once for all checks: one of each in the trays' order. */
export interface WeighedTrays {
  /** logarithms of the weights per tray of good trays; NaN where there is none above 0, or once it is set aside */
  logs: Record<"freshGrams" | "dryGrams", Float64Array>;
  byDose: TrayGroups<number | string>;
}

/** Gathers what trays are compared by. */
export function weighedTrays(trays: ReadonlyArray<Tray>): WeighedTrays {
  const freshGrams = new Float64Array(trays.length).fill(Number.NaN);
  const dryGrams = new Float64Array(trays.length).fill(Number.NaN);
  for (let at = 0; at < trays.length; at++) {
    const { outcome, traysInPool, freshGrams: fresh = 0, dryGrams: dry = 0 } = trays[at]!;
    if (outcome !== "good") continue;
    if (fresh > 0) freshGrams[at] = Math.log(fresh / traysInPool);
    if (dry > 0) dryGrams[at] = Math.log(dry / traysInPool);
  }
  return { logs: { freshGrams, dryGrams }, byDose: groupsOf(trays, doseOf) };
}
