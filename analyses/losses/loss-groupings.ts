import { loadNames } from "../../src/costing/lines/cost-driver-quantity.ts";
import {
  batchFactor,
  chamberFactor,
  doseFactor,
  type Factor,
  generationFactor,
  inoculationDayFactor,
  operatorFactor,
  positionFactor,
  shelfFactor,
} from "../../src/design/factor.ts";
import type { Settings } from "../../src/records/setting.ts";
import type { Tray } from "../../src/records/tray.ts";
import { inSentence } from "../comparison/level-text.ts";

/** A way to sort trays into groups that losses may be tied to. */
export interface LossGrouping {
  /** "culture jar", or "culture jar and cooker load" where both sort the trays alike */
  name: string;
  /** canonical columns behind it; several when they sort the trays alike */
  keys: string[];
  /** level of each tray as shown; undefined where not recorded */
  levels: (string | undefined)[];
  /** groups within which losses are permuted, with their name: places are compared within loads */
  within?: { name: string; levels: (string | undefined)[] };
  groups: number;
  recorded: number;
}

const distinct = (levels: ReadonlyArray<string | undefined>): number =>
  new Set(levels.filter((level) => level !== undefined)).size;

/**
 * Names the jar of each tray. A name that stands for more liquid culture than a jar holds, in more than one cook, is a name
 * used again in each cook, and is kept apart by cook.
 */
function jarNames(trays: ReadonlyArray<Tray>, settings: Readonly<Settings>): (string | undefined)[] {
  const used = new Map<string, { millilitres: number; cooks: Set<string> }>();
  for (const { jar, batch, inoculumMillilitres = 0, traysInPool } of trays) {
    if (jar === undefined) continue;
    const entry = used.get(jar) ?? { millilitres: 0, cooks: new Set<string>() };
    used.set(jar, entry);
    entry.millilitres += inoculumMillilitres * traysInPool;
    if (batch !== undefined) entry.cooks.add(batch);
  }
  return trays.map(({ jar, batch }) => {
    if (jar === undefined) return undefined;
    const { millilitres, cooks } = used.get(jar)!;
    return millilitres > settings.jarMillilitres && cooks.size > 1 ? `${jar} (${batch ?? "no cook"})` : jar;
  });
}

/** Loads with names that are used again in each cook kept apart. */
function namedLoads(trays: ReadonlyArray<Tray>, settings: Readonly<Settings>): (string | undefined)[] {
  return loadNames(trays, settings.traysPerLoad).map((name, index) => {
    const { load, batch } = trays[index]!;
    return name === undefined || name === load ? name : `${load} (${batch ?? "no cook"})`;
  });
}

/** Width of a band of culture ages, in days: jars of nearly one age are one group. Common practice, no source. */
const bandDays = 14;

/** "14 to 27 days" */
function ageBand({ cultureAgeDays: days }: Tray): string | undefined {
  if (days === undefined || days < 0) return undefined;
  const from = Math.floor(days / bandDays) * bandDays;
  return `${from} to ${from + bandDays - 1} days`;
}

/** Whether two groupings sort the same trays into the same groups. */
function alike(a: ReadonlyArray<string | undefined>, b: ReadonlyArray<string | undefined>): boolean {
  const [there, back] = [new Map<string, string>(), new Map<string, string>()];
  return a.every((first, index) => {
    const second = b[index];
    if (first === undefined || second === undefined) return first === second;
    if (!there.has(first) && !back.has(second)) {
      there.set(first, second);
      back.set(second, first);
    }
    return there.get(first) === second && back.get(second) === first;
  });
}

/**
 * The groupings that the records can say something about: recorded for half of the trays or more, with two groups or more
 * that hold several trays. Groupings that sort the trays alike are one, under both names.
 * @param tried what else was tried on trays, by name: strains, containers
 */
export function lossGroupings(
  trays: ReadonlyArray<Tray>,
  settings: Readonly<Settings>,
  tried: ReadonlyArray<Factor> = [],
): LossGrouping[] {
  const of = (factor: Factor) => trays.map((tray) => factor.level(tray));
  const loads = namedLoads(trays, settings);
  const cooks = of(batchFactor);
  const within =
    distinct(loads) > 1
      ? { name: "cooker load", levels: loads }
      : distinct(cooks) > 1
        ? { name: "cook", levels: cooks }
        : undefined;
  const candidates: Pick<LossGrouping, "name" | "keys" | "levels" | "within">[] = [
    { name: "culture jar", keys: ["jar"], levels: jarNames(trays, settings) },
    { name: "cooker load", keys: ["load"], levels: loads },
    { name: "cook", keys: ["batch"], levels: cooks },
    { name: "inoculation day", keys: ["inoculated_on"], levels: of(inoculationDayFactor) },
    {
      name: inSentence(positionFactor.label),
      keys: ["load_position"],
      levels: of(positionFactor),
      ...(within === undefined ? {} : { within }),
    },
    { name: "shelf", keys: ["shelf"], levels: of(shelfFactor) },
    { name: "chamber", keys: ["chamber"], levels: of(chamberFactor) },
    { name: "operator", keys: ["operator"], levels: of(operatorFactor) },
    { name: "culture age", keys: ["culture_age_days"], levels: trays.map(ageBand) },
    { name: inSentence(generationFactor.label), keys: ["culture_generation"], levels: of(generationFactor) },
    {
      name: "dose",
      keys: ["inoculum_ml"],
      levels: of(doseFactor).map((level) => (level === undefined ? undefined : `${level} ${doseFactor.unit}`)),
    },
  ];
  for (const factor of tried) {
    if (candidates.some(({ keys }) => keys.includes(factor.key))) continue;
    candidates.push({
      name: inSentence(factor.label),
      keys: [factor.key],
      levels: of(factor),
      ...(within === undefined ? {} : { within }),
    });
  }
  const groupings: LossGrouping[] = [];
  for (const candidate of candidates) {
    const recorded = candidate.levels.filter((level) => level !== undefined).length;
    const groups = distinct(candidate.levels);
    // a level of its own for nearly every tray groups nothing
    if (groups < 2 || recorded < trays.length / 2 || groups > recorded / 1.5) continue;
    const twin = groupings.find(({ levels }) => alike(levels, candidate.levels));
    if (twin === undefined) groupings.push({ ...candidate, groups, recorded });
    else {
      twin.name = `${twin.name} and ${candidate.name}`;
      twin.keys.push(...candidate.keys);
    }
  }
  return groupings;
}
