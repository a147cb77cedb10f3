import { type HarvestFieldKey, harvestField } from "../../records/harvest-field.ts";
import type { ColumnMeaning } from "./column-plan.ts";
import { borneOut, type ColumnProfile, fitness } from "./column-profile.ts";
import { aCheck } from "./losses-and-notes.ts";
import { has } from "./match-columns.ts";
import { onlyMarkedCount, yesCounts } from "./use-columns.ts";

export const nothingKnown: ColumnProfile = {
  counts: {},
  filled: 0,
  distinct: 0,
  losses: 0,
  outcomes: 0,
  answers: 0,
  refusals: 0,
  high: 0,
  most: 0,
  areParts: false,
  start: [],
};

const namedByKind: ReadonlySet<HarvestFieldKey> = new Set([
  "substrate_wet_g",
  "grain_dry_g",
  "supplement_g",
  "spawn_g",
]);

/** A bare "Moisture": of what was dried, or of the substrate, which only the numbers tell. */
const maySaySubstrate = ([only, second]: ReadonlyArray<ColumnMeaning>): boolean =>
  only !== undefined && second === undefined && only.field === "final_moisture_pct" && only.rank < 3;

/** Nothing that was dried is as moist as a third of its weight. Common practice, no source. */
const isOfSubstrate = ({ high, counts }: ColumnProfile): boolean =>
  high > 0 && high >= ((counts.number ?? 0) + (counts.percent ?? 0)) / 2;

/** "Substrate", "Grain": amounts, or what it was made of, which only the cells tell. */
const mayHoldNames = ([only, second]: ReadonlyArray<ColumnMeaning>): boolean =>
  only !== undefined && second === undefined && namedByKind.has(only.field) && only.rank < 3 && only.unit === "";

/** "In", "Start": a day, where days stand in it. */
const mayBeDay = ([only, second]: ReadonlyArray<ColumnMeaning>): boolean =>
  only !== undefined && second === undefined && only.rank === 1 && harvestField(only.field).kind === "date";

/** A column of names in which rows seldom share one; a block or a jar that many trays share is no tray. */
const namesTrays = ({ filled, distinct }: ColumnProfile): boolean => distinct >= 0.6 * filled;

/** Whether what a column of one meaning holds is seen by its cells alone. */
export const needsCells = (meanings: ReadonlyArray<ColumnMeaning>): boolean =>
  mayHoldNames(meanings) ||
  isOnlyOutcome(meanings) ||
  mayBeDay(meanings) ||
  maySaySubstrate(meanings) ||
  [aCheck, yesCounts].includes(meanings[0]?.because ?? "");

/** Spawn or supplement in bare numbers as small as these may be grams, or per cent of the substrate. Common practice, no source. */
const mostPercent = 25;

const areNumbers = ({ counts }: ColumnProfile): boolean =>
  Object.keys(counts).every((look) => look === "number" || look === "empty");

const isSmallSpawn = (meanings: ReadonlyArray<ColumnMeaning>, profile: ColumnProfile): boolean =>
  has(meanings, "spawn_g") &&
  has(meanings, "spawn_pct") &&
  !meanings.some(({ field, rank }) => field !== "spawn_g" && rank > 1) &&
  meanings.every(({ unit }) => unit === "") &&
  profile.most <= mostPercent &&
  areNumbers(profile);

/** "Bran" over "10%", or over 10, which may be grams or per cent: compared as it stands, and no weight. */
const mayBeShares = (meanings: ReadonlyArray<ColumnMeaning>, profile: ColumnProfile): boolean =>
  meanings.some(({ field, unit }) => field === "supplement_g" && unit === "") &&
  meanings.every(({ field }) => field === "supplement_g" || field === "supplement") &&
  ((profile.counts.percent ?? 0) > 0 || (profile.most > 0 && profile.most <= mostPercent && areNumbers(profile)));

/** A column of "#" that only numbers the rows, beside one that names the trays. */
const countsRows = ({ field, rank }: ColumnMeaning, { counts, filled, distinct, most }: ColumnProfile): boolean =>
  field === "tray_id" && rank === 1 && (counts.number ?? 0) === distinct && distinct === filled && most === filled;

/** How far a tray has come before it is picked. */
const ofGrowth: ReadonlySet<HarvestFieldKey> = new Set<HarvestFieldKey>([
  ...(["colonised_on", "days_to_colonise", "fruiting_on", "fruiting_c", "incubation_c"] as const),
]);

/** "Result", and not "outcome" or "Good?" */
const isOnlyOutcome = ([only, other]: ReadonlyArray<ColumnMeaning>): boolean =>
  only?.field === "outcome" && only.rank < 3 && other === undefined;

/** Whether a column of outcomes by its name holds weights: half of its cells in a unit, or numbers too large for a code. */
const holdsWeights = ({ counts, high, distinct }: ColumnProfile): boolean =>
  distinct > 0 && 2 * ((counts.mass ?? 0) + high) >= distinct;

/** What is left of a column's meanings once its cells are looked at; all of them where the cells fit none of a known name. */
export function byCells(
  options: ReadonlyArray<ColumnMeaning[]>,
  index: number,
  profile: ColumnProfile | undefined,
  { hasNames, hasWeights }: { hasNames: boolean; hasWeights: boolean },
): ColumnMeaning[] {
  const isLog =
    options.every((others, at) => at === index || isOfHarvest(others)) && options.some((one) => has(one, "fresh_g"));
  if (isOnlyOutcome(options[index]!) && !hasWeights && profile !== undefined && holdsWeights(profile))
    return [{ field: "fresh_g", because: "weights in its cells", rank: 1, unit: "" }];
  let left = loneDate(traysOrCount(options[index]!, profile, hasNames), hasWeights, isLog);
  const isAnswered =
    profile !== undefined &&
    profile.filled > 0 &&
    profile.answers === profile.distinct &&
    profile.counts.number === undefined;
  // "Colonised? yes", "Fruiting? no - green": remarks, and no days
  if (isAnswered && left.length > 0 && left.every(({ field }) => ofGrowth.has(field)))
    return [{ field: "note", because: "answers, and no days", rank: 1, unit: "" }];
  // "Picked: yes" is no day, and says nothing beside the day itself; a cross under a flush is no answer
  if (isAnswered && has(left, "harvested_on") && left.every(({ flush }) => flush === undefined)) {
    const isTold = options.some((others, at) => at !== index && has(others, "harvested_on"));
    return isTold ? [] : left.filter(({ field }) => field === "harvested_on");
  }
  const isLone = !options.some((others, at) => at !== index && has(others, "tray_id"));
  if (profile !== undefined) left = leftByCells(left, profile, isLone, hasNames);
  if (profile !== undefined && mayBeShares(left, profile)) return [];
  const [only] = left;
  const isTaken = left.length === 1 && options.some((others, at) => at !== index && has(others, only!.field));
  if (isTaken && profile !== undefined && (fitness(only!.field, profile) === 0 || countsRows(only!, profile)))
    return [];
  if (left.length < 2 || isSmallSpawn(left, profile ?? nothingKnown)) return left;
  const borne = borneOut(left, profile ?? nothingKnown);
  if (borne.length === 0 && left.some(({ rank }) => rank > 1)) return left;
  return borne.length === 1 ? [{ ...borne[0]!, because: `${borne[0]!.because}, by what the cells hold` }] : borne;
}

/** What is left of a mark's meaning by the cells: a word such as "Use" asks only over answers, or words such as "ok". */
function useByCells(meaning: ColumnMeaning, profile: ColumnProfile): ColumnMeaning[] {
  const { answers, refusals, outcomes, distinct, counts } = profile;
  if (2 * (answers + outcomes) < distinct || distinct === 0) return [];
  return [
    refusals === 0 && answers === distinct && (counts.empty ?? 0) > 0
      ? { ...meaning, because: onlyMarkedCount }
      : meaning,
  ];
}

const looksLikeWords = ({ counts }: ColumnProfile): boolean =>
  (counts.text ?? 0) > 0 && Object.keys(counts).every((look) => look === "text" || look === "empty");

/** What is left of a column's meanings once its cells were looked at. */
function leftByCells(
  meanings: ColumnMeaning[],
  profile: ColumnProfile,
  isLone: boolean,
  hasNames: boolean,
): ColumnMeaning[] {
  let left = meanings;
  // "Jar" over a name of its own in each row, where nothing else names the trays
  if (isLone && has(left, "tray_id") && profile.filled >= 4)
    if (profile.distinct === profile.filled && profile.counts.date === undefined)
      left = left.filter(({ field }) => field === "tray_id");
  if (!namesTrays(profile) && !hasNames) left = left.filter(({ field, rank }) => field !== "tray_id" || rank > 1);
  // weights, shares or days of each week are no words about a tray
  if (left[0]?.because === yesCounts) return useByCells(left[0], profile);
  if (left[0]?.because === aCheck) return looksLikeWords(profile) ? left : [];
  if ((mayHoldNames(left) || mayBeDay(left)) && fitness(left[0]!.field, profile) === 0) return [];
  return maySaySubstrate(left) && isOfSubstrate(profile) ? [] : left;
}

/** "Trays" over numbers: counts of trays, or their names. */
function traysOrCount(
  meanings: ColumnMeaning[],
  profile: ColumnProfile | undefined,
  hasNames: boolean,
): ColumnMeaning[] {
  if (!has(meanings, "tray_id") || !has(meanings, "trays_in_pool")) return meanings;
  const { counts, filled, distinct, areParts } = profile ?? nothingKnown;
  const areNumbers = (counts.number ?? 0) > 0 && counts.text === undefined;
  const areCounts = areParts || (areNumbers && (hasNames || distinct < filled || filled < 4));
  return meanings.filter(({ field }) => field === (areCounts ? "trays_in_pool" : "tray_id"));
}

/** What a log of pickings says of a tray: its name, where it stands, and what came of it. */
const ofHarvest: ReadonlySet<HarvestFieldKey> = new Set<HarvestFieldKey>([
  ...(["tray_id", "fresh_g", "dry_g", "outcome", "flush", "note", "operator", "shelf", "chamber"] as const),
]);
const isOfHarvest = (meanings: ReadonlyArray<ColumnMeaning>): boolean =>
  meanings.length > 0 && meanings.every(({ field }) => ofHarvest.has(field));

/**
 * A lone "Date" beside weights may be that of inoculation or of harvest: of harvest where nothing else tells how a tray was
 * set up; beside no weights, trays are being started.
 */
function loneDate(meanings: ColumnMeaning[], hasWeights: boolean, isLog: boolean): ColumnMeaning[] {
  if (!has(meanings, "inoculated_on") || !has(meanings, "harvested_on")) return meanings;
  if (meanings.some(({ rank }) => rank > 1) || (hasWeights && !isLog)) return meanings;
  return meanings.filter(({ field }) => field === (hasWeights ? "harvested_on" : "inoculated_on"));
}
