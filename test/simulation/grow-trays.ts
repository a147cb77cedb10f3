import type { Tray } from "../../src/records/tray.ts";
import type { SeededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord } from "../analyses/demo-records.ts";

/** Where one tray stands in a trial, before anything grows. */
export interface Place {
  /** from 0, in time order */
  cook: number;
  doseMillilitres: number;
  /** absent where jars are not written down */
  jar?: string;
  supplement?: string;
}

/** What really holds in a simulated trial. Weights in g dry, times in days. */
export interface Truth {
  /** mean of a good tray in an average cook */
  grams(doseMillilitres: number, supplement?: string): number;
  /** mean days to full colonisation in an average cook */
  days(doseMillilitres: number): number;
  /** chance of losing a tray */
  loss(doseMillilitres: number): number;
  /** standard deviation between cooks, g */
  cookSd: number;
  /** standard deviation of what a cook adds to one dose alone, g */
  cookDoseSd: number;
  /** standard deviation between jars of one cook, g */
  jarSd: number;
  /** standard deviation between trays of one jar, dose and cook, g */
  traySd(doseMillilitres: number): number;
  /** what each cook gives more than the one before, g; the average cook of the trial stays as stated */
  driftGrams: number;
  /** standard deviations of days between cooks and between trays of a cook */
  daysCookSd: number;
  daysTraySd: number;
}

const firstDay = Date.UTC(2026, 0, 5);
const daysBetweenCooks = 14;
const day = (number: number): string => new Date(firstDay + number * 86_400_000).toISOString().slice(0, 10);
/** g; what is drawn below it weighs this much */
const leastGrams = 0.1;
const round = (value: number, step: number): number => Math.round(value / step) / Math.round(1 / step);

/** Draws once per key and remembers. */
function drawnOnce(random: SeededRandom, sd: number): (key: string) => number {
  const known = new Map<string, number>();
  return (key) => {
    const before = known.get(key);
    if (before !== undefined) return before;
    const drawn = random.normal() * sd;
    known.set(key, drawn);
    return drawn;
  };
}

/**
 * Grows the trays of a plan: cook, jar and cook-by-dose effects are normal and drawn once each, then every tray has its
 * own scatter; a lost tray has no weight. Days are read to the day, weights to 0.1 g dry, the least a scale shows.
 */
export function growTrays(places: ReadonlyArray<Place>, truth: Truth, random: SeededRandom): Tray[] {
  const cooks = Math.max(...places.map(({ cook }) => cook)) + 1;
  const [cookGrams, cookDays, jarGrams, cookDoseGrams] = [
    drawnOnce(random, truth.cookSd),
    drawnOnce(random, truth.daysCookSd),
    drawnOnce(random, truth.jarSd),
    drawnOnce(random, truth.cookDoseSd),
  ];
  return random.shuffle(places).map((place, index): Tray => {
    const { cook, doseMillilitres: dose, jar, supplement } = place;
    const start = cook * daysBetweenCooks;
    const grams = Math.max(
      leastGrams,
      truth.grams(dose, supplement) +
        truth.driftGrams * (cook - (cooks - 1) / 2) +
        cookGrams(`${cook}`) +
        (jar === undefined ? 0 : jarGrams(jar)) +
        cookDoseGrams(`${cook} ${dose}`) +
        random.normal() * truth.traySd(dose),
    );
    const colonised = Math.max(
      3,
      Math.round(truth.days(dose) + cookDays(`${cook}`) + random.normal() * truth.daysTraySd),
    );
    const base: Tray = trayRecord({
      trayId: `T${index + 1}`,
      batch: `C${cook + 1}`,
      ...(jar === undefined ? {} : { jar }),
      ...(supplement === undefined ? {} : { supplement }),
      inoculumMillilitres: dose,
      inoculatedOn: day(start),
      outcome: "contaminated",
    });
    if (random.uniform() < truth.loss(dose)) return base;
    return {
      ...base,
      outcome: "good",
      colonisedOn: day(start + colonised),
      harvestedOn: day(start + colonised + 28),
      dryGrams: round(grams, 0.1),
      freshGrams: round(grams * 9.4, 1),
    };
  });
}
