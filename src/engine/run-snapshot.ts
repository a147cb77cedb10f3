import type { AnsweredQuestion } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import { defaultSettings, settingDefinitions } from "../records/setting-definitions.ts";
import type { Tray } from "../records/tray.ts";
import { type AnswerData, answerData } from "./answer-data.ts";
import { finishedCooks } from "./book-readings.ts";

/** One cell's worth of a record: what a tray, a cost line, a product or the settings said. */
export type Fact = string | number | boolean;

/** Named facts of one record. A list and not an object, because names come from sheets. */
export type Facts = [name: string, value: Fact][];

export type { AnswerData as SnapshotAnswer } from "./answer-data.ts";

/** What a run saw and said, kept beside the report so that the next run can tell what changed. */
export interface RunSnapshot {
  format: "gramwright run 3";
  book: string;
  answers: AnswerData[];
  /** start of everything random */
  seed: number;
  log: { entries: number; errors: number };
  trayCount: number;
  /** every tray by its id; absent when there were more than `mostTrays` */
  trays?: [id: string, facts: Facts][];
  costs: [line: string, facts: Facts][];
  products: [product: string, facts: Facts][];
  /** by the keys of settings.csv, those that are not at their default */
  settings: Facts;
  /** cooks that were finished at each reading so far, this one last */
  readings: string[][];
}

/** trays beyond which only their number is kept; 20,000 make a file of 11 MB */
export const mostTrays = 50_000;

const isFact = (value: unknown): value is Fact =>
  typeof value === "string" || typeof value === "number" || typeof value === "boolean";

/** A record's own facts, where it came from left aside. */
const recordFacts = (record: object): Facts =>
  Object.entries(record)
    .map(([name, value]): [string, unknown] => [name, Array.isArray(value) ? value.join("; ") : value])
    .filter((entry): entry is [string, Fact] => isFact(entry[1]));

/** What a tray's record says, under the names of its properties; free columns under their headers. */
function trayFacts(tray: Tray): Facts {
  const { trayId: _, traysInPool, flushes, factors, bounds, ...rest } = tray;
  const { file: _file, row: _row, sources: _sources, flags: _flags, ...plain } = rest;
  const facts = recordFacts(plain);
  if (traysInPool !== 1) facts.push(["traysInPool", traysInPool]);
  if (flushes !== undefined && flushes.length > 1) facts.push(["flushes", flushes.length]);
  for (const [column, { low, high }] of Object.entries(bounds).map(
    ([column, limits]) => [column, limits ?? {}] as const,
  ))
    facts.push([column, `${low ?? ""} to ${high ?? ""}`]);
  for (const [header, value] of Object.entries(factors)) if (value !== "") facts.push([`“${header}”`, value]);
  return facts;
}

/** Names made unique, so that two lines of one item are kept apart. */
function numbered<T>(records: ReadonlyArray<T>, nameOf: (record: T) => string): [string, T][] {
  const met = new Map<string, number>();
  return records.map((record) => {
    const name = nameOf(record);
    const count = (met.get(name) ?? 0) + 1;
    met.set(name, count);
    return [count === 1 ? name : `${name} (line ${count})`, record];
  });
}

/** Data as they are read back from their file. */
const asRead = <Data>(data: Data): Data => JSON.parse(JSON.stringify(data));

/**
 * What a run saw and said, small enough to lie beside the report as JSON.
 * @param book the cleaned book; @param answers its questions answered
 */
export function snapshotOf(book: Book, answers: ReadonlyArray<AnsweredQuestion>): RunSnapshot {
  const { settings, trays } = book;
  return {
    format: "gramwright run 3",
    book: book.name,
    answers: answers.map((answer) => {
      const data = answerData(answer, settings);
      return { ...data, estimates: asRead(data.estimates) };
    }),
    seed: settings.seed,
    log: { entries: book.issues.length, errors: book.issues.filter(({ severity }) => severity === "error").length },
    trayCount: trays.length,
    readings: book.readings ?? [finishedCooks(trays)],
    ...(trays.length > mostTrays ? {} : { trays: trays.map((tray) => [tray.trayId, trayFacts(tray)]) }),
    costs: numbered(book.costLines ?? [], ({ item, fromDate, onlyWhereValue }) =>
      [
        item,
        fromDate === undefined ? "" : `from ${fromDate}`,
        onlyWhereValue === undefined ? "" : `for ${onlyWhereValue}`,
      ]
        .filter((part) => part !== "")
        .join(" "),
    ).map(([name, line]) => [name, recordFacts(line)]),
    products: numbered(book.products ?? [], ({ product, channel }) =>
      channel === "" ? product : `${product} (${channel})`,
    ).map(([name, product]) => [name, recordFacts(product)]),
    settings: settingDefinitions.flatMap(({ key, property }): Facts => {
      const value = settings[property];
      return value === undefined || value === defaultSettings[property] ? [] : [[key, value]];
    }),
  };
}

/** A list with one item a line, anything else on one. */
const linesOf = (value: unknown): string =>
  Array.isArray(value) && value.length > 0
    ? `[\n${value.map((item) => JSON.stringify(item)).join(",\n")}\n ]`
    : JSON.stringify(value);

/** A snapshot as the text of its file: JSON with a line for each answer and each tray. */
export const snapshotText = (snapshot: RunSnapshot): string =>
  `{\n${Object.entries(snapshot)
    .map(([key, value]) => ` ${JSON.stringify(key)}: ${linesOf(value)}`)
    .join(",\n")}\n}\n`;

/**
 * A snapshot read from the text of its file.
 * @returns undefined where the text is not a snapshot of this format: there is then nothing to compare with
 */
export function parseSnapshot(text: string): RunSnapshot | undefined {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return undefined; // half-written or not ours; the next run writes it again
  }
  const isOurs = typeof read === "object" && read !== null && "format" in read && read.format === "gramwright run 3";
  return isOurs ? (read as RunSnapshot) : undefined;
}
