import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import { type RobustCentre, robustCentre } from "./robust-centre.ts";

/** What a book's own trays say of what is usual, so that one tray can be held against the others. */
export interface BookMeasures {
  settings: Settings;
  /** of the logarithm of fresh over dry, over all good trays with both */
  logRatio: RobustCentre | undefined;
  /** of fresh and dry weights of good trays, by dose */
  fresh: ReadonlyMap<number, RobustCentre>;
  dry: ReadonlyMap<number, RobustCentre>;
  /** grams that several trays' fresh (or dry) weights are too heavy by alike, as a container would make them */
  freshContainer: number | undefined;
  dryContainer: number | undefined;
}

/** Dose of trays whose dose is not known. */
const noDose = -1;

/** The dose a tray is compared within. */
export const doseOf = ({ inoculumMillilitres }: Tray): number => inoculumMillilitres ?? noDose;

/** Whether a tray's weights can be compared with others': good, and on its own. */
export const isComparable = ({ outcome, traysInPool }: Tray): boolean => outcome === "good" && traysInPool === 1;

/** Fresh over dry of a comparable tray; undefined without both weights. */
export function ratioOf(tray: Tray): number | undefined {
  const { freshGrams, dryGrams } = tray;
  if (!isComparable(tray) || freshGrams === undefined || dryGrams === undefined) return undefined;
  return freshGrams > 0 && dryGrams > 0 ? freshGrams / dryGrams : undefined;
}

function byDose(trays: ReadonlyArray<Tray>, weight: "freshGrams" | "dryGrams"): Map<number, RobustCentre> {
  const groups = new Map<number, number[]>();
  for (const tray of trays) {
    const grams = tray[weight];
    if (grams === undefined || !isComparable(tray)) continue;
    const dose = doseOf(tray);
    const group = groups.get(dose);
    if (group === undefined) groups.set(dose, [grams]);
    else group.push(grams);
  }
  const centres = new Map<number, RobustCentre>();
  for (const [dose, values] of groups) {
    const centre = robustCentre(values);
    if (centre !== undefined) centres.set(dose, centre);
  }
  return centres;
}

/** The excess that at least three suspect weights share within 15 %. */
function sharedExcess(excesses: ReadonlyArray<number>): number | undefined {
  const centre = robustCentre(excesses.filter((excess) => excess > 0));
  if (centre === undefined) return undefined;
  const alike = excesses.filter((excess) => Math.abs(excess - centre.median) <= 0.15 * centre.median);
  return alike.length >= 3 && alike.length >= 0.6 * centre.count ? centre.median : undefined;
}

/** Measures a book's trays against which single ones are held. */
export function bookMeasures(trays: ReadonlyArray<Tray>, settings: Settings): BookMeasures {
  const logs: number[] = [];
  const freshExcess: number[] = [];
  const dryExcess: number[] = [];
  for (const tray of trays) {
    const ratio = ratioOf(tray);
    if (ratio !== undefined) logs.push(Math.log(ratio));
  }
  const logRatio = robustCentre(logs);
  if (logRatio !== undefined) {
    const usual = Math.exp(logRatio.median);
    for (const tray of trays) {
      const ratio = ratioOf(tray);
      if (ratio === undefined) continue;
      if (ratio > settings.dryingRatioHigh) freshExcess.push(tray.freshGrams! - tray.dryGrams! * usual);
      else if (ratio < settings.dryingRatioLow) dryExcess.push(tray.dryGrams! - tray.freshGrams! / usual);
    }
  }
  return {
    settings,
    logRatio,
    fresh: byDose(trays, "freshGrams"),
    dry: byDose(trays, "dryGrams"),
    freshContainer: sharedExcess(freshExcess),
    dryContainer: sharedExcess(dryExcess),
  };
}
