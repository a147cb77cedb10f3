import type { Settings } from "../../records/setting.ts";
import { doseOf, type Tray } from "../../records/tray.ts";
import { isoOfDay } from "../dates/calendar.ts";
import { daysFrom } from "./days.ts";
import { middle, type RobustCentre, robustCentre } from "./robust-centre.ts";

/** What is usual of one weight: its logarithm by dose, with good and poor cooks allowed for. */
export interface WeightMeasures {
  /** centre of what is left of the logarithms after dose and cook, by dose */
  residuals: ReadonlyMap<number | string, RobustCentre>;
  /** what is left of a tray's weight after its dose and cook */
  residualOf(tray: Tray, grams: number): number;
  /** the usual weight of its dose in its cook, in g */
  usualOf(tray: Tray): number;
}

/** What a book's own trays say of what is usual, so that one tray can be compared with the others. */
export interface BookMeasures {
  settings: Settings;
  /** of the logarithm of fresh over dry, over all good trays with both */
  logRatio: RobustCentre | undefined;
  /** of fresh and dry weights of good trays, by dose and cook */
  fresh: WeightMeasures;
  dry: WeightMeasures;
  /** the middle one of all the book's dates, ISO 8601, where there are enough and most lie near it */
  middleDay: string | undefined;
  /** doses in mL that a single tray has and that are ten times, or a tenth of, one that several have */
  doseSlips: ReadonlySet<number>;
  /** grams that several trays' fresh (or dry) weights are too heavy by alike, as a container would make them */
  freshContainer: number | undefined;
  dryContainer: number | undefined;
}

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

/** What trays are compared within: the places of their groups, -1 for a tray in none. */
interface Groups<K> {
  keys: K[];
  places: Int32Array;
}

function groupsOf<K>(trays: ReadonlyArray<Tray>, keyOf: (tray: Tray) => K | undefined): Groups<K> {
  const keys: K[] = [];
  const known = new Map<K, number>();
  const places = new Int32Array(trays.length).fill(-1);
  for (let at = 0; at < trays.length; at++) {
    const key = keyOf(trays[at]!);
    if (key === undefined) continue;
    let place = known.get(key);
    if (place === undefined) {
      place = keys.length;
      known.set(key, place);
      keys.push(key);
    }
    places[at] = place;
  }
  return { keys, places };
}

/** The known values of each group side by side, in an array of their own. @param values one of each tray, NaN unknown */
function gathered(values: Float64Array, { keys, places }: Groups<unknown>): Float64Array[] {
  const starts = new Int32Array(keys.length + 1);
  for (let at = 0; at < values.length; at++) {
    const place = places[at]!;
    if (place >= 0 && !Number.isNaN(values[at]!)) starts[place + 1]!++;
  }
  for (let place = 0; place < keys.length; place++) starts[place + 1]! += starts[place]!;
  const all = new Float64Array(starts[keys.length]!);
  const next = starts.slice();
  for (let at = 0; at < values.length; at++) {
    const place = places[at]!;
    if (place >= 0 && !Number.isNaN(values[at]!)) all[next[place]!++] = values[at]!;
  }
  return keys.map((_, place) => all.subarray(starts[place], starts[place + 1]));
}

/** Takes the medians of groups off the values, and gives them. */
function sweep<K>(values: Float64Array, groups: Groups<K>, fewest: number): Map<K, number> {
  const medians = gathered(values, groups).map((group) => (group.length < fewest ? 0 : middle(group)));
  for (let at = 0; at < values.length; at++) {
    const place = groups.places[at]!;
    if (place >= 0) values[at]! -= medians[place]!;
  }
  return new Map(medians.map((median, place) => [groups.keys[place]!, median]));
}

/**
 * Medians of the logarithm by dose, then of what is left by cook: one sweep of a median polish.
 * @source Tukey 1977, Exploratory Data Analysis
 */
function weightMeasures(
  trays: ReadonlyArray<Tray>,
  weight: "freshGrams" | "dryGrams",
  byDose: Groups<number | string>,
  byCook: Groups<string>,
): WeightMeasures {
  const left = new Float64Array(trays.length).fill(Number.NaN);
  for (let at = 0; at < trays.length; at++) {
    const grams = trays[at]![weight];
    if (grams !== undefined && grams > 0 && isComparable(trays[at]!)) left[at] = Math.log(grams);
  }
  const doses = sweep(left, byDose, 1);
  const cooks = sweep(left, byCook, fewestOfCook);
  const shift = (tray: Tray): number =>
    (doses.get(doseOf(tray)) ?? 0) + (tray.batch === undefined ? 0 : (cooks.get(tray.batch) ?? 0));
  const residuals = new Map<number | string, RobustCentre>();
  for (const [place, group] of gathered(left, byDose).entries()) {
    const centre = robustCentre(group);
    if (centre !== undefined) residuals.set(byDose.keys[place]!, centre);
  }
  return {
    residuals,
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

/** A lone dose that is another with its point moved, where every other dose has several trays. */
function slipsOfDoses(trays: ReadonlyArray<Tray>): Set<number> {
  const counts = new Map<number, number>();
  for (const { inoculumMillilitres: dose, traysInPool } of trays)
    if (dose !== undefined && dose > 0) counts.set(dose, (counts.get(dose) ?? 0) + traysInPool);
  const lone = [...counts.keys()].filter((dose) => counts.get(dose) === 1);
  if (lone.length !== 1 || counts.size < 3) return new Set();
  const isTenfold = (dose: number): boolean =>
    lone.every((one) => [10 * dose, dose / 10].some((slip) => Math.abs(slip - one) < 1e-6 * one));
  return new Set([...counts.keys()].some((dose) => !lone.includes(dose) && isTenfold(dose)) ? lone : []);
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
  const byDose = groupsOf(trays, doseOf);
  const byCook = groupsOf(trays, ({ batch }) => batch);
  return {
    settings,
    logRatio,
    fresh: weightMeasures(trays, "freshGrams", byDose, byCook),
    dry: weightMeasures(trays, "dryGrams", byDose, byCook),
    middleDay: middleOfDates(trays),
    doseSlips: slipsOfDoses(trays),
    freshContainer: sharedExcess(freshExcess),
    dryContainer: sharedExcess(dryExcess),
  };
}
