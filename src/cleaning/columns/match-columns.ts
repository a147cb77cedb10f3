import { type HarvestFieldKey, harvestField, isHarvestFieldKey, isWeightField } from "../../records/harvest-field.ts";
import { correctedWords } from "../../records/words/corrected-words.ts";
import { meaningsOf, meaningsOfPhrase, meaningsOfTwo } from "../../records/words/field-phrases.ts";
import { bareOrdinal, flushInHeader, numberedHeader } from "../../records/words/flush-words.ts";
import { fold } from "../../records/words/fold.ts";
import { saysNothing, wordsAsked, wordsOf } from "../../records/words/header-words.ts";
import { perWords } from "../../records/words/per-words.ts";
import { unitNamed } from "../../records/words/units.ts";
import { withoutContainer } from "../rules/container-included.ts";
import { headerWithoutEach, headerWithoutMean } from "../rules/per-tray.ts";
import { phraseAt } from "../values/outcome-phrases.ts";
import { anotherAmount, aWeek, countOfGroup, isRate, otherMeasure, share, traysShare } from "./amounts-not-of-trays.ts";
import type { ColumnMeaning } from "./column-plan.ts";
import { isMarkedFree } from "./free-mark.ts";
import { type HeaderParts, headerParts, shorterName, unitsNamed } from "./header-unit.ts";
import { inUnits, withUnit } from "./in-units.ts";
import { checkByName, lossByName, notesByName } from "./losses-and-notes.ts";
import { useByName } from "./use-columns.ts";

/** The day that belongs to a thing measured. */
export const dayOf: Readonly<Partial<Record<HarvestFieldKey, HarvestFieldKey>>> = {
  inoculum_ml: "inoculated_on",
  spawn_g: "inoculated_on",
  spawn_pct: "inoculated_on",
  fresh_g: "harvested_on",
  dry_g: "dried_on",
  colonised_on: "colonised_on",
  fruiting_on: "fruiting_on",
};

function flushMeanings(header: string): ColumnMeaning[] {
  const found = flushInHeader(header);
  // "1st", "1st g"
  const { name, units } = headerParts(header);
  const unit = units.find(({ kind }) => kind === "mass")?.name ?? "";
  const alone = found === undefined ? bareOrdinal(unit === "" ? header : name) : undefined;
  if (alone !== undefined) return [{ field: "fresh_g", because: "an ordinal", rank: 1, unit, flush: alone }];
  if (found === undefined) return [];
  const parts = headerParts(found.rest);
  const words = wordsOf(parts.name);
  const isNamed = /\p{L}/u.test(parts.name) && unitsNamed(parts.name).length === 0;
  const because = isNamed ? `synonym, of flush ${found.flush}` : aFlush;
  const named = isNamed
    ? meaningsOf(words)
    : (["fresh_g", "harvested_on"] as const).map((field) => ({ field, weak: false }));
  // "Flush 1 g fresh"
  if (named.length === 0)
    return meaningsByWords(found.rest, true)
      .filter(isHarvestWeight)
      .map((weight) => ({ ...weight, because, flush: found.flush }));
  return named.flatMap(({ field }) => {
    const unit = withUnit(harvestField(field).kind, parts.units.length === 0 ? unitsNamed(found.rest) : parts.units);
    if (unit === undefined || (field !== "fresh_g" && field !== "dry_g" && field !== "harvested_on")) return [];
    return [{ field, because, rank: 2, unit, flush: found.flush }];
  });
}

/**
 * Every field that a header may name, by its words, their misspellings, and the unit it states; several where only the
 * cells can tell ("Dried": a date or a weight). Empty for a header nobody is known to write.
 * @param asWritten without putting right what may be a misspelling, which takes most of the time
 */
export function meaningsOfHeader(header: string, asWritten = false): ColumnMeaning[] {
  // "g/tray" names neither what was weighed nor a generation
  if (isMarkedFree(header) || gramsOfEach.test(header)) return [];
  let found = meaningsByWords(header.trim().replace(boxed, "").replace(quoted, "$2"), asWritten);
  // "FreshWeightG", "TrayNo"
  if (found.length === 0 && camel.test(header)) found = meaningsByWords(header.trim().replace(camel, "$1 "), asWritten);
  if (wordsOf(header).includes("date")) found = eachOnce(found.flatMap(asDay));
  if (aWeek.test(fold(header))) found = found.filter(({ unit }) => unit !== "weeks");
  if (countOfGroup.test(header)) found = found.filter(({ field }) => !traysShare.includes(field));
  const isOther = [otherMeasure, share, anotherAmount].some((other) => other.test(header)) || isRate(header);
  if (!isOther) return found;
  return found.some(({ field }) => ["volume", "mass"].includes(harvestField(field).kind)) ? [] : found;
}

const gramsOfEach = new RegExp(`^\\W*g\\W*(?:/|(?:a|${perWords})\\b)\\s*\\p{L}+\\W*$`, "iu");
/** "Fresh date" is the day of the harvest, and no weight; a date of what has no day of its own is nothing known. */
function asDay(meaning: ColumnMeaning): ColumnMeaning[] {
  const { kind } = harvestField(meaning.field);
  // a "Data szczep." is no strain
  if (kind === "text" && !isThing(meaning)) return [];
  if (!["mass", "volume"].includes(kind)) return [meaning];
  const day = dayOf[meaning.field];
  return day === undefined ? [] : [{ ...meaning, field: day, unit: "" }];
}

/** "☐ harvested" */
const boxed = /^[☐☑☒□✓✔]\s*(?=\p{L})/u;
/** A header in quotation marks of any kind. */
const quoted = /^(['"“”„‘’])\s*(.+?)\s*['"“”‘’]$/;
const camel = /(\p{Ll})(?=\p{Lu})/gu;

/** What decided on "Flush 1 g", which is fresh where nothing says more. */
const aFlush = "the name of a flush";

/** Whether a weight in g or without a unit is taken for fresh although its name does not say so. */
export const saysNoState = ({ field, rank, because, unit }: ColumnMeaning): boolean =>
  field === "fresh_g" && (rank === 1 || because.startsWith(aFlush)) && (unit === "" || unit === "g");

/** What decided on "Avg fresh g", which is the weight of each tray of several. */
export const aMean = "the mean of several trays";
const asMean = (meaning: ColumnMeaning): ColumnMeaning[] =>
  isHarvestWeight(meaning) ? [{ ...meaning, because: aMean, rank: 1 }] : [];

/** What decided on "g": it is the weight of a sheet without another. */
export const aUnitAlone = "a unit alone";
/** What decided on "Fresh g 2": one of two such columns, of two flushes or weighed twice. */
export const aNumber = "a number beside its name";

/** "Tray 1 fresh" is of another tray than "Tray 2 fresh". */
const isThing = ({ field }: { field: HarvestFieldKey }): boolean => field === "tray_id" || traysShare.includes(field);

/** A weight of the harvest by a name of its own. */
export const isHarvestWeight = ({ field, rank, flush }: ColumnMeaning): boolean =>
  rank > 1 && flush === undefined && isWeightField(field);

/** Each field once, at its best. */
const eachOnce = (meanings: ReadonlyArray<ColumnMeaning>): ColumnMeaning[] =>
  meanings.filter(
    ({ field, rank }, index) =>
      !meanings.some((one, at) => one.field === field && (one.rank > rank || (one.rank === rank && at < index))),
  );

/** What a header means as a whole: a canonical name, a use, a question for good, a flush, one of two weights. */
function byWholeName(header: string): ColumnMeaning[] {
  if (isHarvestFieldKey(header))
    return [{ field: header, because: "canonical name", rank: 3, unit: harvestField(header).unit }];
  const use = useByName(header);
  if (use.length > 0) return use;
  // "Good?" asks; "good" over a column, or in a row, may be anything
  const isDone = () => meaningsOf(wordsOf(header)).some(({ field }) => field === "harvested_on");
  if (/\?$/.test(header) && phraseAt([fold(header)], 0)?.role === "good" && !isDone())
    return [{ field: "outcome", because: "synonym", rank: 2, unit: "" }];
  const byFlush = flushMeanings(header);
  if (byFlush.length > 0) return byFlush;
  const numbered = numberedHeader(header);
  const ofThings = wordsOf(numbered?.name ?? "").some((word) => meaningsOf([word]).some(isThing));
  const weights =
    numbered === undefined || ofThings
      ? []
      : meaningsByWords(numbered.name, true).filter(({ field, flush }) => flush === undefined && isWeightField(field));
  return weights.length > 0
    ? weights.map((weight) => ({ ...weight, because: aNumber, flush: numbered!.place }))
    : lettered(header);
}

/** A header's words, with and without those that may say nothing: the first that are known decide. */
function variantsOf(header: string, { full, name, units }: HeaderParts): string[][] {
  const variants = [header, full, name].map(wordsOf);
  // "Did the tray contaminate?"
  variants.push(...variants.map(wordsAsked));
  // "amount" says nothing where the unit says it
  for (const word of ["tray", "date", "total", "all", ...(units.length > 0 ? ["amount"] : [])]) {
    for (const words of [...variants]) {
      if (words.includes(word)) variants.push(words.filter((other) => other !== word));
    }
  }
  return variants;
}

function meaningsByWords(header: string, asWritten: boolean): ColumnMeaning[] {
  const shorter = isHarvestFieldKey(header) ? undefined : (shorterName(header) ?? withoutContainer(header));
  if (shorter !== undefined) return meaningsByWords(shorter, asWritten);
  const whole = byWholeName(header);
  if (whole.length > 0) return whole;
  const ofWhat = byUnitOfWhat(header, asWritten);
  if (ofWhat.length > 0) return ofWhat;
  const stated = headerParts(header);
  // "ml", "cc": a header that is nothing but a unit
  const bare = stated.units.length === 0 ? [...unitsNamed(header), ...unitsNamed(stated.name)] : [];
  const parts = stated.units.length === 0 ? { ...stated, units: bare } : stated;
  const variants = variantsOf(header, parts);
  const named = [header, parts.full, parts.name].map(meaningsOfPhrase).find((list) => list.length > 0) ?? [];
  const exactly = eachOnce(named.flatMap((meaning) => inUnits(meaning, parts.units, "synonym")));
  if (exactly.some(({ rank }) => rank > 1)) return exactly;
  // most headers have their one name in every variant
  const differing = [...new Map(variants.map((words) => [words.join(" "), words])).values()];
  const lost = lossByName(header);
  for (const because of asWritten ? ["synonym"] : ["synonym", "spelling"]) {
    // "Binned" is no "Pinned" misspelt
    if (because === "spelling" && lost.length > 0) return lost;
    for (const words of differing) {
      const spelt = because === "spelling" ? correctedWords(words) : words;
      if (spelt === undefined) continue;
      const found = eachOnce(meaningsOf(spelt).flatMap((meaning) => inUnits(meaning, parts.units, because)));
      if (found.length > 0)
        return [...found, ...exactly.filter(({ field }) => !found.some((one) => one.field === field))];
    }
  }
  if (exactly.length > 0) return exactly;
  const inside = stated.units.length > 0 ? [] : byUnitInside(header, asWritten);
  if (inside.length > 0) return inside;
  const twice = saidTwice(header, asWritten);
  if (twice.length > 0) return twice;
  const ofEach = headerWithoutEach(header);
  const ofMean = headerWithoutMean(header);
  const rarely = [
    inOtherTime(header),
    byNumber(variants[0]!),
    lost,
    notesByName(header),
    checkByName(header),
    ofEach === header ? [] : meaningsByWords(ofEach, asWritten),
    ofMean === header ? [] : meaningsByWords(ofMean, asWritten).flatMap(asMean),
    // "Fresh g (trimmed)"
    stated.units.length > 0 || stated.name === header
      ? []
      : meaningsByWords(stated.name, asWritten).filter(({ unit }) => unit !== ""),
    eachOnce(variants.flatMap(meaningsOfTwo).flatMap((meaning) => inUnits(meaning, parts.units, "synonym"))),
    bare.length === 0 ? [] : inUnits({ field: "fresh_g", weak: true }, bare, aUnitAlone),
  ];
  return rarely.find((found) => found.length > 0) ?? [];
}

/** "Supplement (g bran)", "Yield (g dry)": a unit in brackets, and what it is of, which the name bears out. */
function byUnitOfWhat(header: string, asWritten: boolean): ColumnMeaning[] {
  const [, name = "", unit = "", of = ""] =
    /^(.*\p{L}.*?)\s*[([](\p{L}{1,6})[\s,]+(\p{L}[\p{L} ]*)[)\]]$/u.exec(header) ?? [];
  if (unitsNamed(unit).length === 0) return [];
  const both = meaningsByWords(`${name} ${of} (${unit})`, asWritten);
  if (both.length > 0) return both;
  const fields = meaningsOf(wordsOf(of)).map(({ field }) => field);
  return meaningsByWords(`${name} (${unit})`, asWritten).filter(({ field }) => fields.includes(field));
}

/** "Fresh (g) a" beside "Fresh (g) b": a weight in parts, or weighed twice, whose letters are no small words. */
function lettered(header: string): ColumnMeaning[] {
  const [, name, unit = ""] = /^(.*[\p{L})]) (?:[a-d]|i{1,3})(\s*[([][^()[\]]*[)\]])?$/iu.exec(header) ?? [];
  return name === undefined ? [] : meaningsByWords(name + unit, true).filter(({ field }) => isWeightField(field));
}

/** "Weeks to harvest", "Wochen bis Ernte": what "days to harvest" names, in weeks. */
function inOtherTime(header: string): ColumnMeaning[] {
  const word = header.match(/\p{L}{5,}/gu)?.find((one) => (unitNamed(fold(one), "days")?.factor ?? 1) !== 1);
  if (word === undefined) return [];
  const unit = unitNamed(fold(word), "days")!.name;
  return meaningsByWords(header.replace(word, "days"), true).flatMap((meaning): ColumnMeaning[] =>
    harvestField(meaning.field).kind === "days" ? [{ ...meaning, unit }] : [],
  );
}

/** What a header means that names a thing by its number: "Kiste Nr.", "caisse n°". */
function byNumber(words: ReadonlyArray<string>): ColumnMeaning[] {
  if (words.length !== 2 || !words.includes("number")) return [];
  return meaningsOf(words.filter((word) => word !== "number")).flatMap(({ field, weak }): ColumnMeaning[] =>
    harvestField(field).kind === "text" ? [{ field, because: "synonym", rank: weak ? 1 : 2, unit: "" }] : [],
  );
}

/** What a header means that says one thing twice: "Impfmenge / dose (ml)", in two languages or by two names. */
function saidTwice(header: string, asWritten: boolean): ColumnMeaning[] {
  const parts = header.split(/\s+[/|]\s+|(?<=\p{L}{4})[/|](?=\p{L}{4})/u);
  if (parts.length !== 2) return [];
  const [first = [], second = []] = parts.map((part) => meaningsByWords(part.trim(), asWritten));
  return first.flatMap((one) => {
    const other = second.find(({ field }) => field === one.field);
    return other === undefined ? [] : [one.unit === "" ? other : one];
  });
}

/** What a header may mean whose weight or volume unit stands among its words: "How many ml of LC?", "grams of spawn". */
function byUnitInside(header: string, asWritten: boolean): ColumnMeaning[] {
  const words = fold(header).split(" ");
  const isUnit = (word: string): boolean =>
    (word.length > 1 || word === "g") && unitsNamed(word).some(({ kind }) => kind === "mass" || kind === "volume");
  const at = words.findIndex(isUnit);
  if (at < 0 || words.length < 2) return [];
  const unit = words[at]!;
  const all = wordsOf(words.filter((_, index) => index !== at).join(" "));
  // "mL LC / bag"
  const perTray = all.filter((word) => !meaningsOf([word]).some(({ field }) => field === "tray_id"));
  for (const name of [all, wordsAsked(all), perTray]) {
    const known = meaningsOf(name);
    const fields = (known.length > 0 ? known : meaningsOfTwo(name)).map(({ field }) => field);
    // "cc/bag", "how many ml?": nothing but the unit
    if (name.every(saysNothing) || (fields.length > 0 && fields.every((field) => field === "tray_id")))
      return meaningsByWords(unit, asWritten);
    if (fields.length > 0) return meaningsByWords(`${name.join(" ")} (${unit})`, asWritten);
  }
  return [];
}

/** Whether one of a column's meanings is a field. */
export const has = (meanings: ReadonlyArray<ColumnMeaning>, field: HarvestFieldKey): boolean =>
  meanings.some((meaning) => meaning.field === field);
