import sampleJson from "gramwright:sample-book";
import { batch, signal } from "@preact/signals";
import type { DueList } from "../../analyses/due/due-list.ts";
import type { SheetQuestion } from "../engine/sheet-questions.ts";
import { fileName } from "../records/file-stem.ts";
import type { DroppedSheets } from "./dropped-sheets.ts";
import { formatList } from "./format-list.ts";
import { type RunningWork, startWorker } from "./start-worker.ts";
import type { CleanedSummary } from "./worker/cleaned-summary.ts";
import type { AnswerLine, CleanedFiles, SheetInHand, WorkNews } from "./worker/messages.ts";

/** How far the work is. */
export type Progress =
  | { state: "empty" }
  | { state: "working"; text: string; share?: number }
  | { state: "done" }
  | { state: "stopped" }
  | { state: "trouble"; text: string };

/** Everything the page shows; changed only by the functions below. */
export const sheets = signal<ReadonlyArray<SheetInHand>>([]);
export const bookName = signal<string | undefined>(undefined);
/** settings answered, by key */
export const answered = signal<ReadonlyMap<string, string>>(new Map());
export const progress = signal<Progress>({ state: "empty" });
export const summary = signal<CleanedSummary | undefined>(undefined);
/** questions asked so far; an answered one stays, so that the answer can be changed */
export const questions = signal<ReadonlyArray<SheetQuestion>>([]);
export const answers = signal<ReadonlyArray<AnswerLine>>([]);
/** what is due: today, and on the sheets' last day where that is some days ago */
export const due = signal<ReadonlyArray<DueList>>([]);
export const cleanedFiles = signal<Partial<Record<keyof CleanedFiles, Blob>> | undefined>(undefined);
export const report = signal<Blob | undefined>(undefined);
/** whether the sheets in that report can be changed */
export const isReportLive = signal(false);
/** said to screen readers */
export const remark = signal("");
/** what is to be known of the last drop, shown under the drop field */
export const dropNotes = signal<ReadonlyArray<string>>([]);

/** work under way */
const running = signal<RunningWork | undefined>(undefined);

/** The questions of this cleaning, and the answered ones that it no longer needs to ask. */
function withAnswered(asked: ReadonlyArray<SheetQuestion>): SheetQuestion[] {
  const stillAsked = new Map(asked.map((question) => [question.key, question]));
  const known = questions.value
    .filter(({ key }) => stillAsked.has(key) || answered.value.has(key))
    .map((question) => {
      const now = stillAsked.get(question.key);
      stillAsked.delete(question.key);
      return now === undefined || answered.value.has(question.key) ? question : now;
    });
  return [...known, ...stillAsked.values()];
}

/** The answers with one more, or with one that takes the place of an earlier one. */
function withLine(lines: ReadonlyArray<AnswerLine>, line: AnswerLine): AnswerLine[] {
  const at = lines.findIndex(({ question }) => question === line.question);
  return at < 0 ? [...lines, line] : lines.with(at, line);
}

const csvFile = (text: string): Blob => new Blob([text], { type: "text/csv;charset=utf-8" });

function hear(news: WorkNews): void {
  batch(() => {
    switch (news.kind) {
      case "stage":
        progress.value = {
          state: "working",
          text: news.text,
          ...(news.share === undefined ? {} : { share: news.share }),
        };
        break;
      case "cleaned":
        summary.value = news.summary;
        questions.value = withAnswered(news.summary.questions);
        cleanedFiles.value = Object.fromEntries(
          Object.entries(news.files).map(([name, text]: [string, string]) => [name, csvFile(text)]),
        );
        break;
      case "due":
        due.value = news.lists;
        break;
      case "answer":
        answers.value = withLine(answers.value, news.line);
        break;
      case "report":
        report.value = new Blob([news.report], { type: "text/html;charset=utf-8" });
        isReportLive.value = news.isLive;
        progress.value = { state: "done" };
        remark.value = "The report is ready.";
        end();
        break;
      case "nothing":
        progress.value = { state: "trouble", text: news.text };
        remark.value = news.text;
        end();
        break;
      case "trouble":
        progress.value = { state: "trouble", text: `Something went wrong in the page itself: ${news.text}` };
        remark.value = "Something went wrong.";
        end();
        break;
    }
  });
}

function end(): void {
  running.value?.stop();
  running.value = undefined;
}

/** Starts the work again with the sheets and answers at hand. */
export function startWork(): void {
  end();
  batch(() => {
    answers.value = [];
    due.value = [];
    report.value = undefined;
    if (sheets.value.length === 0) {
      summary.value = undefined;
      cleanedFiles.value = undefined;
      questions.value = [];
      answered.value = new Map();
      bookName.value = undefined;
      progress.value = { state: "empty" };
      return;
    }
    progress.value = { state: "working", text: "Starting" };
    remark.value = "Working on the sheets.";
  });
  if (sheets.value.length === 0) return;
  const name = bookName.value;
  const order = { sheets: [...sheets.value], answers: [...answered.value], ...(name === undefined ? {} : { name }) };
  running.value = startWorker(order, hear);
}

/** Ends the work; what has been found so far stays. */
export function stopWork(): void {
  end();
  batch(() => {
    progress.value = { state: "stopped" };
    remark.value = "Stopped.";
  });
}

/** A sheet that comes by itself, under the path of the one sheet at hand that has its name in some folder. */
function atItsPath(sheet: SheetInHand): SheetInHand {
  const alike = sheets.value.filter(({ path }) => fileName(path) === sheet.path);
  return alike.length === 1 ? { ...sheet, path: alike[0]!.path } : sheet;
}

/** Adds sheets; one of the same name takes the place of the one before. */
export function addSheets({ sheets: given, folder, notes }: DroppedSheets): void {
  const added = given.map(atItsPath);
  if (added.length === 0) {
    dropNotes.value = notes.length === 0 ? ["No sheet is among these."] : notes;
    remark.value = dropNotes.value.join(" ");
    return;
  }
  const names = new Set(added.map(({ path }) => path));
  const replaced = sheets.value.filter(({ path }) => names.has(path)).map(({ path }) => path);
  dropNotes.value =
    replaced.length === 0 ? notes : [...notes, `Read again in place of the sheet before: ${formatList(replaced)}.`];
  batch(() => {
    sheets.value = [...sheets.value.filter(({ path }) => !names.has(path)), ...added];
    if (folder !== undefined) bookName.value = folder;
  });
  startWork();
  if (dropNotes.value.length > 0) remark.value = dropNotes.value.join(" ");
}

/** Takes one sheet out of the book. */
export function removeSheet(path: string): void {
  sheets.value = sheets.value.filter((sheet) => sheet.path !== path);
  dropNotes.value = [];
  startWork();
  remark.value = `${path} was taken out.`;
}

/** Lays everything away. */
export function clearBook(): void {
  sheets.value = [];
  dropNotes.value = [];
  startWork();
  remark.value = "All sheets were taken out.";
}

/** Opens the sample book the page carries, in place of what is there. */
export function openSample(): void {
  const sample = JSON.parse(sampleJson) as { path: string; text: string }[];
  batch(() => {
    answered.value = new Map();
    questions.value = [];
    bookName.value = "sample-book";
    dropNotes.value = [];
    sheets.value = sample.map(({ path, text }) => ({ path, bytes: new Blob([text]) }));
  });
  startWork();
}

/** Answers one question, or takes the answer back when the value is empty, and cleans again. */
export function answerQuestion(key: string, value: string): void {
  const next = new Map(answered.value);
  if (value === "") next.delete(key);
  else next.set(key, value);
  answered.value = next;
  startWork();
}
