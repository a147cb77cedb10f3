import { wordsOf } from "../../records/words/header-words.ts";
import { type Unit, unitNamed } from "../../records/words/units.ts";
import type { QuantityKind } from "../values/quantity-reading.ts";
import { yesOrNo } from "../values/yes-or-no.ts";

/** A header taken apart: what it names, and the unit it states. */
export interface HeaderParts {
  /** without the unit, and without remarks in brackets */
  name: string;
  /** without the unit only */
  full: string;
  /** the units it may state, by kind; "oz" is a weight, "h" days or hours */
  units: Unit[];
}

const kinds: ReadonlyArray<QuantityKind> = ["mass", "volume", "temperature", "percent", "days", "hours"];

/** The units a text may name, one of each kind; "oz" is a weight, "h" days or hours. Empty for any other text. */
export function unitsNamed(text: string): Unit[] {
  const word = text.trim();
  if (word === "" || word.length > 16 || word === "#") return [];
  return kinds.flatMap((kind) => {
    const unit = unitNamed(word.replace(/^in\s+/i, ""), kind);
    // hours are told of each day, never in days: "Light / day"
    const eachDay = kind === "hours" && unit?.name === "days";
    return unit === undefined || Number.isNaN(unit.factor) || eachDay ? [] : [unit];
  });
}

/** "Light h/day", "Hours of light per day": a header of hours without the day they are told of. */
function withoutEachDay(header: string): string {
  const [, hours = "", day = ""] = /^(.*\S)\s*(?:\/|\s(?:per|a|pro)\s)\s*(\p{L}+)$/u.exec(header) ?? [];
  const tellsHours = hours.split(/[^\p{L}]+/u).some((word) => unitNamed(word, "hours")?.name === "hours");
  return tellsHours && unitNamed(day, "days")?.name === "days" ? hours : header;
}

/** The unit written in a header: "Fresh wt (oz)", "fruiting temp °F", "LC mL", "dry_g", "Weight [g]", "temp in F". */
export function headerParts(header: string): HeaderParts {
  const full = withoutEachDay(header.replace(/\s+/g, " ").trim());
  const bracket = /^(.*?)\s*[([{]\s*([^()[\]{}]*?)\s*[)\]}]\s*(.*)$/.exec(full);
  if (bracket !== null) {
    const [, before, inside, behind] = bracket as unknown as [string, string, string, string];
    const name = `${before} ${behind}`.trim();
    const units = unitsNamed(inside.replace(/\/\s*(?:tray|bag|block)$|\bper (?:tray|bag|block)$/i, ""));
    return units.length > 0 ? { name, full: name, units } : { name, full, units: [] };
  }
  const tail = /^(.*?[\s_,:/-])\s*(?:in\s+)?((?:fl\.?\s?)?[a-z°µ%.]+\.?)$/i.exec(full);
  if (tail !== null) {
    const units = unitsNamed(tail[2]!);
    // "days to colonise (d)" states days, "Colonised day" names them: words of time are left in the name too
    if (units.length > 0) return { name: tail[1]!.replace(/[\s_,:/-]+(?:in\s*)?$/i, ""), full, units };
  }
  // "Fresh g total"
  const middle = /^(.+?)\s(\p{L}{1,5})\s(\p{L}+)$/u.exec(full);
  if (middle !== null && wordsOf(middle[3]!)[0] === "total") {
    const units = unitsNamed(middle[2]!);
    if (units.length > 0) return { name: `${middle[1]} ${middle[3]}`, full, units };
  }
  const sign = /^(.*?)\s*(°[CF]|%)$/.exec(full);
  if (sign !== null) return { name: sign[1]!, full: sign[1]!, units: unitsNamed(sign[2]!) };
  return { name: full, full, units: [] };
}

/** What a header asks that names its answers: "Contam Y/N", "Befallen (ja/nein)"; undefined for any other. */
function withoutYesNo(header: string): string | undefined {
  const [, asks, one = "", other = ""] =
    /^(.*\S)[\s_,:([-]+(\p{L}{1,4})\s?[/|]\s?(\p{L}{1,4})[\s)\]?]*$/u.exec(header) ?? [];
  const [first, second] = [yesOrNo(one), yesOrNo(other)];
  return first !== undefined && second === !first ? asks : undefined;
}

/** "Inoculated 2026" */
const ofYear = /^(.*\p{L}) \(?(?:19|20)\d\d\)?$/u;

/** "Dry weight, all flushes" */
const ofAll = /^(.*\p{L}\)?)[\s,]+\(?(?:of |over )?all (?:flushes|pick(?:ing)?s|harvests)\)?$/iu;

/** A header without what says nothing of what it names: the number of a second one, a year, that it is of all pickings, the answers it asks for. */
export function shorterName(header: string): string | undefined {
  const asks = withoutYesNo(header);
  // a second column of one name is numbered when it is opened
  const [, shorter] = /^(.*\S) \(\d\)$/.exec(header) ?? ofYear.exec(header) ?? ofAll.exec(header) ?? [];
  return shorter ?? (asks === undefined ? undefined : `${asks}?`);
}
