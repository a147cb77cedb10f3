import { endsOf } from "../records/ends.ts";
import { plannedTrialColumn } from "../records/planned-trial.ts";
import type { Tray } from "../records/tray.ts";
import { speaksOfMoney } from "../records/words/money-words.ts";
import { isRepeat } from "../records/words/repeat-names.ts";
import { asAmount } from "./amount-of-names.ts";
import {
  addedLiquidFactor,
  batchFactor,
  chamberFactor,
  containerFactor,
  cultureAgeFactor,
  doseFactor,
  type Factor,
  freeFactor,
  fruitingFactor,
  generationFactor,
  gradeFactor,
  grainFactor,
  incubationFactor,
  inoculationDayFactor,
  lightFactor,
  operatorFactor,
  seasonFactor,
  shelfFactor,
  spawnFactor,
  spawnRateFactor,
  strainFactor,
  substrateFactor,
  supplementAmountFactor,
  supplementFactor,
  yearFactor,
} from "./factor.ts";

/** Most levels that are compared one by one; an amount with more of them is looked at as a trend. */
export const mostLevels = 12;

/** Amounts that differ by less than this share of their mean were measured, not set. Common practice, no source. */
const leastSpread = 0.03;

/** Something that was not the same on every tray before the result was known. */
export interface VariedThing {
  factor: Factor;
  /** number the levels have an order and a distance: doses, grams, degrees */
  kind: "amount" | "names";
  /** distinct levels on finished trays; above `mostLevels` for a trend */
  levels: number;
  /** finished trays on which it is written */
  trays: number;
  /** how it lies over the cooks: several levels in one cook, all in a single cook, or one level a cook */
  place: "inside cooks" | "one cook" | "whole cooks";
  /** whether every level has four fifths of its even share of trays, or half of it */
  balance: (typeof balances)[number];
  /** made from dates: what it holds followed the calendar by itself */
  isPeriod: boolean;
}

/** In the order in which they are asked about where two lie alike: what a grower turns most, first. */
const candidates: ReadonlyArray<Factor> = [
  doseFactor,
  spawnFactor,
  spawnRateFactor,
  supplementAmountFactor,
  supplementFactor,
  gradeFactor,
  strainFactor,
  fruitingFactor,
  incubationFactor,
  lightFactor,
  addedLiquidFactor,
  containerFactor,
  substrateFactor,
  grainFactor,
];

/** What a tray grew of: nobody names these tray by tray. */
const grownOf: ReadonlyArray<string> = [strainFactor, supplementFactor, gradeFactor].map(({ key }) => key);

/** Of the culture and the person, and where trays stood: written down in most books, so what was given to trays comes before. */
const recorded: ReadonlyArray<Factor> = [generationFactor, cultureAgeFactor, operatorFactor];
const standings: ReadonlyArray<Factor> = [chamberFactor, shelfFactor];

/** Made from dates: they hold whatever else changed with time. */
const periods: ReadonlyArray<Factor> = [seasonFactor, yearFactor];

/** Cooks over fewer days than a season has differ by no season. */
const daysOfASeason = 90;

const places = ["inside cooks", "one cook", "whole cooks"] as const;

const balances = ["even", "fairly even", "uneven"] as const;

/** The levels met in each group. */
function levelsIn(trays: ReadonlyArray<Tray>, factor: Factor, group: Factor): Set<string>[] {
  const groups = new Map<string, Set<string>>();
  for (const tray of trays) {
    const level = factor.level(tray);
    if (level === undefined) continue;
    const name = group.level(tray) ?? "";
    const levels = groups.get(name) ?? new Set<string>();
    groups.set(name, levels);
    levels.add(level);
  }
  return [...groups.values()];
}

function placeOf(trays: ReadonlyArray<Tray>, factor: Factor): VariedThing["place"] {
  const named = trays.filter((tray) => batchFactor.level(tray) !== undefined).length;
  const group = named >= 0.8 * trays.length ? batchFactor : inoculationDayFactor;
  const groups = levelsIn(trays, factor, group);
  if (groups.length === 1) return "one cook";
  const several = groups.filter((levels) => levels.size > 1).length;
  return several >= 2 && several * 2 >= groups.length ? "inside cooks" : "whole cooks";
}

function variedThing(trays: ReadonlyArray<Tray>, factor: Factor): VariedThing | undefined {
  const counts = new Map<string, number>();
  const values = new Map<string, number>();
  let recorded = 0;
  for (const tray of trays) {
    const level = factor.level(tray);
    if (level === undefined) continue;
    recorded++;
    counts.set(level, (counts.get(level) ?? 0) + tray.traysInPool);
    const value = factor.value?.(tray);
    if (value !== undefined) values.set(level, value);
  }
  const levels = counts.size;
  const isAmount = values.size === levels;
  if (levels < 2 || recorded < trays.length / 2) return undefined;
  if (levels > mostLevels && !isAmount) return undefined;
  // a name of its own for nearly every tray says nothing of a group, but for what it grew of: eight strains, a tray of each
  if (!isAmount && levels > recorded / 1.5 && recorded > 3 && !grownOf.includes(factor.key)) return undefined;
  if (isAmount) {
    const all = [...values.values()];
    const [least, most] = endsOf(all);
    const mean = all.reduce((sum, value) => sum + Math.abs(value), 0) / all.length;
    if (most - least < leastSpread * mean) return undefined;
  }
  const even = [...counts.values()].reduce((sum, count) => sum + count, 0) / levels;
  const [least] = endsOf(counts.values());
  return {
    factor,
    kind: isAmount ? "amount" : "names",
    levels,
    trays: recorded,
    place: placeOf(trays, factor),
    balance: least >= 0.8 * even ? "even" : least >= even / 2 ? "fairly even" : "uneven",
    isPeriod: periods.includes(factor),
  };
}

/** Place in the order of asking. A column of one's own comes before what growers turn only where that lies unevenly. */
function layoutRank({ place, balance, factor, levels }: VariedThing): number {
  const unevenness = Math.max(balances.indexOf(balance), candidates.some(({ key }) => key === factor.key) ? 0 : 1);
  return (places.indexOf(place) * balances.length + unevenness) * 2 + Number(levels > mostLevels);
}

/**
 * What varied in a book, the thing to ask about first at the head: what varied inside cooks before what did not, evenly
 * before unevenly, and of those that lie alike what a grower turns most. The culture's age, who did it and where trays stood
 * come after what trays were given;
 * seasons and years, where the book is longer than one, come last.
 * @param trays the finished trays that count; columns known only after the harvest are never looked at
 * @param wanted key or header of the thing that the book says it is about; it comes first where it varied
 */
export function variedThings(trays: ReadonlyArray<Tray>, wanted = ""): VariedThing[] {
  const headers = [...new Set(trays.flatMap(({ factors }) => Object.keys(factors)))]
    // what a tray cost or brought was not given to it, and a repeat's number sets nothing
    .filter((header) => header !== plannedTrialColumn && !speaksOfMoney(header) && !isRepeat(header))
    .sort();
  // any words may be a header: its name stands in quotes
  const own = headers
    .map((header) => asAmount(freeFactor(header), trays))
    .map((one) => ({ ...one, label: `“${one.label}”` }));
  const found = (factors: ReadonlyArray<Factor>) =>
    factors.flatMap((factor): VariedThing[] => {
      const varied = variedThing(trays, factor);
      return varied === undefined ? [] : [varied];
    });
  const names = new Set([wanted, `“${wanted}”`, freeFactor(wanted).key]);
  const asked = ({ factor: { key, label } }: VariedThing) => Number(names.has(key) || names.has(label));
  const byLayout = (a: VariedThing, b: VariedThing) => layoutRank(a) - layoutRank(b);
  const set = found([...candidates.map((one) => (one === supplementFactor ? asAmount(one, trays) : one)), ...own]).sort(
    byLayout,
  );
  const stood = [recorded, standings].flatMap((factors) => found(factors).sort(byLayout));
  const when = daysBetween(trays) < daysOfASeason ? [] : found(periods);
  return [...set, ...stood, ...when].sort((a, b) => asked(b) - asked(a));
}

/**
 * Things of which one level is written on some trays and none on others, as a supplement that only some had: blank may be none
 * or not written down, so nothing is compared.
 * @param trays the finished trays that count
 */
export function halfWrittenThings(trays: ReadonlyArray<Tray>): { factor: Factor; level: string; blank: number }[] {
  return candidates.flatMap((factor) => {
    const levels = trays.map((tray) => factor.level(tray));
    const [level, ...others] = new Set(levels.filter((one) => one !== undefined));
    const blank = levels.filter((one) => one === undefined).length;
    const few = Math.min(blank, trays.length - blank) < 2;
    return others.length > 0 || few ? [] : [{ factor, level: level!, blank }];
  });
}

/** Something of so many names that none is compared with the others. */
export function manyNamed(trays: ReadonlyArray<Tray>): { factor: Factor; names: number } | undefined {
  for (const factor of candidates) {
    const names = new Set(trays.flatMap((tray) => factor.level(tray) ?? [])).size;
    if (factor.value === undefined && names > mostLevels) return { factor, names };
  }
  return undefined;
}

/** Days from the first inoculation to the last; below 0 where no tray is dated. */
function daysBetween(trays: ReadonlyArray<Tray>): number {
  const days = trays.flatMap(({ inoculatedOn }) => (inoculatedOn === undefined ? [] : [Date.parse(inoculatedOn)]));
  const [first, last] = endsOf(days);
  return (last - first) / 86_400_000;
}
