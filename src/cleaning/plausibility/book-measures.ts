import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import { isoOfDay } from "../dates/calendar.ts";
import { daysFrom } from "./days.ts";
import { type RobustCentre, robustCentre } from "./robust-centre.ts";

/** What is usual of one weight: its logarithm by dose, with good and poor cooks allowed for. */
export interface WeightMeasures {
  /** centre of what is left of the logarithms after dose and cook, by dose */
  residuals: ReadonlyMap<number, RobustCentre>;
  /** what is left of a tray's weight after its dose and cook */
  residualOf(tray: Tray, grams: number): number;
  /** the usual weight of its dose in its cook, in g */
  usualOf(tray: Tray): number;
}

/** What a book's own trays say of what is usual, so that one tray can be held against the others. */
export interface BookMeasures {
  settings: Settings;
  /** of the logarithm of fresh over dry, over all good trays with both */
  logRatio: RobustCentre | undefined;
  /** of fresh and dry weights of good trays, by dose and cook */
  fresh: WeightMeasures;
  dry: WeightMeasures;
  /** the middle one of all the book's dates, ISO 8601, where there are enough and most lie near it */
  middleDay: string | undefined;
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

/** Fewer trays of a cook say nothing of the cook. */
const fewestOfCook = 3;

function put<K>(groups: Map<K, number[]>, key: K, value: number): void {
  const group = groups.get(key);
  if (group === undefined) groups.set(key, [value]);
  else group.push(value);
}

function centresOf<K>(groups: ReadonlyMap<K, number[]>): Map<K, RobustCentre> {
  const centres = new Map<K, RobustCentre>();
  for (const [key, group] of groups) centres.set(key, robustCentre(group)!);
  return centres;
}

/**
 * Medians of the logarithm by dose, then of what is left by cook: one sweep of a median polish.
 * @source Tukey 1977, Exploratory Data Analysis
 */
function weightMeasures(trays: ReadonlyArray<Tray>, weight: "freshGrams" | "dryGrams"): WeightMeasures {
  const isKnown = (tray: Tray): boolean => (tray[weight] ?? 0) > 0 && isComparable(tray);
  const byDose = new Map<number, number[]>();
  for (const tray of trays) if (isKnown(tray)) put(byDose, doseOf(tray), Math.log(tray[weight]!));
  const doses = centresOf(byDose);
  const doseMedian = (tray: Tray): number => doses.get(doseOf(tray))?.median ?? 0;
  const byCook = new Map<string, number[]>();
  for (const tray of trays) {
    if (tray.batch !== undefined && isKnown(tray)) put(byCook, tray.batch, Math.log(tray[weight]!) - doseMedian(tray));
  }
  const cooks = centresOf(byCook);
  const cookShift = ({ batch }: Tray): number => {
    const cook = batch === undefined ? undefined : cooks.get(batch);
    return cook === undefined || cook.count < fewestOfCook ? 0 : cook.median;
  };
  const residualOf = (tray: Tray, grams: number): number => Math.log(grams) - doseMedian(tray) - cookShift(tray);
  const left = new Map<number, number[]>();
  for (const tray of trays) if (isKnown(tray)) put(left, doseOf(tray), residualOf(tray, tray[weight]!));
  return {
    residuals: centresOf(left),
    residualOf,
    usualOf: (tray) => Math.exp(doseMedian(tray) + cookShift(tray)),
  };
}

const dateProperties = ["inoculatedOn", "colonisedOn", "fruitingOn", "harvestedOn", "driedOn"] as const;

/** The middle one of all dates, where there are four or more and half of them lie within a year of it. */
function middleOfDates(trays: ReadonlyArray<Tray>): string | undefined {
  const days: number[] = [];
  for (const tray of trays) {
    for (const property of dateProperties) {
      const day = daysFrom("1970-01-01", tray[property]);
      if (day !== undefined) days.push(day);
    }
  }
  const centre = days.length < 4 ? undefined : robustCentre(days);
  return centre === undefined || centre.deviation > 366 ? undefined : isoOfDay(Math.round(centre.median));
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
    fresh: weightMeasures(trays, "freshGrams"),
    dry: weightMeasures(trays, "dryGrams"),
    middleDay: middleOfDates(trays),
    freshContainer: sharedExcess(freshExcess),
    dryContainer: sharedExcess(dryExcess),
  };
}
