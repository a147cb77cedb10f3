import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import { isoOfDay } from "../dates/calendar.ts";
import { daysFrom } from "./days.ts";
import { type RobustCentre, robustCentre } from "./robust-centre.ts";

/** What is usual of one weight: its logarithm by dose, with good and poor cooks allowed for. */
export interface WeightMeasures {
  /** centre of what is left of the logarithms after dose and cook, by dose */
  residuals: ReadonlyMap<number | string, RobustCentre>;
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

/** The dose a tray is compared within: of liquid culture in mL, or with grain spawn all amounts as one text. */
export const doseOf = ({ inoculumMillilitres, spawnGrams, spawnShare }: Tray): number | string =>
  spawnGrams === undefined && spawnShare === undefined
    ? (inoculumMillilitres ?? noDose)
    : `${inoculumMillilitres ?? ""}|${spawnGrams ?? ""}|${spawnShare ?? ""}`;

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
  const known: Tray[] = [];
  const left: number[] = [];
  for (const tray of trays) {
    const grams = tray[weight];
    if (grams === undefined || grams <= 0 || !isComparable(tray)) continue;
    known.push(tray);
    left.push(Math.log(grams));
  }
  /** takes the medians of groups off what is left, and gives them */
  const sweep = <K>(keyOf: (tray: Tray) => K | undefined, fewest: number): ReadonlyMap<K, number> => {
    const groups = new Map<K, number[]>();
    for (let at = 0; at < known.length; at++) {
      const key = keyOf(known[at]!);
      if (key !== undefined) put(groups, key, left[at]!);
    }
    const medians = new Map<K, number>();
    for (const [key, group] of groups) if (group.length >= fewest) medians.set(key, robustCentre(group)!.median);
    for (let at = 0; at < known.length; at++) {
      const key = keyOf(known[at]!);
      const median = key === undefined ? undefined : medians.get(key);
      if (median !== undefined) left[at] = left[at]! - median;
    }
    return medians;
  };
  const doses = sweep(doseOf, 1);
  const cooks = sweep(({ batch }) => batch, fewestOfCook);
  const shift = (tray: Tray): number =>
    (doses.get(doseOf(tray)) ?? 0) + (tray.batch === undefined ? 0 : (cooks.get(tray.batch) ?? 0));
  const residuals = new Map<number | string, number[]>();
  for (let at = 0; at < known.length; at++) put(residuals, doseOf(known[at]!), left[at]!);
  return {
    residuals: centresOf(residuals),
    residualOf: (tray, grams) => Math.log(grams) - shift(tray),
    usualOf: (tray) => Math.exp(shift(tray)),
  };
}

/** The middle one of the trays' first dates, where there are four or more and half of them lie within a year of it. */
function middleOfDates(trays: ReadonlyArray<Tray>): string | undefined {
  const days: number[] = [];
  for (const { inoculatedOn, harvestedOn, colonisedOn, fruitingOn, driedOn } of trays) {
    const day = daysFrom("1970-01-01", inoculatedOn ?? harvestedOn ?? colonisedOn ?? fruitingOn ?? driedOn);
    if (day !== undefined) days.push(day);
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
