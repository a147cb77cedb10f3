import { describeChanges } from "../engine/compare-runs.ts";
import { counted } from "../records/counted.ts";
import { headlineLines } from "./headline-lines.ts";
import { fileTrouble, PlainFailure } from "./plain-failure.ts";
import { print } from "./print.ts";
import { type ReportRun, requireReportPlaces, runReport } from "./report-run.ts";
import { firstScan, lookAgain } from "./watching/settled-scan.ts";
import { FolderWatchers, lookAtBook } from "./watching/watch-folder.ts";

export interface WatchOptions {
  /** folder for the report; beside the book unless given */
  out?: string;
}

/** Times in milliseconds. */
export interface WatchPace {
  /** how long the sheets must have stayed as they are */
  settle: number;
  /** between looks while something is changing */
  soon: number;
  /** between looks where the system tells of changes, and where it does not */
  watched: number;
  unwatched: number;
}

const usualPace: WatchPace = { settle: 500, soon: 150, watched: 5000, unwatched: 1000 };

/** What goes with a watch: where it prints, and when it ends. */
export interface WatchSurroundings {
  say(text: string): void;
  /** aborted when the watch is to end */
  signal: AbortSignal;
  pace?: WatchPace;
}

/** The answers of a run, or what changed since the run before. */
function linesOf({ book, answers, files, comparison }: ReportRun): string[] {
  const errors = book.issues.filter(({ severity }) => severity === "error").length;
  return [
    `${files.report} (${counted(book.trays.length, "tray")}${errors > 0 ? `, ${counted(errors, "error")} in the log` : ""})`,
    ...headlineLines(book, answers),
    ...(comparison === undefined ? [] : describeChanges(comparison)),
  ];
}

/** Waits, but no longer than until something happens. */
class Pause {
  private wake: () => void = () => {};

  readonly stir = (): void => this.wake();

  wait(milliseconds: number): Promise<void> {
    return new Promise((done) => {
      const timer = setTimeout(done, milliseconds);
      this.wake = () => {
        clearTimeout(timer);
        done();
      };
    });
  }
}

const oneLine = (text: string): string => text.replace(/\s+/g, " ").trim();

const troubleText = (path: string, error: unknown): string =>
  error instanceof PlainFailure ? error.message : `${path}: ${fileTrouble(error)}`;

/** Thrown between two steps of a run when the watch is to end. */
class Stopped extends Error {}

/**
 * Writes the report on a book again whenever its sheets change, until it is stopped. Trouble is one line and does not end
 * it; a folder without sheets is waited on.
 * @throws PlainFailure if there is no book at the path when it starts, or its report could not be written
 */
export async function keepReport(path: string, { out }: WatchOptions, around: WatchSurroundings): Promise<void> {
  const { say, signal, pace = usualPace } = around;
  requireReportPlaces(path, out);
  const breathe = async (): Promise<void> => {
    await new Promise((done) => setImmediate(done));
    if (signal.aborted) throw new Stopped();
  };
  const pause = new Pause();
  const watchers = new FolderWatchers(pause.stir);
  signal.addEventListener("abort", pause.stir);
  let state = firstScan;
  let lastTrouble = "";
  const complain = (error: unknown): void => {
    const text = oneLine(troubleText(path, error));
    if (text !== lastTrouble) say(text);
    lastTrouble = text;
  };
  try {
    while (!signal.aborted) {
      let rest = pace.unwatched;
      try {
        const look = lookAtBook(path);
        if (watchers.follow(look.folders)) rest = pace.watched;
        const { advice, state: next } = lookAgain(state, look.files, performance.now(), pace.settle);
        state = next;
        if (advice === "wait") rest = pace.soon;
        if (advice === "build") {
          const run = await runReport(path, out, { breathe });
          lastTrouble = "";
          say(linesOf(run).join("\n"));
          // the sheets may have changed while it ran
          rest = 0;
        }
      } catch (error) {
        if (error instanceof Stopped) return;
        complain(error);
        // a folder that went away is not watched under its name any more
        watchers.follow([]);
        rest = pace.unwatched;
      }
      if (!signal.aborted) await pause.wait(rest);
    }
  } finally {
    watchers.close();
  }
}

/**
 * `gramwright watch`: keeps the report on a book up to date, for as long as the program runs.
 * @throws PlainFailure if there is no book at the path when it starts, or its report could not be written
 */
export async function watchBook(path: string, options: WatchOptions): Promise<void> {
  requireReportPlaces(path, options.out);
  print(`Watching ${path}. Save or drop a sheet and the report is written again; Ctrl-C ends it.\n\n`);
  await keepReport(path, options, {
    say: (text) => print(`${text}\n\n`),
    signal: new AbortController().signal,
  });
}
