import type { Factor } from "../../src/design/factor.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { gramsOf, type YieldWeight } from "../../src/records/yield-weight.ts";

/** A result of a tray that arms are compared on. */
export interface TrayResponse {
  /** "dry yield per good tray" */
  label: string;
  unit: string;
  /** undefined when the tray has no such result */
  of(tray: Tray): number | undefined;
}

/** Weight of one good tray; lost and unfinished trays have none. A pool gives its mean per tray. */
export const yieldPerGoodTray = (weight: YieldWeight): TrayResponse => ({
  label: `${weight} yield per good tray`,
  unit: "g",
  of: (tray) => (tray.outcome === "good" ? gramsOf(tray, weight) : undefined),
});

/** Saleable weight of one started tray: nothing for a lost tray, unknown for one still growing. */
export const yieldPerStartedTray = (weight: YieldWeight): TrayResponse => ({
  label: `${weight} yield per started tray`,
  unit: "g",
  of: (tray) => {
    if (isLost(tray)) return 0;
    return tray.outcome === "good" ? gramsOf(tray, weight) : undefined;
  },
});

/** One tray's result in one arm. */
export interface Observation {
  tray: Tray;
  arm: string;
  value: number;
}

/**
 * The results of trays under a treatment, of those whose level and result are known. Trays weighed together are left out:
 * their mean has no spread of its own.
 */
export const observe = (trays: ReadonlyArray<Tray>, treatment: Factor, response: TrayResponse): Observation[] =>
  trays.flatMap((tray) => {
    const arm = treatment.level(tray);
    const value = response.of(tray);
    const isOut = tray.outcome === "asked" || tray.traysInPool > 1;
    return isOut || arm === undefined || value === undefined ? [] : [{ tray, arm, value }];
  });
