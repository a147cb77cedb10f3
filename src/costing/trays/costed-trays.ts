import type { CostLine } from "../../records/cost-line.ts";
import type { Memo } from "../../records/memo.ts";
import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import {
  type CostDriverQuantity,
  type CostedTrays,
  costDriverQuantity,
  sharedLoads,
} from "../lines/cost-driver-quantity.ts";
import { type TrayLife, trayLives } from "./tray-life.ts";

/** Each tray's life, laid out once for the same trays and settings. */
export const livesOnce = (trays: ReadonlyArray<Tray>, settings: Readonly<Settings>, memo: Memo): TrayLife[] =>
  memo.once([trays, settings], "lives of trays", () => trayLives(trays, settings.reportDate));

/**
 * Lays out trays for costing, once for the same trays, settings and way of sharing, so that what depends on them alone is
 * worked out once however often a price is changed.
 * @throws RangeError if a date does not exist
 */
export const costedTrays = (
  trays: ReadonlyArray<Tray>,
  settings: Readonly<Settings>,
  sharedOver: CostedTrays["sharedOver"],
  memo: Memo,
): CostedTrays =>
  memo.once([trays, settings], `laid out for costing, shared over ${sharedOver}`, () => ({
    trays,
    lives: livesOnce(trays, settings, memo),
    settings,
    sharedOver,
    loads: sharedLoads(trays, settings.traysPerLoad),
  }));

/** books with more trays work out every quantity when it is asked for: keeping them all would take too much memory */
const mostKept = 10_000;

/** How much of a line each tray took, as `costDriverQuantity`; worked out once for the same line and trays. */
export function driverQuantityOnce(costed: CostedTrays, line: CostLine, memo: Memo): CostDriverQuantity {
  const { length } = costed.trays;
  if (length > mostKept) return costDriverQuantity(costed, line);
  const taken = memo.once([costed, line], "cost driver quantities", () =>
    Array.from({ length }, (_, index) => index).map(costDriverQuantity(costed, line)),
  );
  return (index) => taken[index]!;
}
