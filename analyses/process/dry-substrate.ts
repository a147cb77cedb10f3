import { drySubstrate } from "../../src/measures/moisture.ts";
import { lostAhead } from "../../src/records/ended-cooks.ts";
import { addTo } from "../../src/records/grouped.ts";
import type { Settings } from "../../src/records/setting.ts";
import { hasEnded, type Tray } from "../../src/records/tray.ts";

/** A finished tray with what it was filled with and what it gave, per record: a pool of trays counts as one. */
export interface SubstrateTray {
  tray: Tray;
  /** everything picked, fresh; 0 for a lost tray */
  freshGrams: number;
  /** dry weight of grain and supplement at filling */
  dryGrams: number;
}

/** Why the dry weight of a tray's substrate is not known. */
export type SubstrateGap =
  | "no fresh weight"
  | "grain per tray not recorded (grain_dry_g)"
  | "substrate without weight: 0 g typed (grain_dry_g)"
  | "amount of supplement not recorded (supplement_g)";

/** A supplement column that says the tray had none. */
const saysNone = /^(none|no|nothing|without|plain|no supplement|unsupplemented|0)$/i;

/**
 * Dry weight of one record's substrate. A book in which no tray has an amount of supplement and a tray that names none are
 * taken as grain alone.
 */
function substrateOf(tray: Tray, isSupplementWeighed: boolean, settings: Settings): number | SubstrateGap {
  const { grainDryGrams, supplementGrams, supplement, supplementGrade, traysInPool } = tray;
  if (grainDryGrams === undefined) return "grain per tray not recorded (grain_dry_g)";
  const isNone = saysNone.test(supplement ?? "");
  const mayHaveSome = supplement !== undefined || supplementGrade !== undefined || isSupplementWeighed;
  if (supplementGrams === undefined && mayHaveSome && !isNone) {
    return "amount of supplement not recorded (supplement_g)";
  }
  const { grainMoisture, supplementMoisture } = settings;
  return traysInPool * drySubstrate(grainDryGrams, grainMoisture, supplementGrams ?? 0, supplementMoisture);
}

/** Finished trays whose dry substrate and fresh weight are known, and the others with the reason. */
export function substrateTrays(
  trays: ReadonlyArray<Tray>,
  settings: Settings,
): { known: SubstrateTray[]; gaps: Map<SubstrateGap, Tray[]> } {
  const isSupplementWeighed = trays.some(({ supplementGrams }) => supplementGrams !== undefined);
  const known: SubstrateTray[] = [];
  const gaps = new Map<SubstrateGap, Tray[]>();
  const ahead = lostAhead(trays);
  for (const tray of trays.filter((one) => hasEnded(one) && !ahead.has(one))) {
    const dryGrams = substrateOf(tray, isSupplementWeighed, settings);
    const freshGrams = tray.outcome === "good" ? tray.freshGrams : 0;
    if (typeof dryGrams === "string") addTo(gaps, dryGrams, tray);
    else if (freshGrams === undefined) addTo(gaps, "no fresh weight", tray);
    else if (dryGrams > 0) known.push({ tray, freshGrams, dryGrams });
    else addTo(gaps, "substrate without weight: 0 g typed (grain_dry_g)", tray);
  }
  return { known, gaps };
}
