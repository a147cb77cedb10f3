import { type DueList, dueList } from "../../analyses/due/due-list.ts";
import { trialOf } from "../engine/trial-of.ts";
import type { WeekTask } from "../planning/week-page.ts";
import type { Book } from "../records/book.ts";
import { sentenceText } from "../report/format-quantity.ts";
import { openBookFolder, requireTrays } from "./open-book.ts";
import { writeOutputs } from "./output/output-set.ts";

import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";
import { dateOption, today } from "./today.ts";

export interface DueOptions {
  /** ISO 8601 date the list is for; today unless given */
  on?: string;
  /** calendar file to write */
  ics?: string;
  /** page of the week to write, for paper */
  week?: string;
}

/** What is due in a book on a day (ISO 8601). */
export const listDue = (book: Book, on: string): DueList =>
  dueList(trialOf(book), book.name, on, (says) => sentenceText(says, book.settings));

/** Rows of text in columns. */
function columns(tasks: ReadonlyArray<WeekTask>): string[] {
  const width = (of: (task: WeekTask) => string, most: number) =>
    Math.min(
      most,
      tasks.reduce((widest, task) => Math.max(widest, of(task).length), 0),
    );
  const [what, who] = [width((task) => task.what, 18), width((task) => task.who, 44)];
  return tasks.map((task) => `  ${task.what.padEnd(what)}  ${task.who.padEnd(who)}  ${task.when}`);
}

/** What is due as lines of text. */
export const dueText = ({ title, notes, days, later, more }: DueList): string[] => [
  title,
  ...notes,
  ...days.flatMap(({ title: day, tasks }) => ["", day, ...columns(tasks)]),
  ...(later.length === 0 ? [] : ["", "Later", ...columns(later)]),
  ...(more > 0 ? [`  and ${more} more`] : []),
];

/**
 * `gramwright due`: prints what is due of every growing tray by day, and writes it as a calendar or a page when asked to.
 * @throws PlainFailure if the book cannot be read, the date makes no sense, or a file cannot be written
 */
export async function printDue(path: string, options: DueOptions): Promise<void> {
  const on = dateOption("--on", options.on ?? today(), "2026-03-10");
  const progress = terminalProgress();
  const outputs = [
    ...(options.ics === undefined ? [] : [{ path: options.ics, kind: "calendar" as const, option: "--ics" }]),
    ...(options.week === undefined ? [] : [{ path: options.week, kind: "week" as const, option: "--week" }]),
  ];
  const { book, folder } = await openBookFolder(path, progress, { outputs });
  progress.done();
  requireTrays(book, path);
  const list = listDue(book, on);
  const made = outputs.map((output) => ({ ...output, text: output.kind === "week" ? list.week : list.calendar }));
  const written = writeOutputs(made, folder);
  const said = written.length === 0 ? [] : ["", `Written: ${written.join(", ")}`];
  print(`${[...dueText(list), ...said].join("\n")}\n`);
}
