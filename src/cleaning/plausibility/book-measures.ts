import type { Settings } from "../../records/setting.ts";
import type { Tray } from "../../records/tray.ts";
import { centreInPlace, type RobustCentre, robustCentre } from "./robust-centre.ts";
import { daysOfTray, type StageDays, stageDays } from "./stage-days.ts";
import { centresByGroup, roomOf, sweepMedians, type TrayGroups } from "./tray-groups.ts";
import type { WeighedTrays } from "./weighed-trays.ts";

/** What is usual of a value of each tray: by dose, with good and poor cooks allowed for. */
export interface UsualOfDoses {
  /** what is left of a tray's value after its dose and cook, by the tray's place; NaN where it has nothing to compare */
  residuals: Float64Array;
  /** centre of what is left, by a tray's dose; undefined where too few trays tell */
  centreOf(at: number): RobustCentre | undefined;
  /** the usual value of a tray's dose in its cook */
  usualOf(at: number): number;
}

/** What a book's own trays say of what is usual, so that one tray can be compared with the others. */
export interface BookMeasures {
  settings: Settings;
  /** of the logarithm of fresh over dry, over all good trays with both */
  logRatio: RobustCentre | undefined;
  /** of the logarithms of fresh and dry weights of good trays */
  fresh: UsualOfDoses;
  dry: UsualOfDoses;
  /** of days to colonise */
  colonised: UsualOfDoses;
  /** the middle one of all the book's dates, in days since 1970, where there are enough and most lie near it */
  middleDay: number | undefined;
  days: StageDays;
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
/** Fewer trays of a dose do not tell how far its trays lie apart: then all trays together do. */
const fewestOfDose = 6;
/** Below this many good trays, or so many more than medians taken off them, a book has no usual weight. */
const fewest = { trays: 6, free: 4 };

/**
 * Medians by dose, then of what is left by cook: one sweep of a median polish. A dose whose trays lie further apart than the
 * book's is judged by its own.
 * @param values one of each tray, NaN where it has nothing to compare; what is left of them afterwards
 * @source Tukey 1977, Exploratory Data Analysis; a scale that leaves out as many of the smallest residuals as were fitted:
 *   DuMouchel and O'Brien 1989, Integrating a Robust Option into a Multiple Regression Computing Environment
 */
function usualOfDoses(
  values: Float64Array,
  byDose: TrayGroups<number | string>,
  byCook: TrayGroups<string>,
): UsualOfDoses {
  // a tray without a dose is like no other
  for (let at = 0; at < values.length; at++) if (byDose.places[at]! < 0) values[at] = Number.NaN;
  const doses = sweepMedians(values, byDose, 1);
  const cooks = sweepMedians(values, byCook, fewestOfCook);
  const known = roomOf(byDose);
  let count = 0;
  for (const value of values) if (!Number.isNaN(value)) known[count++] = value;
  const fitted = doses.taken + cooks.taken - 1;
  const isEnough = count >= fewest.trays && count - fitted >= fewest.free;
  const all = isEnough ? centreInPlace(known, count, fitted) : undefined;
  const ofDose = centresByGroup(values, byDose, fewestOfDose, fitted / count);
  const centres = ofDose.map((own) => all && { ...all, deviation: Math.max(all.deviation, own?.deviation ?? 0) });
  const shift = (at: number): number => {
    const cook = byCook.places[at]!;
    return doses.medians[byDose.places[at]!]! + (cook < 0 ? 0 : cooks.medians[cook]!);
  };
  return { residuals: values, centreOf: (at) => centres[byDose.places[at]!], usualOf: shift };
}

/** The middle one of the trays' first dates, where there are four or more and half of them lie within a year of it. */
function middleOfDays(days: StageDays): number | undefined {
  const [inoculated, colonised, fruiting, harvested, dried] = days;
  const inTurn = [inoculated!, harvested!, colonised!, fruiting!, dried!];
  const known = new Float64Array(inoculated!.length);
  let count = 0;
  for (let at = 0; at < known.length; at++) {
    for (const stage of inTurn) {
      if (Number.isNaN(stage[at]!)) continue;
      known[count++] = stage[at]!;
      break;
    }
  }
  const centre = count < 4 ? undefined : centreInPlace(known, count);
  return centre === undefined || centre.deviation > 366 ? undefined : Math.round(centre.median);
}

/** The excess that at least three suspect weights share within 15 %. */
function sharedExcess(excesses: ReadonlyArray<number>): number | undefined {
  const centre = robustCentre(excesses.filter((excess) => excess > 0));
  if (centre === undefined) return undefined;
  const alike = excesses.filter((excess) => Math.abs(excess - centre.median) <= 0.15 * centre.median);
  return alike.length >= 3 && alike.length >= 0.6 * centre.count ? centre.median : undefined;
}

/** A lone dose that is another with its point moved, where every other dose has several trays. */
function slipsOfDoses(trays: ReadonlyArray<Tray>, { keys, members, starts }: TrayGroups<number | string>): Set<number> {
  const counts = new Map<number, number>();
  for (let place = 0; place < keys.length; place++) {
    const { inoculumMillilitres: dose, traysInPool } = trays[members[starts[place]!]!]!;
    const rows = starts[place + 1]! - starts[place]!;
    if (dose !== undefined && dose > 0) counts.set(dose, (counts.get(dose) ?? 0) + (rows === 1 ? traysInPool : rows));
  }
  const lone = [...counts.keys()].filter((dose) => counts.get(dose) === 1);
  if (lone.length !== 1 || counts.size < 3) return new Set();
  const isTenfold = (dose: number): boolean =>
    lone.every((one) => [10 * dose, dose / 10].some((slip) => Math.abs(slip - one) < 1e-6 * one));
  return new Set([...counts.keys()].some((dose) => !lone.includes(dose) && isTenfold(dose)) ? lone : []);
}

/** What weighs too much where fresh over dry is out of the usual range: the fresh weight, or the dry one. */
function excesses(outOfRange: ReadonlyArray<Tray>, usual: number, { dryingRatioHigh }: Settings) {
  const fresh: number[] = [];
  const dry: number[] = [];
  for (const tray of outOfRange) {
    if (ratioOf(tray)! > dryingRatioHigh) fresh.push(tray.freshGrams! - tray.dryGrams! * usual);
    else dry.push(tray.dryGrams! - tray.freshGrams! / usual);
  }
  return { fresh, dry };
}

/**
 * Measures a book's trays against which single ones are held.
 * @param weighed used up: trays weighed together are taken out of its weights
 */
export function bookMeasures(
  trays: ReadonlyArray<Tray>,
  { logs, byDose, byCook }: WeighedTrays,
  settings: Settings,
): BookMeasures {
  const days = stageDays(trays);
  const ratios = new Float64Array(trays.length);
  const colonised = new Float64Array(trays.length);
  const outOfRange: Tray[] = [];
  let compared = 0;
  for (let at = 0; at < trays.length; at++) {
    const tray = trays[at]!;
    const took = daysOfTray("colonised", tray, days, at);
    colonised[at] = tray.traysInPool === 1 && took >= 0 ? took : Number.NaN;
    if (tray.traysInPool !== 1) {
      logs.freshGrams[at] = Number.NaN;
      logs.dryGrams[at] = Number.NaN;
    }
    const ratio = ratioOf(tray);
    if (ratio === undefined) continue;
    ratios[compared++] = Math.log(ratio);
    if (ratio < settings.dryingRatioLow || ratio > settings.dryingRatioHigh) outOfRange.push(tray);
  }
  const logRatio = centreInPlace(ratios, compared);
  const tooHeavy = logRatio === undefined ? undefined : excesses(outOfRange, Math.exp(logRatio.median), settings);
  return {
    settings,
    logRatio,
    fresh: usualOfDoses(logs.freshGrams, byDose, byCook),
    dry: usualOfDoses(logs.dryGrams, byDose, byCook),
    colonised: usualOfDoses(colonised, byDose, byCook),
    middleDay: middleOfDays(days),
    days,
    doseSlips: slipsOfDoses(trays, byDose),
    freshContainer: sharedExcess(tooHeavy?.fresh ?? []),
    dryContainer: sharedExcess(tooHeavy?.dry ?? []),
  };
}
