import { cleanBook } from "../../src/cleaning/clean-book.ts";
import type { Book } from "../../src/records/book.ts";
import type { SheetSource } from "../../src/records/sheet.ts";
import type { Tray } from "../../src/records/tray.ts";

/** A text or bytes as a sheet. */
export function sheet(path: string, content: string | Uint8Array): SheetSource {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return {
    path,
    size: bytes.length,
    *chunks() {
      yield bytes;
    },
  };
}

/** Cleans a book given as texts by path. */
export const bookOf = (files: Record<string, string>): Promise<Book> =>
  cleanBook(Object.entries(files).map(([path, content]) => sheet(path, content)));

/** Cleans one harvest sheet, with lines of settings.csv where given. */
export const harvestOf = (text: string, settings?: string): Promise<Book> =>
  bookOf({
    "harvests/one.csv": text,
    ...(settings === undefined ? {} : { "settings.csv": `key,value\n${settings}\n` }),
  });

/** The tray of a name, or a failure that lists the ones there are. */
export function trayOf({ trays }: Book, name: string): Tray {
  const tray = trays.find(({ trayId }) => trayId === name);
  if (tray === undefined) throw new Error(`no tray ${name} among ${trays.map(({ trayId }) => trayId).join(", ")}`);
  return tray;
}

/** The codes of the log's entries, for one column where given, each once. */
export const rulesOf = ({ issues }: Book, column?: string): string[] => [
  ...new Set(issues.filter((issue) => column === undefined || issue.column === column).map(({ rule }) => rule)),
];

/** A tray without where it was read and what was flagged in it, its absent properties taken out. */
export function factsOf({
  file: _file,
  row: _row,
  sources: _sources,
  flags: _flags,
  ...facts
}: Tray): Record<string, unknown> {
  return JSON.parse(JSON.stringify(facts)) as Record<string, unknown>;
}

/** Trays' facts by name, in the order of the names. */
export const allFacts = ({ trays }: Book): Record<string, unknown>[] =>
  trays.map(factsOf).sort((a, b) => (String(a.trayId) < String(b.trayId) ? -1 : 1));

/** A book's trays as "name: outcome fresh/dry @dose x pool", in the order of the names; grams and mL to a tenth. */
export function inShort({ trays }: Book, withDose = false): string[] {
  const tenth = (value: number | undefined): string => (value === undefined ? "" : String(Math.round(value * 10) / 10));
  return trays
    .map(({ trayId, outcome, freshGrams, dryGrams, inoculumMillilitres, traysInPool }) => {
      const hasWeight = freshGrams !== undefined || dryGrams !== undefined;
      const weights = hasWeight ? ` ${tenth(freshGrams)}/${tenth(dryGrams)}` : "";
      const dose = withDose && inoculumMillilitres !== undefined ? ` @${tenth(inoculumMillilitres)}` : "";
      return `${trayId}: ${outcome}${weights}${dose}${traysInPool === 1 ? "" : ` x${traysInPool}`}`;
    })
    .sort();
}
