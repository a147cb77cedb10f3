import { cellKind, nameMask, tidy } from "./cell-kind.ts";
import type { SheetRow } from "./grid.ts";
import { namesUnits } from "./join-columns.ts";
import type { SheetWords } from "./sheet-words.ts";
import { isLabelLike, isValueLike } from "./value-like.ts";
import { namesOverColumns } from "./wide-names.ts";

type LooksLikeHeader = SheetWords["looksLikeHeader"];

/** The header of a sheet and the lines it came from. */
export interface FoundHeader {
  /** trimmed, line breaks and runs of spaces made one space */
  names: string[];
  /** row number of the first and of the last line of the header */
  firstRow: number;
  lastRow: number;
  /** the lines as they were, to know them again further down */
  lines: string[][];
}

const linesLookedAt = 40;
const rowsBelow = 12;
const unit =
  /^\(?\[?(?:mg|g|gr|gm|grams?|kg|kgs|kilos?|oz|ounces?|lbs?|pounds?|m[lL]|cc|l|litres?|liters?|fl\.? ?oz|tsp|tbsp|cups?|gal|°?\s?[cf]|deg\.? ?[cf]?|celsius|fahrenheit|d|days?|h|hrs?|hours?|min|mins|minutes|weeks?|%|pct|percent|date|text|number|no\.?|#|each|ea|pcs?|y\/n|yes\/no|\$|€|£|usd|eur|gbp|[dmy]{1,4}[./-][dmy]{1,4}[./-][dmy]{1,4})\]?\)?$/i;
const bracketed = /^(?:\([^()]{1,20}\)|\[[^[\]]{1,20}\])$/;

const plainData = /^[+-]?[\d.,]+$|^\p{L}{1,3}[-_ #./]?\d[\d\-_./]*$/u;

const filled = (cells: ReadonlyArray<string>): string[] => cells.filter((cell) => cell !== "");

/** What stands in a line of units where there is none: a dash, or the line's own name. */
const saysNoUnit = (cell: string): boolean => /^[-–—]$/.test(cell) || (cell !== "" && namesUnits(cell));

/** Whether a row under the names holds nothing but units. */
function isUnitsRow(cells: ReadonlyArray<string>): boolean {
  const some = filled(cells.map(tidy));
  const unitCells = some.filter((cell) => unit.test(cell) || bracketed.test(cell)).length;
  return unitCells > 0 && some.every((cell) => unit.test(cell) || bracketed.test(cell) || saysNoUnit(cell));
}

/** Name and the line under it: "Fresh wt" and "(g)" make "Fresh wt (g)". */
const joinLines = (upper: ReadonlyArray<string>, lower: ReadonlyArray<string>): string[] =>
  Array.from({ length: Math.max(upper.length, lower.length) }, (_, column) => {
    const below = lower[column] ?? "";
    return saysNoUnit(below) ? (upper[column] ?? "") : tidy(`${upper[column] ?? ""} ${below}`);
  });

/** A line of group names over several columns each: every name reaches to the next one. */
function spread(cells: ReadonlyArray<string>, width: number): string[] {
  let name = "";
  return Array.from({ length: width }, (_, column) => {
    name = (cells[column] ?? "") || name;
    return name;
  });
}

/** Names that say little without their group's. */
const generic = /^(?:date|datum|fecha|data|weight|wt|amount|qty|volume|vol|time|days?|no\.?|#|type|by|total)$/i;

/**
 * Names under a line of group names: each takes its group's name where that is needed to know it or to tell it apart.
 * "Inoculum" over "ml" and "date", "Harvest" over "fresh" and "note": Inoculum ml, Inoculum date, Harvest fresh, note.
 */
function underHeads(heads: ReadonlyArray<string>, names: ReadonlyArray<string>, known: LooksLikeHeader): string[] {
  const groups = spread(heads, Math.max(heads.length, names.length));
  const times = new Map<string, number>();
  for (const name of names) times.set(name.toLowerCase(), (times.get(name.toLowerCase()) ?? 0) + 1);
  return groups.map((group, column) => {
    const name = names[column] ?? "";
    if (name === "") return heads[column] ?? "";
    if (group === "") return name;
    const joined = tidy(`${group} ${name}`);
    if (times.get(name.toLowerCase())! > 1 || (isUnitsRow([name]) && !generic.test(name))) return joined;
    // "Date" under a group that says nothing of it stays "Date"
    const mayStand = generic.test(name) ? known([joined]) === 0 : known([name]) > 0 || known([joined]) === 0;
    return mayStand ? name : joined;
  });
}

/** The names of two lines: each its own with the one below it, or, where more of them are known so, groups over names. */
function namesOver(upper: string[], lower: string[], known: LooksLikeHeader | undefined): string[] {
  const joined = joinLines(upper, lower);
  if (known === undefined || isUnitsRow(lower)) return joined;
  const grouped = underHeads(upper, lower, known);
  return known(grouped) > known(joined) ? grouped : joined;
}

/** Whether the line under names of which some are equal tells those apart, in words the trade knows. */
function tellsNamesApart(names: string[], below: string[], known: LooksLikeHeader | undefined): boolean {
  const joined = joinLines(names, below);
  return (
    known !== undefined &&
    repeats(names) > 0 &&
    repeats(joined) < repeats(names) &&
    below.every((cell, column) => cell === "" || (names[column] ?? "") !== "") &&
    known(joined) >= known(names)
  );
}

/** What a cell is, to compare it with others: words alike, numbers by whether they carry a unit, codes by their pattern. */
const sameLook = (cell: string): string => {
  const kind = cellKind(cell);
  return kind === "text" || kind === "blank" ? kind : `${kind} ${nameMask(cell).replace(/9(?:[.,]9)+/g, "9")}`;
};

/** Whether a row with a number or a code in it looks, column by column, just like most rows below it. */
function isLikeRowsBelow(rows: ReadonlyArray<SheetRow>, at: number): boolean {
  const { cells } = rows[at]!;
  const below = rows.slice(at + 1, at + 1 + rowsBelow);
  if (below.length === 0 || !cells.some((cell) => cell !== "" && isValueLike(cell))) return false;
  // doses over columns look like the weights under them
  if (namesOverColumns(cells).length > 0 && below.every((row) => namesOverColumns(row.cells).length === 0))
    return false;
  return cells.every((cell, column) => {
    if (cell === "") return true;
    const looks = below
      .map((row) => row.cells[column] ?? "")
      .filter((under) => under !== "")
      .map(sameLook);
    return looks.length > 0 && looks.filter((look) => look === sameLook(cell)).length >= looks.length / 2;
  });
}

/** "#Strain:" beside its value, "Cooked:" beside a day: a line that tells one thing of the whole sheet. */
const isKeyLine = ([key = "", ...values]: ReadonlyArray<string>): boolean =>
  values.length === 1 && (/[:=]$/.test(key) || /^#\s*\p{L}/u.test(key)) && !/[:=]$/.test(values[0]!);

const repeats = (names: ReadonlyArray<string>): number => {
  const some = filled(names).map((name) => name.toLowerCase());
  return some.length - new Set(some).size;
};

/** Whether a cell of a row may be a name: by itself, or as one of amounts or numbered names that stand over columns. */
function namesIn(cells: ReadonlyArray<string>): (cell: string) => boolean {
  const over = new Set(namesOverColumns(cells).map((column) => cells[column]!));
  return (cell) => over.has(cell) || isLabelLike(cell);
}

function score(rows: ReadonlyArray<SheetRow>, at: number, width: number, known: LooksLikeHeader | undefined): number {
  const cells = rows[at]!.cells;
  const some = filled(cells);
  const isName = namesIn(cells);
  const labels = some.filter(isName).length;
  if (labels === 0) return 0;
  const below = rows.slice(at + 1, at + 1 + rowsBelow);
  let contrast = 0;
  cells.forEach((cell, column) => {
    if (cell === "" || !isName(cell)) return;
    const under = filled(below.map((row) => row.cells[column] ?? ""));
    if (under.length > 0 && under.filter(isValueLike).length > under.length / 2) contrast++;
  });
  const upper = rows[at - 1];
  const lower = rows[at + 1];
  const row = rows[at]!.row;
  // units under names are no names
  const underNames = upper?.row === row - 1 && isUnitsRow(cells) && filled(upper.cells).some(isLabelLike) ? 2 : 0;
  // names that stand over several columns are kept apart in the line below
  const goesOn =
    lower?.row === row + 1 &&
    !filled(lower.cells).some(isValueLike) &&
    !isUnitsRow(lower.cells) &&
    lower.cells.some((cell, column) => cell !== "" && (cells[column] ?? "") === "")
      ? 0.5
      : 0;
  return (
    some.length / Math.max(width, some.length) +
    1.5 * (labels / some.length) +
    0.5 * (new Set(some).size / some.length) +
    contrast / some.length +
    3 * (known?.(cells) ?? 0) -
    // a word that stands alone in a wide sheet is a title
    (some.length === 1 && width >= 3 ? 2.5 : 0) -
    underNames -
    goesOn -
    // of equals, the upper one
    0.02 * at
  );
}

/** Whether a row names columns that the rows right below it, up to a blank one, fill with values. */
function heads(rows: ReadonlyArray<SheetRow>, at: number, before: number, known: LooksLikeHeader | undefined): boolean {
  const { cells, row } = rows[at]!;
  const some = filled(cells);
  if (some.length < 2 || some.filter(isLabelLike).length < 0.8 * some.length || isKeyLine(some)) return false;
  const below: SheetRow[] = [];
  for (let index = at + 1; index < before && rows[index]!.row === row + index - at; index++) {
    if (!isUnitsRow(rows[index]!.cells)) below.push(rows[index]!);
  }
  const values = below.filter(({ cells: under }) => filled(under).filter(isValueLike).length >= 0.5 * some.length);
  if (values.length > 0 && values.length >= below.length / 2) return true;
  // with names that are known, less is needed: lost trays have few values
  return below.some(({ cells: under }) => filled(under).some(isValueLike)) && (known?.(cells) ?? 0) >= 0.6;
}

/**
 * Finds the header among the first rows of a sheet by what they hold: names rather than values, all different, one for
 * most columns, values below them, and words the caller knows. A units line under the names, a name that goes on in
 * the next line, and group names that tell equal names apart are joined to it with a space.
 * @param rows the first rows that are not blank, top to bottom
 * @returns undefined where no row reads like a header
 */
export function findHeader(rows: ReadonlyArray<SheetRow>, words?: SheetWords): FoundHeader | undefined {
  const known = words?.looksLikeHeader;
  const looked = rows.slice(0, linesLookedAt + rowsBelow).map(({ cells, row }) => ({ cells: cells.map(tidy), row }));
  const widths = looked.map(({ cells }) => filled(cells).length).sort((a, b) => a - b);
  const width = widths[Math.floor(widths.length * 0.75)] ?? 0;
  // names of ours are whole: nothing but units belongs to them
  const isOurs = (cells: string[]) => filled(cells).length > 1 && words?.isTidy(filled(cells)) === true;
  let at = -1;
  let best = 0;
  for (let index = 0; index < Math.min(looked.length, linesLookedAt); index++) {
    const here = score(looked, index, width, known);
    if (here > best) [at, best] = [index, here];
  }
  // the head of a list of settings is no title, whatever its first setting looks like
  const settings = looked.findIndex(({ cells }) => cells[0] === "key" && cells[1] === "value");
  if (settings >= 0) at = settings;
  // of two tables in one sheet the upper one comes first
  for (let index = 0; index < at; index++) {
    if (heads(looked, index, at, known) || isOurs(looked[index]!.cells)) at = index;
  }
  const header = looked[at];
  if (header === undefined) return undefined;
  const some = filled(header.cells);
  const knownHere = known?.(header.cells) ?? 0;
  // numbers and item codes are data; doses or dates over columns ("2 mL", "2026-03-04") may be names
  const isData =
    some.filter(namesIn(header.cells)).length < some.length / 2 && some.some((cell) => plainData.test(cell));
  if (isData && knownHere < 0.4) return undefined;
  if (knownHere < 0.5 && isLikeRowsBelow(looked, at)) return undefined;

  const found: FoundHeader = { names: header.cells, firstRow: header.row, lastRow: header.row, lines: [header.cells] };
  if (at === settings) return found;
  const adjacent = (index: number, row: number) => (looked[index]?.row === row ? looked[index].cells : undefined);
  const below = adjacent(at + 1, header.row + 1);
  const above = adjacent(at - 1, header.row - 1);
  const betterKnown = (names: string[]) => known !== undefined && known(names) > knownHere + 0.1;
  const isText = (cells: string[]) => filled(cells).length > 1 && !filled(cells).some(isValueLike);

  if (
    below !== undefined &&
    (isUnitsRow(below) ||
      (!isOurs(header.cells) &&
        isText(below) &&
        (betterKnown(joinLines(header.cells, below)) || tellsNamesApart(header.cells, below, known))))
  ) {
    found.names = namesOver(header.cells, below, known);
    found.lastRow = header.row + 1;
    found.lines.push(below);
  }
  if (above !== undefined && !isOurs(header.cells) && isText(above)) {
    const grouped =
      known === undefined
        ? joinLines(spread(above, header.cells.length), found.names)
        : underHeads(above, found.names, known);
    const tellsApart = repeats(found.names) > 0 && repeats(grouped) < repeats(found.names);
    const continued = joinLines(above, found.names);
    const headed =
      known !== undefined &&
      grouped.join("\n") !== found.names.join("\n") &&
      header.cells.some((cell, column) => cell !== "" && (above[column] ?? "") === "") &&
      known(grouped) >= known(found.names);
    if (tellsApart || headed || betterKnown(continued)) {
      found.names = tellsApart || headed ? grouped : continued;
      found.firstRow = header.row - 1;
      found.lines.unshift(above);
    }
  }
  return found;
}
