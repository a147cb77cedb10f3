import { appendAll } from "../records/append-all.ts";
import { type HarvestFieldKey, isWeightField } from "../records/harvest-field.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { RawTable, Remark } from "../records/sheet.ts";
import { withRows } from "../records/with-rows.ts";
import { fold } from "../records/words/fold.ts";
import { meaningsOfHeader } from "./columns/match-columns.ts";
import type { MeaningsOf } from "./columns/remembered-meanings.ts";
import { leaveRows } from "./leave-rows.ts";
import { trayKey } from "./trays/tray-key.ts";
import { readOutcome } from "./values/outcome-words.ts";

/** What marks of the cells stand for, by the folded mark: "g" for "green mould". */
type Legend = ReadonlyMap<string, string>;

interface Explained {
  mark: string;
  meaning: string;
}

const heading = /^\p{L}[\p{L} ]{2,20}:\s+(?=.*(?:=|:|→|->|\s[-–—]\s))/u;
const explains = /^(.{1,16}?)\s*(?:=|:|→|->|\s[-–—]\s)\s*(\S.{0,60})$/u;
/** "H harvested / C contaminated": capitals before their words, several on a line */
const capital = /^(\p{Lu}{1,2})\s+(\p{Ll}.{2,60})$/u;
const volume = /^\d[\d.,½¼¾]*\s*(?:m[lL]s?|cc|ML|Ml)$/u;
/** Names that many trays share, which have to stay what they are. */
const shared: ReadonlySet<HarvestFieldKey> = new Set<HarvestFieldKey>(["batch", "load", "jar", "shelf", "chamber"]);

const keyOf = (text: string): string => fold(text) || text.trim();

/** The marks that a line explains: "G = green mould", "L = 4 mL; H = 8 mL", or a mark and its meaning in two cells. */
function explainedBy({ cells }: Remark): Explained[] {
  const [first = "", second = ""] = cells;
  if (cells.length === 2 && !/[=:]/.test(first + second) && first.length <= 12)
    return [{ mark: first, meaning: second }];
  const parts = cells
    .join("; ")
    .replace(heading, "")
    .split(/\s*[;,]\s+|\s+[/|]\s+|\s{3,}/);
  const found = parts.map(
    (part) => explains.exec(part.trim()) ?? (parts.length > 1 ? capital.exec(part.trim()) : null),
  );
  const told = found.filter((match) => match !== null);
  // "A = 5 ml, no bran"
  if (told.length === 1 && found[0] !== null) {
    const [, mark = "", meaning = ""] = found[0]!;
    return [{ mark: mark.trim(), meaning: [meaning.trim(), ...parts.slice(1).map((part) => part.trim())].join(", ") }];
  }
  return told.length < found.length
    ? []
    : told.map(([, mark, meaning]) => ({ mark: mark!.trim(), meaning: meaning!.trim() }));
}

/** The marks that lines beside a table explain; none where one mark is explained twice. */
function legendOf(explained: ReadonlyArray<Explained>): Legend {
  const legend = new Map<string, string>();
  for (const { mark, meaning } of explained) {
    const before = legend.get(keyOf(mark));
    if (before !== undefined && before !== meaning) return new Map();
    legend.set(keyOf(mark), meaning);
  }
  return legend;
}

interface MarkedColumn {
  column: number;
  /** of its cells, those the legend explains, and those it does not */
  marked: number;
  others: number;
}

/** The one column that a legend's marks stand in, as its whole cells; a title's own words explain none of those it gave. */
function columnOf(table: RawTable, markOf: (column: number, cell: string) => string | undefined): number | undefined {
  const titled = table.plan?.assumptions.find(({ rule }) => rule === "section-titles")?.columns ?? [];
  const columns = table.header.flatMap((name, column): MarkedColumn[] =>
    titled.includes(name) ? [] : [{ column, marked: 0, others: 0 }],
  );
  table.forEachRow((cells) => {
    for (const count of columns) {
      const cell = cells[count.column]!;
      if (cell.trim() === "") continue;
      if (markOf(count.column, cell) === undefined) count.others++;
      else count.marked++;
    }
  });
  const found = columns.filter(({ marked }) => marked > 0);
  const whole = found.filter(({ others }) => others === 0);
  const [only, second] = whole.length > 0 ? whole : found;
  return second === undefined ? only?.column : undefined;
}

/** Where the meanings of marks are read: in place of them, or beside them in a column of its own under a name. */
function placeOf(
  name: string,
  isTray: boolean,
  meanings: ReadonlyArray<string>,
  spoken: ReadonlySet<HarvestFieldKey>,
  meaningsOf: MeaningsOf,
): { inPlace: boolean; name: string } | undefined {
  const fields = meaningsOf(name).map(({ field }) => field);
  const areDoses = meanings.every((meaning) => volume.test(meaning));
  const isDose = meaningsOf(`${name} (mL)`).some(({ field }) => field === "inoculum_ml");
  if (areDoses && isDose) return { inPlace: true, name };
  if (areDoses) return spoken.has("inoculum_ml") ? undefined : { inPlace: false, name: "Inoculum" };
  if (isTray) return { inPlace: false, name: "Note" };
  const areOutcomes = meanings.every((meaning) => readOutcome(meaning) !== undefined);
  if (areOutcomes && !spoken.has("outcome") && !fields.some(isWeightField)) return { inPlace: true, name: "Outcome" };
  return fields.some((field) => shared.has(field)) ? undefined : { inPlace: true, name };
}

/** A legend that a column is read by. */
interface ReadLegend {
  column: number;
  explained: ReadonlyArray<Explained>;
  place: NonNullable<ReturnType<typeof placeOf>>;
  meaningOf(cell: string): string | undefined;
}

// In the eight languages, from memory.
const meansWord =
  /^(?:means?|meanings?|stands for|bedeutung|signification|significado|significato|betekenis|znaczenie)$/i;

/** The marks that a sheet of two columns or rows, "Code, Meaning", explains; none of any other, or of numbers. */
function explainedIn({ header, forEachRow }: RawTable): Explained[] {
  const rows: string[][] = [];
  forEachRow((cells) => rows.length < 50 && rows.push([...cells]));
  const isAcross = rows.length === 1 && meansWord.test(rows[0]![0]!.trim());
  const [names, pairs] = isAcross
    ? [[header[0]!, rows[0]![0]!], header.slice(1).map((name, at) => [name, rows[0]![at + 1]!])]
    : [header, rows];
  if (names.length !== 2 || !meansWord.test(names[1]!.trim())) return [];
  const explained = pairs.map(([mark = "", meaning = ""]) => ({ mark: mark.trim(), meaning: meaning.trim() }));
  return explained.every(({ mark, meaning }) => /^\D{1,12}$/.test(mark) && meaning !== "") ? explained : [];
}

/** Sheets apart that explain the marks of others, by which these are read: what they explain, and the sheets without them. */
export function keyTabs(
  tables: ReadonlyArray<RawTable>,
  mayRead: boolean,
  meaningsOf: MeaningsOf,
): { kept: RawTable[]; keys: Explained[]; leftOut: LeftOutRow[]; files: Set<string> } {
  const [keys, leftOut]: [Explained[], LeftOutRow[]] = [[], []];
  const used = tables.filter((table) => {
    const own = mayRead && tables.length > 1 ? explainedIn(table) : [];
    const isUsed = tables.some((other) => other !== table && legendIn(other, meaningsOf, own) !== undefined);
    if (own.length === 0 || !isUsed) return false;
    appendAll(keys, own);
    leaveRows(table, "it explains marks of another sheet, which are read so", leftOut);
    return true;
  });
  const kept = tables.filter((table) => !used.includes(table));
  return { kept, keys, leftOut, files: new Set(used.map(({ file }) => file)) };
}

function legendIn(table: RawTable, meaningsOf: MeaningsOf, keys: ReadonlyArray<Explained>): ReadLegend | undefined {
  const explained = [...(table.remarks ?? []).flatMap(explainedBy), ...keys];
  const legend = legendOf(explained);
  if (legend.size === 0) return undefined;
  const meant = table.header.map((name) => meaningsOf(name));
  const trays = [...meant.keys()].filter((index) => meant[index]!.some(({ field }) => field === "tray_id"));
  const tray = trays.find((index) => meant[index]!.length === 1 && meant[index]![0]!.rank > 1) ?? trays[0];
  // "2: lid off" may be a footnote of that number
  const names = new Map([...legend.keys()].flatMap((mark) => (/^\d+$/.test(mark) ? [] : [[trayKey(mark), mark]])));
  /** "A" under "Cook" is what "Cook A" stands for, too. */
  const markOf = (column: number, cell: string): string | undefined => {
    const own = [keyOf(cell), `${fold(table.header[column]!)} ${keyOf(cell)}`];
    return (column === tray ? [names.get(trayKey(cell)) ?? ""] : own).find((mark) => legend.has(mark));
  };
  const column = columnOf(table, markOf);
  if (column === undefined) return undefined;
  const spoken = new Set(meant.flat().map(({ field }) => field));
  const place = placeOf(table.header[column]!, column === tray, [...legend.values()], spoken, meaningsOf);
  if (place === undefined) return undefined;
  return { column, explained, place, meaningOf: (cell) => legend.get(markOf(column, cell) ?? "") };
}

/**
 * Gives marks in cells the meaning that a legend beside the table states: "G" under "Code" is green mould, "L" under "Dose"
 * is 4 mL, where the lines above or under the rows say so.
 */
export function withLegends(
  tables: ReadonlyArray<RawTable>,
  meaningsOf: MeaningsOf = meaningsOfHeader,
  keys: ReadonlyArray<Explained> = [],
): { tables: RawTable[]; issues: Issue[] } {
  const issues: Issue[] = [];
  const read = tables.map((table): RawTable => {
    const found = legendIn(table, meaningsOf, keys);
    if (found === undefined) return table;
    const { column, explained, place, meaningOf } = found;
    const { file, header } = table;
    issues.push(
      logEntry({
        file,
        row: table.remarks?.[0]?.row ?? 0,
        column: header[column]!,
        raw: explained.map(({ mark, meaning }) => `${mark} = ${meaning}`).join("; "),
        result: place.name,
        rule: "legend",
        severity: "note",
        reason: "lines beside the table, or a sheet of marks, say what those of the column stand for: each is read so",
        action: "State section_titles = ignore in settings.csv if that is wrong",
        setting: "section_titles",
      }),
    );
    const named = header.map((name, index) => (index === column ? place.name : name));
    return withRows(table, place.inPlace ? named : [...header, place.name], (cells) => {
      const meaning = meaningOf(cells[column]!);
      if (!place.inPlace) cells.push(meaning ?? "");
      else if (meaning !== undefined) cells[column] = meaning;
      return cells;
    });
  });
  return { tables: read, issues };
}
