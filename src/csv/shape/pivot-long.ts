import { grouped } from "../../records/grouped.ts";
import { cellKind, isNothing } from "./cell-kind.ts";
import type { SheetRow } from "./grid.ts";
import type { SheetWords } from "./sheet-words.ts";
import { isLabelLike } from "./value-like.ts";

/** The columns of a table in which every row says one thing of one tray. */
export interface LongColumns {
  tray: number;
  /** names of things */
  what: number;
  values: number[];
  /** -1 where units have no column of their own */
  unit: number;
  others: number[];
}

function isNamed(name: string, words: SheetWords): boolean {
  const sort = name === "" ? undefined : words.columnSort(name, true);
  return sort === "result" || sort === "set" || sort === "tray";
}

const unitName = /^(?:units?|uom|einheit|unite|unité|unidad|unità|eenheid|jednostka|unidade)$/i;

/** Finds the columns of a long table; undefined where the table is none. */
export function longColumns(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  words: SheetWords,
): LongColumns | undefined {
  if (names.length < 3 || names.length > 9 || rows.length < 4) return undefined;
  const column = (index: number): string[] =>
    rows.map(({ cells }) => (cells[index] ?? "").trim()).filter((cell) => !isNothing(cell));
  const isName = (cell: string): boolean => {
    const sort = words.columnSort(cell, true);
    return sort !== undefined && sort !== "note";
  };
  let [what, areEvents] = [-1, false];
  for (let index = 0; index < names.length && what < 0; index++) {
    const cells = column(index);
    const different = new Set(cells.map((cell) => cell.toLowerCase()));
    if (different.size < 2) continue;
    const isThing = new Set([...different].filter((cell) => isLabelLike(cell) && isName(cell)));
    // a column of outcomes or grades holds words, but it has a name of its own; "What happened" may hold all that did
    const sorts = [...isThing].map((cell) => words.columnSort(cell, true));
    const tellsAll = sorts.includes("set") && sorts.includes("result");
    if (isNamed(names[index]!, words) && !tellsAll) continue;
    const known = cells.filter((cell) => isThing.has(cell.toLowerCase()));
    const distinct = isThing.size;
    if (
      known.length >= 0.7 * cells.length &&
      cells.length >= 0.8 * rows.length &&
      distinct >= 2 &&
      distinct <= cells.length / 2
    ) {
      what = index;
      areEvents = tellsAll;
    }
  }
  if (what < 0) return undefined;
  const tray = names.findIndex((name, index) => index !== what && name !== "" && words.columnSort(name) === "tray");
  const key = tray >= 0 ? tray : names.findIndex((_, index) => index !== what && isKey(column(index)));
  if (key < 0) return undefined;
  const unit = names.findIndex(
    (name, index) => index !== what && (unitName.test(name.trim()) || allUnits(column(index), words)),
  );
  const sortedOut = new Set([what, key, unit]);
  const left = names.map((_, index) => index).filter((index) => !sortedOut.has(index));
  const named = left.filter((index) => valueName.test(names[index]!));
  const flushes = left.filter(
    (index) => /\d/.test(names[index]!) && column(index).some((cell) => cellKind(cell) === "number"),
  );
  const numbers = left.filter(
    (index) =>
      words.columnSort(names[index]!) === undefined && column(index).some((cell) => cellKind(cell) === "number"),
  );
  const values = named.length > 0 ? named.slice(0, 1) : flushes.length > 1 ? flushes : numbers.slice(0, 1);
  // what happened, each on its day, beside columns of their own for what was measured
  const days = left.filter((index) => column(index).every((cell) => cellKind(cell) === "date"));
  const hasDay = days.length === 1 && column(days[0]!).length === rows.length;
  if (values.length === 0 && !(areEvents && hasDay && 4 * new Set(column(key)).size <= 3 * rows.length))
    return undefined;
  return { tray: key, what, values, unit, others: left.filter((index) => !values.includes(index)) };
}

const valueName = /^(?:values?|amount|measurement|reading|result|wert|valeur|valor|valore|waarde|wartość|menge)\b/i;

const isKey = (cells: ReadonlyArray<string>): boolean =>
  cells.length > 0 &&
  new Set(cells).size <= cells.length / 2 &&
  cells.every((cell) => cell.length < 20 && /\d/.test(cell));

const allUnits = (cells: ReadonlyArray<string>, words: SheetWords): boolean =>
  cells.length > 0 && cells.every((cell) => words.isUnit(cell));

const withUnit = (value: string, unit: string): string =>
  isNothing(unit) || !/^[~<>]?\s*[\d.,½¼¾]+$/.test(value) ? value : `${value} ${unit}`;

/** A long table turned into one row a tray. */
export interface Pivoted {
  header: string[];
  rows: SheetRow[];
}

const cellAt = (row: SheetRow, column: number): string => (column < 0 ? "" : (row.cells[column] ?? "").trim());

/** The rows of each tray, whose name may be typed once for all its things. */
function rowsByTray(rows: ReadonlyArray<SheetRow>, tray: number): Map<string, SheetRow[]> {
  let name = "";
  return grouped(rows, (row) => {
    name = cellAt(row, tray) || name;
    return name;
  });
}

const saysOneThing = (rows: ReadonlyArray<SheetRow>, column: number): boolean =>
  new Set(rows.map((row) => cellAt(row, column)).filter((cell) => cell !== "")).size <= 1;

/** The column of what only happened: things that are no names of columns, and have a value nowhere. */
const remarks = "Remark";

/** A row that puts another one right, in the eight languages, from memory. */
const correction = /^(?:correct|korrekt|korekt|correc|corre[zç]|rettific|popraw|rectif|fix|typo)/i;

/** What each row says, as pairs of a thing and its value; `varied` are columns that say something of the thing itself. */
function entryReader(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  { what, values, unit }: LongColumns,
  varied: ReadonlyArray<number>,
  words: SheetWords,
): (row: SheetRow) => [thing: string, value: string][] {
  const hasValue = (row: SheetRow): boolean => values.some((column) => !isNothing(cellAt(row, column)));
  const measured = new Set(rows.filter(hasValue).map((row) => cellAt(row, what).toLowerCase()));
  // a day beside a fresh weight is the day of harvest
  const besideName = (thing: string, name: string, cell: string): string => {
    const own = `${thing} ${name}`;
    if (cellKind(cell) !== "date") return own;
    const day = `${thing} date`;
    const isDay = words.columnSort(own) === undefined && words.columnSort(day) !== undefined;
    return words.dateOf(thing) ?? (isDay ? day : own);
  };
  return (row) => {
    const thing = cellAt(row, what);
    const said = values.map((column): [string, string] => [
      values.length > 1 ? `${thing} ${names[column]}` : thing,
      withUnit(cellAt(row, column), cellAt(row, unit)),
    ]);
    const beside = varied
      .map((column): [string, string] => {
        const [name, cell] = [names[column]!, cellAt(row, column)];
        const isOwn = values.length === 0 && cellKind(cell) !== "date" && words.columnSort(name) !== undefined;
        return [isOwn ? name : besideName(thing, name, cell), cell];
      })
      .filter(([, cell]) => cell !== "");
    const onlyHappened =
      thing !== "" &&
      !measured.has(thing.toLowerCase()) &&
      !beside.some(([name]) => words.columnSort(name) !== undefined);
    if (onlyHappened || (correction.test(thing) && words.columnSort(thing) === undefined))
      return [[remarks, [thing, ...said.map(([, cell]) => cell), ...beside.map(([, cell]) => cell)].join(" ")]];
    return [...said, ...beside].filter(([, value]) => value !== "");
  };
}

/** A header that grows by a column with each thing not met before, however it is capitalised. */
class GrowingHeader {
  private readonly places = new Map<string, number>();

  constructor(readonly names: string[]) {}

  placeOf(thing: string): number {
    const known = this.places.get(thing.toLowerCase());
    if (known !== undefined) return known;
    this.places.set(thing.toLowerCase(), this.names.length);
    return this.names.push(thing) - 1;
  }
}

/**
 * Turns a table of one thing a row into one of one tray a row. A thing said twice of a tray begins a further row of that
 * tray, as a further flush would; what is next to the values is kept where a tray has one of it, and named after the
 * thing where it has several.
 */
export function pivotLong(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  columns: LongColumns,
  words: SheetWords,
): Pivoted {
  const byTray = rowsByTray(rows, columns.tray);
  const flushColumn = columns.others.find((column) => words.columnSort(names[column]!) === "flush");
  const beside = columns.others.filter((column) => column !== flushColumn);
  const constant = beside.filter((column) => [...byTray.values()].every((own) => saysOneThing(own, column)));
  const entriesOf = entryReader(
    names,
    rows,
    columns,
    beside.filter((column) => !constant.includes(column)),
    words,
  );
  const header = new GrowingHeader([
    names[columns.tray] || "tray",
    ...(flushColumn === undefined ? [] : [names[flushColumn]!]),
    ...constant.map((column) => names[column]!),
  ]);
  const made: SheetRow[] = [];
  for (const [trayName, own] of byTray) {
    const ofTray = constant.map((column) => own.map((row) => cellAt(row, column)).find((cell) => cell !== "") ?? "");
    const lines = new Map<string, SheetRow[]>();
    for (const row of own) {
      const flush = flushColumn === undefined ? "" : cellAt(row, flushColumn);
      const filled = lines.get(flush) ?? [];
      lines.set(flush, filled);
      const entries = entriesOf(row).map(([thing, value]) => [header.placeOf(thing), value] as const);
      const isRemark = (place: number): boolean => header.names[place] === remarks;
      let line = filled.find(({ cells }) => entries.every(([place]) => isRemark(place) || (cells[place] ?? "") === ""));
      if (line === undefined) {
        line = { row: row.row, cells: [trayName, ...(flushColumn === undefined ? [] : [flush]), ...ofTray] };
        filled.push(line);
        made.push(line);
      }
      for (const [place, value] of entries) {
        const before = line.cells[place] ?? "";
        line.cells[place] = before === "" ? value : `${before}; ${value}`;
      }
    }
  }
  const full = made.map(({ cells, row }) => ({ row, cells: header.names.map((_, column) => cells[column] ?? "") }));
  return { header: header.names, rows: full };
}
