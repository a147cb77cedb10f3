import { doseOf, type Tray } from "../../records/tray.ts";
import { TrayGrouping, type TrayGroups } from "./tray-groups.ts";

/** What a book's trays are compared by, found once for all checks: one of each in the trays' order. */
export interface WeighedTrays {
  /** logarithms of the weights per tray of good trays; NaN where there is none above 0, or once it is set aside */
  logs: Record<"freshGrams" | "dryGrams", Float64Array>;
  byDose: TrayGroups<number | string>;
  byCook: TrayGroups<string>;
  /** of one strain in one container */
  byKind: TrayGroups<string>;
}

const kindOf = ({ strain, container }: Tray): string =>
  strain === undefined && container === undefined ? "" : `${strain ?? ""}|${container ?? ""}`;

/** Gathers what trays are compared by, going through them once: a million records are slow to come by. */
export function weighedTrays(trays: ReadonlyArray<Tray>): WeighedTrays {
  const freshGrams = new Float64Array(trays.length).fill(Number.NaN);
  const dryGrams = new Float64Array(trays.length).fill(Number.NaN);
  const doses = new TrayGrouping<number | string>(trays.length);
  const cooks = new TrayGrouping<string>(trays.length);
  const kinds = new TrayGrouping<string>(trays.length);
  for (let at = 0; at < trays.length; at++) {
    const tray = trays[at]!;
    doses.put(at, doseOf(tray));
    cooks.put(at, tray.batch);
    kinds.put(at, kindOf(tray));
    const { outcome, traysInPool, freshGrams: fresh = 0, dryGrams: dry = 0 } = tray;
    if (outcome !== "good") continue;
    if (fresh > 0) freshGrams[at] = Math.log(fresh / traysInPool);
    if (dry > 0) dryGrams[at] = Math.log(dry / traysInPool);
  }
  return { logs: { freshGrams, dryGrams }, byDose: doses.groups(), byCook: cooks.groups(), byKind: kinds.groups() };
}
