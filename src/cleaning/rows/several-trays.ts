import type { RawTable } from "../../records/sheet.ts";
import { isDigit } from "../../records/words/digits.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { trayKey } from "../trays/tray-key.ts";

/** A cell that names several trays. */
export interface SeveralTrays {
  /** their names, as `trayKey` folds them */
  keys: string[];
  /** nothing but several trays can be meant ("T1-T6"); other forms may be one name ("1-6" of cook 1) */
  sure: boolean;
  /** a range of more trays than one weight can be of */
  isTooMany?: true;
}

/** More trays than this on one scale are no pool but a slip. */
const mostTrays = 60;

const rangeWords = phrasesOf((words) => words.ranges).filter((word) => /^\p{L}+$/u.test(word) && word !== "a");
const joinWords = phrasesOf((words) => words.joins).filter((word) => /^\p{L}+$/u.test(word) && word.length > 1);
const end = "(\\p{L}{0,12})[ #.]?(\\d{1,6})";
const range = new RegExp(
  `^${end}(\\s*(?:[-–—]|\\.\\.\\.?|…)\\s*|\\s+(?:${rangeWords.join("|")}|[aà]|t/m)\\s+)${end}$`,
  "iu",
);
const join = new RegExp(`\\s*[,;+&/]\\s*|\\s+(?:${joinWords.join("|")}|y|e|i|u\\.?)\\s+`, "iu");
const item = new RegExp(`^${end}$`, "u");

/** Whether a name has any mark or word in it that could stand between two trays' numbers. */
function mayBeSeveral(text: string): boolean {
  for (let at = 1; at < text.length - 1; at++) {
    const code = text.charCodeAt(at);
    // space & × + , - . / ; and dashes
    if (code === 32 || code === 38 || code === 0xd7 || (code >= 43 && code <= 47) || code === 59 || code >= 0x2013)
      return true;
  }
  return false;
}

/** The number that begins at a place of a text. */
function numberAt(text: string, start: number): number {
  let number = 0;
  for (let at = start; isDigit(text.charCodeAt(at)); at++) number = 10 * number + text.charCodeAt(at) - 48;
  return number;
}

/** Whether the first and the last number of a name can be the ends of a range, be it "1-5000"; "C1-001" and "C84-1000" are names. */
function mayBeRange(text: string): boolean {
  let first = 0;
  while (first < text.length && !isDigit(text.charCodeAt(first))) first++;
  let last = text.length;
  while (last > first && isDigit(text.charCodeAt(last - 1))) last--;
  // leading zeros that the first number has not
  if (text.charCodeAt(last) === 48 && text.charCodeAt(first) !== 48) return false;
  const steps = numberAt(text, last) - numberAt(text, first);
  if (steps <= 0) return false;
  if (steps < mostTrays || first === 0) return true;
  // no weight is of that many trays, and no name of one looks so: a number first, or a letter at both
  return text.charCodeAt(last - 1) !== 45 && /\p{L}/u.test(text[last - 1]!);
}

function inRange(text: string): SeveralTrays | undefined {
  if (!mayBeRange(text)) return undefined;
  const match = range.exec(text);
  if (match === null) return undefined;
  const [, firstPrefix, first, between, lastPrefix, last] = match as unknown as [
    string,
    string,
    string,
    string,
    string,
    string,
  ];
  if (lastPrefix !== "" && lastPrefix.toLowerCase() !== firstPrefix.toLowerCase()) return undefined;
  const count = Number(last) - Number(first) + 1;
  if (count > mostTrays) return { keys: [], sure: lastPrefix !== "" && firstPrefix !== "", isTooMany: true };
  const keys = Array.from({ length: count }, (_, step) => trayKey(`${firstPrefix}${Number(first) + step}`));
  return { keys, sure: (lastPrefix !== "" && firstPrefix !== "") || /[\p{L}.…]/u.test(between) };
}

function inList(text: string): SeveralTrays | undefined {
  if (!/[,;+&/\s]/.test(text)) return undefined;
  const items = text.split(join).filter((one) => one !== "");
  if (items.length < 2 || items.length > mostTrays) return undefined;
  const found = items.map((one) => item.exec(one));
  if (found.some((match) => match === null)) return undefined;
  const prefix = found[0]![1]!;
  if (found.some((match) => match![1] !== "" && match![1]!.toLowerCase() !== prefix.toLowerCase())) return undefined;
  const keys = found.map((match) => trayKey(`${prefix}${match![2]}`));
  if (new Set(keys).size < keys.length) return undefined;
  // "9/10" may be tray 10 of cook 9; a plus, a comma or a word joins
  return { keys, sure: !/^[^,;+&\s]*\/[^,;+&\s]*$/.test(text) || (prefix !== "" && found[1]![1] !== "") };
}

const times = /^(.{1,20}?)(?:\s+[x×]\s?|\s*×\s*|\s*\([x×]\s?)(\d{1,2})\)?$/iu;

/** "A x3", "A ×3", "A (x3)": three trays under one name. */
function byCount(text: string): SeveralTrays | undefined {
  const match = /[x×]/i.test(text) ? times.exec(text) : null;
  const count = match === null ? 0 : Number(match[2]);
  if (count < 2 || count > mostTrays) return undefined;
  // trays without names of their own, which no other cell can speak of
  return { keys: Array.from({ length: count }, (_, at) => `${trayKey(match![1]!)} ×${at + 1}`), sure: true };
}

const stems = phrasesOf(({ tray }) => tray).map((word) => word.replace(/[aeiouy]$/, ""));
const onlyCount = new RegExp(`^(\\d{1,2})\\s+(?:${stems.join("|")})\\p{L}{0,3}$`, "iu");

/** How many trays a cell stands for that says nothing else of them: "4 trays", "3 Schalen"; 0 for any other. */
export function countOnly(text: string): number {
  // most names begin with a letter
  const first = text.charCodeAt(0);
  if (first > 57 && first < 128) return 0;
  const count = Number(onlyCount.exec(text.trim())?.[1] ?? 0);
  return count >= 2 && count <= mostTrays ? count : 0;
}

/**
 * The trays that a cell of names speaks of, where it speaks of several: "T1-T6", "2+3", "4,5,6", "7 and 8", "9/10",
 * "A x3".
 * @returns undefined for the name of one tray
 * @example severalTrays("T1-T3")?.keys // ["t1", "t2", "t3"]
 */
export function severalTrays(text: string): SeveralTrays | undefined {
  if (!mayBeSeveral(text)) return undefined;
  return inRange(text.trim()) ?? inList(text.trim()) ?? byCount(text.trim());
}

/**
 * Whether a name is plainly that of one tray, as most are: digits, single letters and hyphens that make no range. Then no
 * word, no flush and no count can be in it.
 * @example isOneTray("C1-001") // true
 */
export function isOneTray(text: string): boolean {
  let afterLetter = false;
  let hasHyphen = false;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (isDigit(code)) afterLetter = false;
    else if (code === 45 && at > 0) {
      afterLetter = false;
      hasHyphen = true;
    } else {
      const letter = code | 32;
      // F may stand for a flush, x for a count
      if (afterLetter || letter < 97 || letter > 122 || letter === 102 || letter === 120) return false;
      afterLetter = true;
    }
  }
  return text !== "" && !(hasHyphen && mayBeRange(text));
}

/** A column of counts has few different ones. */
const mostTexts = 200;
const partOfAll = /^(\d{1,2})\s*\/\s*(\d{1,2})$/;

/**
 * Whether different texts are all so many trays of so many ("5/6", "6/6"), rather than trays numbered out of all ("1/12",
 * "2/12"), pairs ("1/2", "3/4"), or trays of a cook ("9/10", "9/11").
 */
export function arePartsOfAll(texts: Iterable<string>): boolean {
  const parts = new Set<number>();
  const wholes = new Set<number>();
  let isFull = false;
  let count = 0;
  for (const text of texts) {
    const [, part, whole] = partOfAll.exec(text)?.map(Number) ?? [];
    if (part === undefined || part > whole! || whole! > mostTrays) return false;
    parts.add(part);
    wholes.add(whole!);
    isFull ||= part === whole;
    count++;
  }
  const isNumbered = parts.has(1) && !parts.has(0);
  const isGrid = wholes.size > 1 && count === parts.size * wholes.size;
  return !isNumbered && !isGrid && wholes.size <= parts.size && (isFull || wholes.size < count);
}

/** How names of several trays are taken in a table: each with its count of trays, as asked for one reason or another, or as plain names. */
export type PooledNames = ReadonlyMap<string, number | "asked" | "too many" | "parts">;

/** A name that looks like a range and is none: "1-1", "3-2", "T2-1". Then "1-2" beside it is a name as well. */
function isNameLikeRange(text: string): boolean {
  const [, , first, , prefix, last] = range.exec(text) ?? [];
  return prefix === "" && Number(last) <= Number(first);
}

/**
 * Decides on the cells of a column of names that may each name several trays. They do where none of them speaks of a tray
 * that another cell names too and none of the same form is plainly a name; else those that could be names ("1-2" beside
 * "1-1", "1-3" or "2-1") are.
 * @param isPinned the grower said that the column holds names
 */
export function pooledNames(table: RawTable, index: number, isPinned = false): PooledNames {
  const several = new Map<string, SeveralTrays>();
  const texts = new Set<string>();
  table.forEachRow((cells) => {
    const text = cells[index]!.trim();
    if (text !== "" && texts.size < mostTexts) texts.add(text);
    if (several.has(text)) return;
    const found = severalTrays(text);
    if (found !== undefined) several.set(text, found);
  });
  if (!isPinned && arePartsOfAll(texts)) return new Map([...texts].map((text) => [text, "parts"]));
  const speaking = new Map<string, number>();
  for (const { keys } of several.values()) for (const key of keys) speaking.set(key, (speaking.get(key) ?? 0) + 1);
  const single = new Set<string>();
  const unsure = [...several.values()].filter(({ sure }) => !sure);
  let areNames = unsure.some(({ keys }) => keys.some((key) => speaking.get(key)! > 1));
  table.forEachRow((cells) => {
    const text = cells[index]!.trim();
    if (text === "" || several.has(text)) return;
    const key = trayKey(text);
    if (speaking.has(key)) single.add(key);
    if (unsure.length > 0 && !areNames) areNames = isNameLikeRange(text);
  });
  const overlaps = ({ keys }: SeveralTrays): boolean => keys.some((key) => speaking.get(key)! > 1 || single.has(key));
  const taken = [...several].filter(([, { sure }]) => sure || !areNames);
  // "1-101", "1-102" are trays of cook 1; "1-5000" alone among other names is no name of one
  const many = taken.filter(([, { isTooMany, sure }]) => isTooMany === true && !sure);
  // "1-4" beside a row for tray 3
  return new Map(
    taken.flatMap(([text, found]): [string, number | "asked" | "too many"][] => {
      if (found.isTooMany === true) return found.sure || many.length === 1 ? [[text, "too many"]] : [];
      return [[text, overlaps(found) ? "asked" : found.keys.length]];
    }),
  );
}
