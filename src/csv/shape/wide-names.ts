import type { RawTable } from "../../records/sheet.ts";
import { withRows } from "../../records/with-rows.ts";
import { withoutOrdinal } from "../../records/words/flush-words.ts";
import { fold } from "../../records/words/fold.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { cellKind, isNothing, numberIn } from "./cell-kind.ts";
import type { SheetRow } from "./grid.ts";
import type { SheetWords } from "./sheet-words.ts";
import { namesSummary } from "./summary-words.ts";

const amount = /^[~<>≤≥]?(\d+(?:[.,]\d+)?)\s*(\p{L}{1,5}|%|°\s?[CF])$/u;
const numbered = /^(.*\p{L})[\s_.#-]*(\d{1,3}|(?<=[\s_.#-])\p{Lu})$/u;

const months = new Set(phrasesOf((words) => words.months.replaceAll(",", "|")));
/** "12 Mar" is a day, and no amount of anything. */
const isMonth = (unit = ""): boolean => months.has(fold(unit));

/** A name with a number or letter of its own: "rep 1", "Batch A". */
export function numberedName(name: string): { stem: string; code: string } | undefined {
  const match = numbered.exec(name.trim());
  return match === null ? undefined : { stem: match[1]!.trim(), code: match[2]! };
}

/** The unit that names share of which two at least, and half of all, are amounts: "5 mL", "10 mL". */
export function sharedUnit(names: ReadonlyArray<string>): { unit: string; columns: number[] } | undefined {
  const units = names
    .map((name) => amount.exec(name.trim())?.[2]?.toLowerCase())
    .map((unit) => (isMonth(unit) ? undefined : unit));
  const unit = units.find((one) => one !== undefined);
  if (unit === undefined) return undefined;
  const columns = units.flatMap((own, column) => (own === unit ? [column] : []));
  const named = names.filter((name) => name !== "").length;
  return columns.length >= 2 && columns.length >= named / 2 ? { unit, columns } : undefined;
}

/** Cells of a row that look like values and may be names over columns: amounts of one unit, or one word numbered. */
export function namesOverColumns(cells: ReadonlyArray<string>): number[] {
  const shared = sharedUnit(cells);
  // weights side by side are data
  if (shared !== undefined && !/^(?:[mcd]?l|cc)$/.test(shared.unit)) return [];
  if (shared !== undefined)
    return new Set(shared.columns.map((column) => cells[column])).size === shared.columns.length ? shared.columns : [];
  const parts = cells.map(numberedName);
  const stem = parts.findLast((_, column) => !namesSummary(cells[column]!))?.stem.toLowerCase() ?? "";
  const columns = parts.flatMap((part, column) => (part?.stem.toLowerCase() === stem ? [column] : []));
  const isSeries =
    (stem.length >= 2 || (columns.length >= 3 && !columns.includes(0))) &&
    columns.length >= 2 &&
    columns.length >= cells.filter((cell) => cell !== "").length / 2;
  return isSeries && new Set(columns.map((column) => parts[column]!.code)).size === columns.length ? columns : [];
}

/** Columns headed by the days or weeks of pickings: the names they get, and the day over each. */
interface PickingColumns {
  names: string[];
  /** by the name of its column */
  days: ReadonlyMap<string, string>;
}

// In the eight languages, from memory.
const dayOfRun = /^(?:day|d|tag|jour|j|d[ií]a|giorno|dag|dzie[nń])\s?\d{1,3}$/iu;
const weekOfRun = /^(?:wk|week|w|kw|woche|semaine|sem|semana|settimana|sett|tydzie[nń]|tydz)\.?\s?\d{1,2}$/iu;
/** "12 Mar"; not "Weigh 3" */
const isDate = (name: string): boolean =>
  (cellKind(name) === "date" && (name.match(/\p{L}{3,}/gu) ?? []).every(isMonth)) ||
  /^\d{1,2}[./-]\d{1,2}\.?$/.test(name);
/** Shares, temperatures and counts are smaller, most trays' best picking is larger. Common practice, no source. */
const surelyWeight = 100;
/** What every tray keeps no more of than this was dried, not picked again. Common practice, no source. */
const leastLeft = 0.15;

/** Whether columns of numbers hold weights of pickings: by a unit or a title, or by their size; and not what grew from one to the next. */
function arePickings(columns: ReadonlyArray<number>, rows: ReadonlyArray<SheetRow>, isStated: boolean): boolean {
  const cells = rows.map(({ cells: own }) => columns.map((at) => own[at] ?? "").filter((cell) => !isNothing(cell)));
  const numbers = cells.map((own) => own.flatMap((cell) => numberIn(cell) ?? []));
  const all = numbers.flat();
  if (all.length < 3 || all.length < 0.6 * cells.flat().length) return false;
  const several = numbers.filter((own) => own.length > 1);
  const grows = several.every((own) => own.every((value, at) => at === 0 || value >= own[at - 1]!));
  const dries = several.every((own) => own.at(-1)! <= leastLeft * own[0]!);
  const large = numbers.filter((own) => own.some((value) => value > surelyWeight));
  return !grows && !dries && (isStated || 2 * large.length >= numbers.length);
}

/**
 * Columns headed by days ("12 Mar", "Day 44 g") that hold what was picked then, as flushes in their order; and a bare "g"
 * right of the day of a flush ("1st flush", "g") as that flush's weight. Undefined where there are none.
 * @param title of the table, "" where it has none
 */
function pickingColumns(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  words: SheetWords,
  title: string,
): PickingColumns | undefined {
  const beside = names.map((name, at) => {
    const unit = words.massUnit(name);
    const left = names[at - 1] ?? "";
    const isDay = (): boolean => rows.some(({ cells }) => cellKind(cells[at - 1] ?? "") === "date");
    return unit?.name === "" && withoutOrdinal(left) !== undefined && isDay() ? `${left} ${unit.unit}` : name;
  });
  const parts = names.map((name) => words.massUnit(name) ?? { name, unit: "" });
  const columns = parts.flatMap(({ name }, at) =>
    weekOfRun.test(name) || ((isDate(name) || dayOfRun.test(name)) && words.columnSort(names[at]!) === undefined)
      ? [at]
      : [],
  );
  const isStated =
    words.dateOf(title) === "harvested_on" ||
    words.massUnit(title) !== undefined ||
    columns.every((at) => parts[at]!.unit !== "");
  const hasWeight = names.some((name) => words.dateOf(name) === "harvested_on");
  const isRead =
    columns.length > 1 && columns.length < 10 && (isStated || !hasWeight) && arePickings(columns, rows, isStated);
  if (!isRead) return beside.every((name, at) => name === names[at]) ? undefined : { names: beside, days: new Map() };
  const isDry = title
    .split(/[^\p{L}]+/u)
    .some((word) => [word, `${word} weight`].some((name) => words.dateOf(name) === "dried_on"));
  const named = (at: number): string =>
    [`Flush ${columns.indexOf(at) + 1}`, ...(isDry ? ["dry"] : []), parts[at]!.unit].join(" ").trim();
  return {
    names: names.map((name, at) => (columns.includes(at) ? named(at) : name)),
    days: new Map(columns.map((at) => [named(at), parts[at]!.name])),
  };
}

/**
 * The names of a header in which a day and what was weighed then come again to the right ("Date, Fresh, Date, Fresh"), each
 * of its flush; undefined where none do.
 */
function flushBlocks(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  words: SheetWords,
): string[] | undefined {
  const keys = names.map((name) => name.trim().toLowerCase());
  const isDay = (at: number): boolean => {
    const cells = rows.map(({ cells: own }) => own[at] ?? "").filter((cell) => !isNothing(cell));
    return cells.length > 0 && cells.every((cell) => cellKind(cell) === "date");
  };
  const isWeight = (name: string): boolean =>
    words.columnSort(name, true) === "result" && ["harvested_on", "dried_on"].includes(words.dateOf(name) ?? "");
  for (let start = 0; start < keys.length; start++) {
    for (let length = 2; start + 2 * length <= keys.length && length <= 4; length++) {
      const block = keys.slice(start, start + length);
      let times = 1;
      while (block.every((key, at) => key !== "" && keys[start + times * length + at] === key)) times++;
      const days = block.flatMap((_, at) => (isDay(start + at) ? [start + at] : []));
      if (times < 2 || days.length !== 1 || !block.some(isWeight)) continue;
      return names.map((name, at) => {
        const flush = Math.floor((at - start) / length) + 1;
        if (at < start || flush > times) return name;
        return `Flush ${flush} ${(at - start) % length === days[0]! - start ? "date" : name}`;
      });
    }
  }
  return undefined;
}

/**
 * Names columns of pickings by their flushes: those headed by days, and those that come again to the right.
 * @param say tells which names were changed to which, and why
 */
export function nameFlushes(
  names: string[],
  rows: ReadonlyArray<SheetRow>,
  words: SheetWords,
  title: string,
  say: (from: ReadonlyArray<string>, to: ReadonlyArray<string>, why: string) => void,
): { names: string[]; days?: PickingColumns["days"] } {
  const blocks = flushBlocks(names, rows, words);
  if (blocks !== undefined) say(names, blocks, "a day and what was weighed come again to the right");
  const picked = pickingColumns(blocks ?? names, rows, words, title);
  if (picked === undefined) return { names: blocks ?? names };
  const { days } = picked;
  if (days.size > 0)
    say([...days.values()], [...days.keys()], "columns headed by days or weeks hold what was picked then");
  return picked;
}

/** Gives each flush headed by its day a column of that day, for the trays that were picked then. */
export function withPickingDays(table: RawTable, days: PickingColumns["days"]): RawTable {
  const dated = [...days].filter(([, day]) => isDate(day));
  const columns = dated.map(([name]) => table.header.indexOf(name));
  if (dated.length === 0) return table;
  return withRows(table, [...table.header, ...dated.map(([name]) => `${/^\w+ \d/.exec(name)![0]} date`)], (cells) => {
    const own = columns.map((at, index) => (isNothing(cells[at]!) ? "" : dated[index]![1]));
    return [...cells, ...own];
  });
}
