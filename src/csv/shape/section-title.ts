import { perWords } from "../../records/words/per-words.ts";
import { cellKind, tidy } from "./cell-kind.ts";
import type { SheetRow } from "./grid.ts";
import type { SheetWords } from "./sheet-words.ts";

/** What a title over some rows says of them: the name of a column, and the value that all of them have. */
export interface TitlePair {
  name: string;
  value: string;
  /** the name is one the trade knows */
  known: boolean;
  /** the words an amount stands beside, which name nothing: "First six trays", or a letter that stands for the amount */
  of?: string;
}

/** A title that belongs to the rows below it. */
export interface SectionTitle {
  row: number;
  pairs: TitlePair[];
}

const apart = /^([^:=]{1,40}?)\s*(?:[:=]|\s[-–—]\s)\s*(\S.{0,79})$/;
const amountFirst = /^([~≈]?\d[\d.,/½¼¾]*\s*\p{L}{1,6}\.?)\s+(?:of\s+|per\s+)?(\p{L}.{0,40})$/u;
const volumeFirst = /^(\d[\d.,½¼¾]*\s*(?:m[lL]s?|cc|ML|Ml))\s+(\p{L}.{0,40})$/u;
/** Where an amount begins: "15 ml from here on", "now 15 ml". In the eight languages, from memory. */
const fromHere =
  /^(?:(?:and )?from (?:here|now|this (?:one|tray|row))(?: on(?:wards?)?| down)?|now|the rest|rest|all below|(?:changed|switched) to|ab (?:hier|jetzt)|(?:à partir )?d['’ ]?ici|dès (?:ici|maintenant)|desde aquí|a partir de aquí|da qui(?: in poi)?|vanaf (?:hier|nu)|od (?:tego miejsca|teraz)|a partir daqui)$/iu;
const perTray = new RegExp(`\\s*\\b(?:each|${perWords})\\b.*$`, "iu");
const edges = /^[-–—=*_#~\s]+|[-–—=*_~:\s]+$/g;
const volume = /^\d[\d.,½¼¾]*\s*(?:m[lL]s?|cc|ML|Ml)(?:\s*\/\s*\p{L}+)?$/u;

/** Whether a text is an amount of liquid alone. */
export const isVolume = (text: string): boolean => volume.test(text);

/** "each 5 ml", "je 5 ml" */
const eachBefore = new RegExp(`^(?:each|à|a|${perWords})\\s+(?=\\d)`, "iu");
/** "2 vom 3.2.2026", "4 of 3 Feb": a name and its day */
const withDay = /^(\S+)\s+\p{Ll}{1,4}\s+(\S.*)$/u;

/** A day that says when a cook was: "cooked 3/1/26", and not the start of its trays, as "inoculated 3/1/26" says. */
const isWhen = (pair: TitlePair, words: SheetWords): boolean =>
  cellKind(pair.value) === "date" && words.dateOf(`${pair.name} (ml)`) !== "inoculated_on";

/** "Batch A" is Batch and A where Batch is known: the longest beginning that names a column. */
function knownBeginning(text: string, { columnSort }: SheetWords): TitlePair | undefined {
  const words = text.split(" ");
  for (let length = Math.min(words.length - 1, 4); length > 0; length--) {
    const name = words.slice(0, length).join(" ");
    const typed = words.slice(length).join(" ").replace(/^#\s*/, "");
    const [, own = typed, day = ""] = withDay.exec(typed) ?? [];
    const value = cellKind(day) === "date" ? own : typed;
    if (words.length - length <= 4 && columnSort(name, true) === "set") return { name, value, known: true };
  }
  return undefined;
}

function pairOf(typed: string, words: SheetWords): TitlePair | undefined {
  const text = typed.replace(eachBefore, "");
  const split = apart.exec(text);
  if (split !== null) {
    const name = tidy(split[1]!.replace(/^[#*\s]+/, ""));
    if (volume.test(tidy(split[2]!)) && words.columnSort(name, true) === undefined)
      return { name: "inoculum", value: tidy(split[2]!), known: true, of: name };
    if (name !== "") return { name, value: tidy(split[2]!), known: words.columnSort(name, true) === "set" };
  }
  const known = knownBeginning(text, words);
  if (known !== undefined) return known;
  if (volume.test(text)) return { name: "inoculum", value: text, known: true };
  const [, dose, of] = volumeFirst.exec(text) ?? [];
  if (dose !== undefined) {
    const what = of!.replace(perTray, "").trim();
    // "10 ml LC", "5 ml trays"
    const isOf = what === "" || fromHere.test(what) || ["set", "tray"].includes(words.columnSort(what, true) ?? "");
    if (isOf) return { name: "inoculum", value: dose, known: true };
  }
  const [, where = "", now = ""] = /^(\p{L}.{0,40}?)[:,]?\s+(\d.*)$/u.exec(text.replace(perTray, "")) ?? [];
  if (volume.test(now) && fromHere.test(where)) return { name: "inoculum", value: now, known: true };
  const amount = amountFirst.exec(text);
  if (amount !== null && words.columnSort(amount[2]!, true) === "set") {
    return { name: tidy(amount[2]!), value: amount[1]!, known: true };
  }
  return undefined;
}

/** "Cook A, 5 ml", "Batch 1 - 10 ml LC", "Cook A: 5 ml": parts that each say something known; undefined where one does not. */
function severalPairs(text: string, words: SheetWords): TitlePair[] | undefined {
  const parts = text.split(/\s*[;,]\s+|\s+[-–—|]\s+|(?<=\s(?:\p{Lu}|\d{1,4})):\s+/u);
  if (parts.length < 2) return undefined;
  // a day alone, of a title that says more, is that of its cook
  const pairs = parts.flatMap((part) => {
    const pair = pairOf(part, words);
    return pair === undefined && cellKind(part) === "date" ? [] : [pair];
  });
  if (pairs.length === 0 || !pairs.every((pair) => pair?.known === true)) return undefined;
  const said = (pairs as TitlePair[]).filter((pair, index) => index === 0 || !isWhen(pair, words));
  return new Set(said.map(({ name }) => name.toLowerCase())).size === said.length ? said : undefined;
}

/** "All trays 10 mL except A1": not so of all rows below. In the eight languages, from memory. */
const excepts =
  /(?<!\p{L})(?:except|apart from|unless|but not|außer|ausser|sauf|excepto|salvo|menos|tranne|eccetto|behalve|exceto|oprócz|poza)(?!\p{L})/iu;

/** Whether one thing is given two values, as by "A = 4 mL" beside "B = 8 mL": then no row has either for certain. */
const saysTwice = (pairs: ReadonlyArray<TitlePair>): boolean => {
  const values = new Map<string, string>();
  return pairs.some(({ name, value, known }) => {
    const before = values.get(name.toLowerCase());
    if (known) values.set(name.toLowerCase(), value);
    return known && before !== undefined && before !== value;
  });
};

/**
 * Takes a title apart: "Batch A (cooked 3/1/26)" says Batch A and cooked 3/1/26, "10 mL LC" says LC 10 mL. What says
 * nothing of that kind is a Section of its own.
 * @param cells the filled cells of the title's row, left to right
 */
export function titlePairs(cells: ReadonlyArray<string>, words: SheetWords): TitlePair[] {
  const pairs: TitlePair[] = [];
  const texts = [...cells].map(tidy);
  // a name in one cell and its value in the next
  for (let at = 0; at + 1 < texts.length; at++) {
    const name = texts[at]!.replace(/^[#*\s]+|\s*[:=]$/g, "");
    const isKey = /[:=]$/.test(texts[at]!) || words.columnSort(name, true) === "set";
    if (!isKey || name === "" || words.columnSort(texts[at + 1]!, true) !== undefined) continue;
    pairs.push({ name, value: texts[at + 1]!, known: words.columnSort(name, true) === "set" });
    texts.splice(at, 2);
    at--;
  }
  // a word beside an amount, in a cell of its own
  const beside = texts.length === 2 && volume.test(texts[1]!) ? { of: texts[0]! } : {};
  for (const text of texts) {
    const inner = [...text.matchAll(/\(([^()]{1,60})\)/g)].map((match) => tidy(match[1]!));
    const bare = tidy(text.replace(/\([^()]*\)/g, " ").replace(edges, ""));
    const several = severalPairs(bare, words);
    const main = bare === "" ? undefined : pairOf(bare, words);
    if (several !== undefined) pairs.push(...several);
    else if (main !== undefined) pairs.push(volume.test(bare) ? { ...main, ...beside } : main);
    else if (bare !== "") pairs.push({ name: "Section", value: bare, known: false });
    for (const part of inner) {
      for (const piece of part.split(/\s*[;,]\s+/)) {
        const said = pairOf(piece, words);
        // a title that names its cook may say when that was
        const pair = said?.known === true && pairs.some(({ known }) => known) && isWhen(said, words) ? undefined : said;
        const split = /^(\p{L}[\p{L} ]{0,30}?)\s+(\S.*)$/u.exec(piece);
        if (pair !== undefined) pairs.push(pair);
        else if (split !== null && ["date", "number"].includes(cellKind(split[2]!))) {
          // a name of its own, so that no spelling turns it into another
          pairs.push({ name: `Section: ${split[1]!}`, value: split[2]!, known: false });
        }
      }
    }
  }
  const isDayAlone = ({ name, value }: TitlePair): boolean => name === "Section" && cellKind(value) === "date";
  if (pairs.some(({ known }) => known)) pairs.splice(0, pairs.length, ...pairs.filter((pair) => !isDayAlone(pair)));
  return saysTwice(pairs) || excepts.test(cells.join(" "))
    ? [{ name: "Section", value: cells.map(tidy).join(", "), known: false }]
    : pairs;
}

/** "A", "BO": a mark rather than a word of prose, as in "made by me". */
const isMark = (value: string): boolean => value.length === 1 || (value.length <= 3 && !/\p{Ll}/u.test(value));

/** Titles above a table that name a column the trade knows, and its value; other lines say nothing of its rows. */
export function knownTitles(rows: ReadonlyArray<SheetRow>, words: SheetWords): SectionTitle[] {
  return rows.flatMap(({ cells, row }) => {
    const filled = cells.map((cell) => cell.trim()).filter((cell) => cell !== "");
    if (filled.length > 4) return [];
    const isStated = filled.some((cell) => /[:=]/.test(cell));
    const pairs = titlePairs(filled, words).filter(
      ({ known, value }) => known && (isStated || /\d/.test(value) || isMark(value)),
    );
    return pairs.length === 0 ? [] : [{ row, pairs }];
  });
}

/** Titles that call the dose by one name, the first of theirs: "LC: 5 ml" above "from here 15 ml". */
function withOneDose(titles: ReadonlyArray<SectionTitle>, words: SheetWords): SectionTitle[] {
  const isDose = ({ name, value, known }: TitlePair): boolean =>
    known && volume.test(value.replace(perTray, "").trim()) && words.dateOf(`${name} (ml)`) === "inoculated_on";
  const first = titles.flatMap(({ pairs }) => pairs).find(isDose)?.name;
  return titles.map(({ row, pairs }) => ({
    row,
    pairs: pairs.map((pair) => (first !== undefined && isDose(pair) ? { ...pair, name: first } : pair)),
  }));
}

/**
 * Titles without those that follow one another with amounts for different words: "L = 4 mL" above "H = 8 mL" tells what
 * letters stand for, not what the rows below had. Those left call the dose by one name.
 */
export function withoutLegend(
  titles: ReadonlyArray<SectionTitle>,
  words: SheetWords,
  isData: (row: number) => boolean,
): ReadonlyArray<SectionTitle> {
  const explained = (title: SectionTitle | undefined): string | undefined => {
    const dose = title?.pairs.find(({ value, known }) => known && volume.test(value));
    const other = title?.pairs.find((pair) => pair !== dose && pair.known);
    return dose === undefined ? undefined : (dose.of ?? (other && `${other.name} ${other.value}`));
  };
  const follows = (above: SectionTitle | undefined, below: SectionTitle | undefined): boolean => {
    const [one, other] = [explained(above), explained(below)];
    if (one === undefined || other === undefined || one === other) return false;
    for (let row = above!.row + 1; row < below!.row; row++) if (isData(row)) return false;
    return true;
  };
  const left = titles.filter((title, at) => !follows(titles[at - 1], title) && !follows(title, titles[at + 1]));
  return withOneDose(left, words);
}
