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
  let what = -1;
  for (let index = 0; index < names.length && what < 0; index++) {
    // a column of outcomes or grades holds words, but it has a name of its own
    if (isNamed(names[index]!, words)) continue;
    const cells = column(index);
    const different = new Set(cells.map((cell) => cell.toLowerCase()));
    if (different.size > cells.length / 2 || different.size < 2) continue;
    const isThing = new Set([...different].filter((cell) => isLabelLike(cell) && isName(cell)));
    const known = cells.filter((cell) => isThing.has(cell.toLowerCase()));
    const distinct = isThing.size;
    if (
      known.length >= 0.7 * cells.length &&
      cells.length >= 0.8 * rows.length &&
      distinct >= 2 &&
      distinct <= cells.length / 2
    )
      what = index;
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
  const named = left.filter((index) =>
    /^(?:values?|amount|measurement|reading|result|wert|valeur|valor|valore|waarde|wartość|menge)\b/i.test(
      names[index]!,
    ),
  );
  const flushes = left.filter(
    (index) => /\d/.test(names[index]!) && column(index).some((cell) => cellKind(cell) === "number"),
  );
  const numbers = left.filter(
    (index) =>
      words.columnSort(names[index]!) === undefined && column(index).some((cell) => cellKind(cell) === "number"),
  );
  const values = named.length > 0 ? named.slice(0, 1) : flushes.length > 1 ? flushes : numbers.slice(0, 1);
  if (values.length === 0) return undefined;
  return { tray: key, what, values, unit, others: left.filter((index) => !values.includes(index)) };
}

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
  /** trays of which one thing was said twice, so that they have several rows */
  twice: number;
}

/**
 * Turns a table of one thing a row into one of one tray a row. A thing said twice of a tray begins a further row of that
 * tray, as a further flush would; what stands beside the values is kept where a tray has one of it, and named after the
 * thing where it has several.
 */
export function pivotLong(
  names: ReadonlyArray<string>,
  rows: ReadonlyArray<SheetRow>,
  { tray, what, values, unit, others }: LongColumns,
  words: SheetWords,
): Pivoted {
  const at = (row: SheetRow, column: number): string => (column < 0 ? "" : (row.cells[column] ?? "").trim());
  const byTray = new Map<string, SheetRow[]>();
  let name = "";
  for (const row of rows) {
    // a tray's name may be typed once for all its things
    name = at(row, tray) || name;
    byTray.set(name, [...(byTray.get(name) ?? []), row]);
  }
  const flushColumn = others.find((column) => words.columnSort(names[column]!) === "flush");
  const constant = others.filter(
    (column) =>
      column !== flushColumn &&
      [...byTray.values()].every(
        (own) => new Set(own.map((row) => at(row, column)).filter((cell) => cell !== "")).size <= 1,
      ),
  );
  const varied = others.filter((column) => column !== flushColumn && !constant.includes(column));
  const header: string[] = [
    names[tray] || "tray",
    ...(flushColumn === undefined ? [] : [names[flushColumn]!]),
    ...constant.map((column) => names[column]!),
  ];
  const place = new Map<string, number>();
  const placeOf = (thing: string): number => {
    const key = thing.toLowerCase();
    let index = place.get(key);
    if (index === undefined) {
      index = header.length;
      header.push(thing);
      place.set(key, index);
    }
    return index;
  };
  // a day beside a fresh weight is the day of harvest
  const besideName = (thing: string, name: string, cell: string): string =>
    (cellKind(cell) === "date" ? words.dateOf(thing) : undefined) ?? `${thing} ${name}`;
  const made: SheetRow[] = [];
  let twice = 0;
  for (const [trayName, own] of byTray) {
    const lines = new Map<string, SheetRow[]>();
    const base = [
      trayName,
      ...constant.map((column) => own.map((row) => at(row, column)).find((cell) => cell !== "") ?? ""),
    ];
    let repeatedHere = false;
    for (const row of own) {
      const flush = flushColumn === undefined ? "" : at(row, flushColumn);
      const filled = lines.get(flush) ?? [];
      lines.set(flush, filled);
      const entries = values.flatMap((column): [string, string][] => {
        const value = at(row, column);
        const thing = values.length > 1 ? `${at(row, what)} ${names[column]}` : at(row, what);
        return value === "" ? [] : [[thing, withUnit(value, at(row, unit))]];
      });
      for (const column of varied)
        if (at(row, column) !== "")
          entries.push([besideName(at(row, what), names[column]!, at(row, column)), at(row, column)]);
      const places = entries.map(([thing]) => placeOf(thing));
      let line = filled.find(({ cells }) => places.every((index) => (cells[index] ?? "") === ""));
      if (line === undefined) {
        if (filled.length > 0) repeatedHere = true;
        const [first, ...rest] = base;
        line = { row: row.row, cells: flushColumn === undefined ? [...base] : [first!, flush, ...rest] };
        filled.push(line);
        made.push(line);
      }
      entries.forEach(([, value], index) => {
        line.cells[places[index]!] = value;
      });
    }
    if (repeatedHere) twice++;
  }
  const full = made.map(({ cells, row }) => ({
    row,
    cells: Array.from({ length: header.length }, (_, column) => cells[column] ?? ""),
  }));
  return { header, rows: full, twice };
}
