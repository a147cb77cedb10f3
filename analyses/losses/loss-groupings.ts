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

/** What trays share that may strike them all, with the one of each tray. */
interface Unit {
  /** "cook" */
  name: string;
  levels: (string | undefined)[];
}

/** A way to sort trays into groups that losses may be tied to. */
export interface LossGrouping {
  /** "culture jar", or "culture jar and cooker load" where both sort the trays alike */
  name: string;
  /** canonical columns behind it; several when they sort the trays alike */
  keys: string[];
  /** level of each tray as shown; undefined where not recorded */
  levels: (string | undefined)[];
  /** groups within which losses are permuted: places are compared within loads */
  within?: Unit;
  /** trays that are permuted together: what a whole cook shares is compared by whole cooks */
  blocks?: Unit;
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

/** Of the trays, the share that may have another level than most of their unit, for the unit to be taken as a whole. */
const mostStray = 0.1;

/** The unit of each tray that has the level of most of its unit; undefined where too many have not, or there is one unit. */
function wholeUnits(levels: ReadonlyArray<string | undefined>, { name, levels: units }: Unit): Unit | undefined {
  if (distinct(units) < 2) return undefined;
  const counts = new Map<string, Map<string, number>>();
  levels.forEach((level, tray) => {
    const unit = units[tray];
    if (level === undefined || unit === undefined) return;
    const own = counts.get(unit) ?? new Map<string, number>();
    counts.set(unit, own.set(level, (own.get(level) ?? 0) + 1));
  });
  const most = new Map([...counts].map(([unit, own]) => [unit, [...own].reduce((a, b) => (b[1] > a[1] ? b : a))[0]]));
  const kept = units.map((unit, tray) => (unit !== undefined && levels[tray] === most.get(unit) ? unit : undefined));
  const known = levels.filter((level, tray) => level !== undefined && units[tray] !== undefined).length;
  const strays = known - kept.filter((unit) => unit !== undefined).length;
  return strays > known * mostStray ? undefined : { name, levels: kept };
}

/**
 * How losses are permuted to judge a grouping, where trays of a cook, load or jar may be struck together: units that have one
 * level each as wholes, else trays within them.
 */
function unitsOf(
  levels: ReadonlyArray<string | undefined>,
  cooks: Unit,
  loads: Unit,
  jars: Unit,
): Pick<LossGrouping, "within" | "blocks"> {
  const byCook = wholeUnits(levels, cooks);
  if (byCook !== undefined) return { blocks: byCook };
  const within = distinct(cooks.levels) > 1 ? { within: cooks } : {};
  const blocks = wholeUnits(levels, loads) ?? wholeUnits(levels, jars);
  if (blocks !== undefined) return { ...within, blocks };
  return distinct(loads.levels) > 1 ? { within: loads } : within;
}

/** Units that are looked at themselves: what strikes them strikes all their trays. */
const units: ReadonlyArray<string> = ["jar", "load", "batch", "inoculated_on"];

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
  const jars = { name: "culture jar", levels: jarNames(trays, settings) };
  const loads = { name: "cooker load", levels: namedLoads(trays, settings) };
  const cooks = { name: "cook", levels: of(batchFactor) };
  const days = { name: "inoculation day", levels: of(inoculationDayFactor) };
  const candidates: Pick<LossGrouping, "name" | "keys" | "levels">[] = [
    { ...jars, keys: ["jar"] },
    { ...loads, keys: ["load"] },
    { ...cooks, keys: ["batch"] },
    { ...days, keys: ["inoculated_on"] },
    { name: inSentence(positionFactor.label), keys: ["load_position"], levels: of(positionFactor) },
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
    candidates.push({ name: inSentence(factor.label), keys: [factor.key], levels: of(factor) });
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
  const lots = distinct(cooks.levels) > 0 ? cooks : days;
  return groupings.map((one) =>
    one.keys.some((key) => units.includes(key)) ? one : { ...one, ...unitsOf(one.levels, lots, loads, jars) },
  );
}
