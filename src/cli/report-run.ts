import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { AnsweredQuestion } from "../analysis.ts";
import { issuesCsv } from "../cleaning/issues-csv.ts";
import { finishedCooks, readingsWith } from "../engine/book-readings.ts";
import {
  compareRuns,
  parseSnapshot,
  type RunComparison,
  type RunSnapshot,
  snapshotOf,
  snapshotText,
} from "../engine/compare-runs.ts";
import { type BookRun, runBook } from "../engine/run-book.ts";
import { version } from "../engine/version.ts";
import { liveParts } from "../live/live-parts.ts";
import type { Book } from "../records/book.ts";
import { renderReport } from "../report/render-report.tsx";
import { DrawAside } from "./drawing/draw-aside.ts";
import { DrawingThread } from "./drawing/drawing-thread.ts";
import { requireTrays } from "./open-book.ts";
import { requirePlaces, writeOutputs } from "./output/output-set.ts";
import { fileTrouble, PlainFailure } from "./plain-failure.ts";
import { type BookFolder, besideBook, bookPlace, readBookFolder } from "./read-book-folder.ts";
import { requireStated, type Stated, withStated } from "./stated-settings.ts";
import { today } from "./today.ts";

/** Where a report and what belongs to it are written. */
export interface ReportFiles {
  report: string;
  log: string;
  /** the run's snapshot, for the next run to compare with */
  answers: string;
}

/** What one run gave. */
export interface ReportRun {
  book: Book;
  answers: AnsweredQuestion[];
  files: ReportFiles;
  /** what the answers file holds */
  snapshot: RunSnapshot;
  /** against the run before; absent when there was none */
  comparison?: RunComparison;
}

/** What may be passed to and asked of a run. */
export interface RunOptions {
  /** awaited between the steps, so that the program can be stopped */
  breathe?: () => Promise<void>;
  /** called with what is being done, for progress */
  say?: (text: string) => void;
  /** start of everything random, instead of the book's own */
  seed?: number;
  /** settings and columns stated on the command line */
  set?: ReadonlyArray<Stated>;
  /** true writes a report whose sheets cannot be edited in the browser, and which is smaller */
  plain?: boolean;
  /** the thread that draws, where it was started before; it ends with the run */
  thread?: DrawingThread | undefined;
}

/** The files of a book's report in a folder. */
const reportFiles = (out: string, name: string): ReportFiles => ({
  report: join(out, `${name}-report.html`),
  log: join(out, `${name}-log.csv`),
  answers: join(out, `${name}-answers.json`),
});

/** What a report is written as, and where. */
const reportOutputs = (files: ReportFiles) =>
  (["report", "log", "answers"] as const).map((kind) => ({ path: files[kind], kind, option: "--out" }));

/** Says no where the report on a book could not be written. @throws PlainFailure */
export function requireReportPlaces(path: string, given: string | undefined): void {
  const book = bookPlace(path);
  requirePlaces(reportOutputs(reportFiles(given ?? besideBook(path), book.name)), { ...book, files: [] });
}

/** The snapshot of the run before; undefined where there is none. */
function earlierRun(path: string): RunSnapshot | undefined {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "ENOENT") return undefined;
    throw new PlainFailure(`${path}: ${fileTrouble(error)}. Correct that, or give another folder with --out.`);
  }
  return parseSnapshot(text);
}

/** Fails where the program failed at every single question. */
function requireAnswers(answers: ReadonlyArray<AnsweredQuestion>): void {
  const codes = answers.map(({ outcome }) => (outcome.kind === "cannot-tell" ? outcome.failure?.code : undefined));
  if (codes.some((code) => code === undefined)) return;
  throw new PlainFailure(
    `none of the questions could be worked out: the program failed at them (code ${codes[0]}).`,
    70,
  );
}

/** Reads a book and asks its questions; every chart is begun as soon as its answer is there. */
function runFolder(
  path: string,
  folder: BookFolder,
  before: RunSnapshot | undefined,
  drawings: DrawAside | undefined,
  { breathe = async () => {}, say = () => {}, seed, set = [] }: RunOptions,
): Promise<BookRun> {
  let book: Book | undefined;
  return runBook(folder.sheets, {
    name: folder.name,
    notRead: folder.notRead,
    today: today(),
    onProgress: ({ file, rows }) => say(`reading ${file}: ${rows.toLocaleString("en")} rows`),
    cleaned: (cleaned) => {
      requireStated(cleaned, set);
      requireTrays(cleaned, path);
      if (seed !== undefined) cleaned.settings = { ...cleaned.settings, seed };
      cleaned.readings = readingsWith(before?.readings ?? [], finishedCooks(cleaned.trays));
      book = cleaned;
    },
    step: async (step) => {
      if (step.kind === "answered") return drawings?.begin(step.answer, book!);
      say(`${step.done + 1}/${step.of} ${step.question}`);
      await breathe();
    },
  });
}

/**
 * One whole run: sheets read and cleaned, questions answered, report, log and snapshot written, and compared with the run
 * before. What an earlier run wrote is never read as a sheet.
 * @param path the book; @param given the folder for the report; beside the book where none is given
 * @throws PlainFailure if there is nothing to read, no tray to look at, or the report cannot be written
 */
export async function runReport(path: string, given: string | undefined, options: RunOptions = {}): Promise<ReportRun> {
  const { breathe = async () => {}, say = () => {}, plain = false } = options;
  const found = readBookFolder(path);
  const files = reportFiles(given ?? besideBook(path), found.name);
  const outputs = reportOutputs(files);
  requirePlaces(outputs, found);
  const folder = await withStated(found, options.set ?? []);
  const before = earlierRun(files.answers);
  const thread = options.thread ?? DrawingThread.start();
  const drawings = thread && new DrawAside(thread);
  try {
    const { book, answers } = await runFolder(path, folder, before, drawings, options);
    requireAnswers(answers);
    await breathe();
    say("drawing the report");
    const live = plain ? undefined : liveParts(book);
    const drawn = await drawings?.finish(book, answers);
    const html = await renderReport({
      ...{ book, answers, generator: { version } },
      ...(live === undefined ? {} : { live }),
      ...(drawn === undefined ? {} : { drawn }),
    });
    await breathe();
    const snapshot = snapshotOf(book, answers);
    const texts = { report: html, log: issuesCsv(book.issues), answers: snapshotText(snapshot) };
    writeOutputs(
      outputs.map((output) => ({ ...output, text: texts[output.kind] })),
      folder,
    );
    return {
      book,
      answers,
      files,
      snapshot,
      ...(before === undefined ? {} : { comparison: compareRuns(before, snapshot) }),
    };
  } finally {
    thread?.end();
  }
}
