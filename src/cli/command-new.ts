import { copyFileSync, existsSync, mkdirSync, statSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { proposeColumns, toBeTyped } from "../cleaning/propose-columns.ts";
import { exampleMark } from "../csv/shape/no-tray-rows.ts";
import { writeCsv } from "../csv/write-csv.ts";
import { type SheetQuestion, sheetQuestions } from "../engine/sheet-questions.ts";
import { costColumns } from "../records/cost-line.ts";
import type { HarvestFieldKey } from "../records/harvest-field.ts";
import { productColumns } from "../records/product.ts";
import { settingDefinitions } from "../records/setting-definitions.ts";
import { columnsPage } from "./columns-page.ts";
import { openBook } from "./open-book.ts";
import { outputPlace } from "./output/output-place.ts";
import { isFreePlace, makeFolder, writeDown } from "./output/output-set.ts";
import { fileTrouble, PlainFailure } from "./plain-failure.ts";
import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";

/** What a first sheet has columns for; a page shows the others. */
const firstColumns: ReadonlyArray<HarvestFieldKey> = [
  ...(["tray_id", "batch", "strain", "inoculum_ml", "inoculated_on", "colonised_on"] as const),
  ...(["harvested_on", "outcome", "fresh_g", "dry_g", "note"] as const),
];

/** Two rows that show how to fill in the first columns: a good tray and a lost one. They are left out when read. */
const exampleRows: ReadonlyArray<ReadonlyArray<string>> = [
  [
    `${exampleMark} C1-01`,
    "C1",
    "oyster",
    "6",
    "2026-01-10",
    "2026-01-24",
    "2026-02-21",
    "good",
    "310",
    "34",
    "one row a tray",
  ],
  [
    `${exampleMark} C1-02`,
    "C1",
    "oyster",
    "6",
    "2026-01-10",
    "",
    "",
    "contaminated",
    "",
    "",
    "lost trays keep their row",
  ],
];

/** Page with the columns a first sheet does not have. */
const columnsFile = "columns-by-question.html";

/** A sheet that a book is started from. */
interface FirstSheet {
  path: string;
  /** columns.csv, as its columns were read */
  columns: string;
  /** the columns it has */
  has: ReadonlyArray<HarvestFieldKey>;
  /** what it left open */
  asked: ReadonlyArray<SheetQuestion>;
}

const sheetText = (...rows: ReadonlyArray<ReadonlyArray<string>>): string =>
  writeCsv(rows, { guard: true, newline: "\n" });

/** The note that goes into a new book: what belongs in each sheet and column. */
function bookNote(withExamples: boolean): string {
  const settings = settingDefinitions
    .map(({ key, meaning, unit, choices }) => `| ${key} | ${choices?.join(", ") ?? unit} | ${meaning} |`)
    .join("\n");
  return `# This book

Put one harvest sheet per trial or season into \`harvests/\`. One row is one started tray, lost and unfinished ones too.
${withExamples ? `The rows marked ${exampleMark} show how; they are left out of every answer.\n` : ""}Columns may stand in any order, under your own headers: they are matched by meaning, and units may stand in the cells. \`${columnsFile}\` shows the other columns, question
by question. Only a tray, something that was varied (an inoculum volume, for instance) and one result are needed.
Your files are never written to.

Then run \`gramwright check .\` to see what was wrong with the sheets and \`gramwright report .\` for the answers.

## costs.csv
One row per cost: what it is, what kind (ingredient, culture, consumable, reusable, energy, labour, space, overhead),
what a pack costs and holds, how much is used, and per what (tray, good tray, cook, load, jar, inoculum mL,
supplement g, grain g, shelf day, kg fresh, kg dried, unit sold, month).

## products.csv
One row per thing sold on one channel.

## settings.csv
Leave a value empty to keep the default.

| key | unit or choices | meaning |
|---|---|---|
${settings}
`;
}

/** The settings with their defaults; beside one that a sheet leaves open stands which cells it is about. */
function settingsSheet(asked: ReadonlyArray<SheetQuestion>): string {
  const rows = settingDefinitions.map(({ key, default: value, unit, choices, meaning }) => {
    const examples = asked.find((question) => question.key === key)?.examples;
    const cells = examples === undefined ? "" : `; asked: cells such as ${examples.join(" and ")}`;
    return [key, value, unit, `${meaning}${choices ? `: ${choices.join(", ")}` : ""}${cells}`];
  });
  return sheetText(["key", "value", "unit", "note"], ...rows);
}

/** Writes a book's sheets into an empty folder. */
function writeSheets(folder: string, from: FirstSheet | undefined): void {
  const write = (name: string, text: string) => writeDown(join(folder, name), text);
  mkdirSync(join(folder, "harvests"));
  if (from === undefined) write(join("harvests", "harvest-1.csv"), sheetText(firstColumns, ...exampleRows));
  else {
    copyFileSync(from.path, join(folder, "harvests", basename(from.path)));
    write("columns.csv", from.columns);
  }
  write("costs.csv", sheetText(costColumns));
  write("products.csv", sheetText(productColumns));
  write("settings.csv", settingsSheet(from?.asked ?? []));
  write("README.md", bookNote(from === undefined));
  write(columnsFile, columnsPage(from?.has ?? firstColumns));
}

const notEmpty = (folder: string): PlainFailure =>
  new PlainFailure(`${folder}: this folder is not empty. Give a new name; nothing was written.`);

const unmakable = (folder: string, error: unknown): PlainFailure =>
  error instanceof PlainFailure
    ? error
    : new PlainFailure(`${folder}: ${fileTrouble(error)}. Give a folder that can be made.`);

/** @throws PlainFailure where no book can be begun at a place */
function requireFree(folder: string): void {
  try {
    // judged by a file in it: links in the path are followed, and what belongs to the system is refused
    outputPlace({ path: join(folder, "README.md"), kind: "sheet" });
    if (!isFreePlace(resolve(folder))) throw notEmpty(folder);
  } catch (error) {
    throw unmakable(folder, error);
  }
}

/**
 * Writes a new book, all of it or nothing: headed, empty sheets, or a copy of a sheet that is there already.
 * @throws PlainFailure if the folder exists and holds something, or cannot be written
 */
export function newBook(folder: string, from?: FirstSheet): void {
  try {
    if (!makeFolder(resolve(folder), (fresh) => writeSheets(fresh, from))) throw notEmpty(folder);
  } catch (error) {
    throw unmakable(folder, error);
  }
  const sheet = join(folder, "harvests", from === undefined ? "harvest-1.csv" : basename(from.path));
  const open = (from?.asked ?? []).map(({ key }) => key);
  const next =
    from === undefined
      ? `Type your trays into ${sheet} (its example rows show how, ${join(folder, columnsFile)} the other columns)`
      : `${from.path} was copied to ${sheet}; columns.csv says how its columns were read${from.columns.includes(toBeTyped) ? ", and asks about some" : ""}${open.length === 0 ? "" : `;\nsettings.csv asks for ${open.join(", ")}: fill in the value`}`;
  print(`New book: ${folder}\n${next},\nthen run: gramwright report ${folder}\n`);
}

/**
 * `gramwright new`: starts a book of empty sheets, or one from a harvest sheet, which is copied and stays as it is.
 * @throws PlainFailure as `newBook`, or if the sheet cannot be read
 */
export async function startBook(folder: string, { from: path }: { from?: string }): Promise<void> {
  requireFree(folder);
  if (path === undefined) {
    newBook(folder);
    return;
  }
  if (!existsSync(path) || !statSync(path).isFile()) {
    throw new PlainFailure(`${path}: there is no such file. Give one harvest sheet after --from.`);
  }
  const progress = terminalProgress();
  const book = await openBook(path, progress);
  progress.done();
  const columns = book.columns.map((column) => ({ ...column, file: `harvests/${column.file}` }));
  const asked = sheetQuestions(book.issues).filter(({ key, state }) => state === "open" && !key.startsWith("cell:"));
  const has = book.columns.flatMap(({ field }) => (field === "factor" || field === "unread" ? [] : [field]));
  newBook(folder, { path, columns: proposeColumns({ ...book, columns }), has, asked });
}
