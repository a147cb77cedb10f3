import type { CostLine } from "../../records/cost-line.ts";
import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import {
  type CostDriverQuantity,
  type CostedTrays,
  costDriverQuantity,
  loadNames,
} from "../lines/cost-driver-quantity.ts";
import { trayLives } from "./tray-life.ts";

/** books with more trays keep nothing between two costings: the memory would outweigh the time */
const mostRemembered = 10_000;

const costedBefore = new WeakMap<ReadonlyArray<Tray>, CostedTrays[]>();
const takenBefore = new WeakMap<CostedTrays, WeakMap<CostLine, ReturnType<CostDriverQuantity>[]>>();

/**
 * Lays out trays for costing. The very same trays, settings and way of sharing give the very same layout, so that what
 * hangs on them alone is worked out once however often a price is changed.
 * @throws RangeError if a date does not exist
 */
export function costedTrays(
  trays: ReadonlyArray<Tray>,
  settings: Readonly<Settings>,
  sharedOver: CostedTrays["sharedOver"],
): CostedTrays {
  const known = costedBefore.get(trays) ?? [];
  const before = known.find((one) => one.settings === settings && one.sharedOver === sharedOver);
  if (before !== undefined) return before;
  const lives = trayLives(trays, settings.reportDate);
  const costed = { trays, lives, settings, sharedOver, loads: loadNames(trays, settings.traysPerLoad) };
  if (trays.length <= mostRemembered) costedBefore.set(trays, [costed, ...known].slice(0, 4));
  return costed;
}

/** how much of a line each tray took, as `costDriverQuantity`; of the very same line and trays worked out once. */
export function driverQuantityOnce(costed: CostedTrays, line: CostLine): CostDriverQuantity {
  const { length } = costed.trays;
  if (length > mostRemembered) return costDriverQuantity(costed, line);
  const lines = takenBefore.get(costed) ?? new WeakMap<CostLine, ReturnType<CostDriverQuantity>[]>();
  takenBefore.set(costed, lines);
  let taken = lines.get(line);
  if (taken === undefined) {
    taken = Array.from({ length }, (_, index) => index).map(costDriverQuantity(costed, line));
    lines.set(line, taken);
  }
  const all = taken;
  return (index) => all[index]!;
}
