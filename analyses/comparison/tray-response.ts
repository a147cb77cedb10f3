import type { Excluded } from "../../src/analysis.ts";
import type { Factor } from "../../src/design/factor.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { inSentence } from "./level-text.ts";

/** A result of a tray that arms are compared on. */
export interface TrayResponse {
  /** "dry yield per good tray" */
  label: string;
  unit: string;
  /** undefined when the tray has no such result */
  of(tray: Tray): number | undefined;
}

/** Which weight the book's yields are reported in: dry when most good trays have one, else fresh. */
export type YieldWeight = "dry" | "fresh";

/** Chooses the weight most good trays have; dry wins a draw, because it does not depend on how wet the pick was. */
export function yieldWeightOf(trays: ReadonlyArray<Tray>): YieldWeight | undefined {
  const good = trays.filter(({ outcome }) => outcome === "good");
  const dry = good.filter(({ dryGrams }) => dryGrams !== undefined).length;
  const fresh = good.filter(({ freshGrams }) => freshGrams !== undefined).length;
  if (dry === 0 && fresh === 0) return undefined;
  return dry >= fresh / 2 ? "dry" : "fresh";
}

const weightOf = (tray: Tray, weight: YieldWeight): number | undefined =>
  weight === "dry" ? tray.dryGrams : tray.freshGrams;

/** Weight of one good tray; lost and unfinished trays have none. A pool gives its mean per tray. */
export const yieldPerGoodTray = (weight: YieldWeight): TrayResponse => ({
  label: `${weight} yield per good tray`,
  unit: "g",
  of: (tray) => {
    const grams = weightOf(tray, weight);
    return tray.outcome === "good" && grams !== undefined ? grams / tray.traysInPool : undefined;
  },
});

/** Saleable weight of one started tray: nothing for a lost tray, unknown for one still growing. */
export const yieldPerStartedTray = (weight: YieldWeight): TrayResponse => ({
  label: `${weight} yield per started tray`,
  unit: "g",
  of: (tray) => {
    if (isLost(tray)) return 0;
    const grams = weightOf(tray, weight);
    return tray.outcome === "good" && grams !== undefined ? grams / tray.traysInPool : undefined;
  },
});

/** One tray's result in one arm. */
export interface Observation {
  tray: string;
  arm: string;
  /** the arm as a number, for amounts */
  dose: number | undefined;
  value: number;
  source: Tray;
}

/**
 * Gathers the observations of a response under a treatment, and says why the other trays are left out.
 * Trays weighed together are left out: their mean has no spread of its own.
 */
export function observe(
  trays: ReadonlyArray<Tray>,
  treatment: Factor,
  response: TrayResponse,
): { observations: Observation[]; excluded: Excluded[] } {
  const observations: Observation[] = [];
  const reasons = new Map<string, string[]>();
  const leaveOut = (tray: Tray, reason: string): void => {
    const names = reasons.get(reason) ?? [];
    reasons.set(reason, names);
    names.push(tray.trayId);
  };
  for (const tray of trays) {
    const arm = treatment.level(tray);
    const value = response.of(tray);
    if (tray.outcome === "growing" && value === undefined) leaveOut(tray, "still growing, so no result yet");
    else if (tray.outcome === "asked") leaveOut(tray, "asked about in the log, so what became of it is not known");
    else if (arm === undefined) leaveOut(tray, `${inSentence(treatment.label)} not recorded or not readable`);
    else if (isLost(tray) && value === undefined)
      leaveOut(tray, `lost (contaminated, failed or discarded), so no ${response.label}`);
    else if (value === undefined) leaveOut(tray, `no ${response.label} recorded`);
    else if (tray.traysInPool > 1) leaveOut(tray, "weighed together with others, so one tray's result is not known");
    else observations.push({ tray: tray.trayId, arm, dose: treatment.value?.(tray), value, source: tray });
  }
  return { observations, excluded: [...reasons].map(([reason, names]) => ({ trays: names, reason })) };
}
