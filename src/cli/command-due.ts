import { dueEntries } from "../../analyses/due/due-entries.ts";
import { basisWords, dueLines } from "../../analyses/due/due-lines.ts";
import { type DueTrays, dueTrays } from "../../analyses/due/due-trays.ts";
import { dueWeek } from "../../analyses/due/due-week.ts";
import { alarmSteps, alarmWords } from "../../analyses/losses/alarm-words.ts";
import { lossAlarm } from "../../analyses/losses/loss-alarm.ts";
import { dateOfDay, dayNumber } from "../measures/day-number.ts";
import { calendarFile } from "../planning/calendar-file.ts";
import { dayWords } from "../planning/day-words.ts";
import { type WeekTask, weekPage } from "../planning/week-page.ts";
import type { Book } from "../records/book.ts";
import { sentenceText } from "../report/format-quantity.ts";
import { openBookFolder, requireTrays } from "./open-book.ts";
import type { Output } from "./output-place.ts";
import { writeOutputs } from "./output-set.ts";
import { PlainFailure } from "./plain-failure.ts";
import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";

export interface DueOptions {
  /** ISO 8601 date the list is for; today unless given */
  on?: string;
  /** calendar file to write */
  ics?: string;
  /** page of the week to write, for paper */
  week?: string;
}

/** What a list of due trays is, as text and files. */
export interface DueFiles {
  lines: string[];
  calendar: string;
  week: string;
}

/** days between the sheets' last date and the list's, from which that is said */
const staleDays = 4;
/** rows of what comes after the week */
const mostLater = 12;

/** Today where this machine is, as an ISO date. */
function today(): string {
  const now = new Date();
  return dateOfDay(
    dayNumber("1970-01-01") + Math.floor((now.getTime() - now.getTimezoneOffset() * 60_000) / 86_400_000),
  );
}

const titleOf = ({ name, settings }: Book): string => (settings.bookTitle === "" ? name : settings.bookTitle);

/** What the list is made from, in one or two sentences. */
function notes({ trays, undated, day }: DueTrays): string[] {
  const bases = new Map<string, number>();
  for (const { next } of trays) {
    const words =
      next.basis.kind === "usual" ? basisWords(next.basis) : `days of ${basisWords({ ...next.basis, waiting: 0 })}`;
    bases.set(words, (bases.get(words) ?? 0) + 1);
  }
  const [most] = [...bases].sort((a, b) => b[1] - a[1]);
  const since = day.on - day.known;
  return [
    ...(most === undefined ? [] : [`From ${most[0]}${bases.size > 1 ? ` and ${bases.size - 1} other groups` : ""}.`]),
    ...(since >= staleDays && trays.length > 0
      ? [`The sheets end on ${dayWords(dateOfDay(day.known))}: what was done since then is not known here.`]
      : []),
    ...(undated.length > 0
      ? [
          `${undated.length} growing ${undated.length === 1 ? "tray has" : "trays have"} no date: ${undated
            .slice(0, 4)
            .map(({ trayId }) => trayId)
            .join(", ")}${undated.length > 4 ? " and others" : ""}.`,
        ]
      : []),
  ];
}

/** Whether the latest cooks lose more than is usual, and what to look at. */
function losses({ trays, settings }: Book): string[] {
  const alarm = lossAlarm(trays, settings);
  const words = alarmWords(alarm);
  if (words === undefined) return [];
  const says = `Losses: ${words}.`;
  return [[says, ...alarmSteps(alarm).map(({ act }) => sentenceText(act, settings))].join(" ")];
}

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

/**
 * What is due in a book on a day, as text, calendar and page.
 * @param on ISO 8601 date
 */
export function dueFiles(book: Book, on: string): DueFiles {
  const due = dueTrays(book.trays, book.settings, on);
  const lines = dueLines(due);
  const title = titleOf(book);
  const { days, later } = dueWeek(lines, due.day);
  const said = notes(due);
  const count = due.trays.length;
  const shown = later.slice(0, mostLater);
  return {
    lines: [
      `${title}, ${dayWords(on)} ${on.slice(0, 4)}: ${count === 0 ? "no tray is growing" : `${count} ${count === 1 ? "tray is" : "trays are"} growing`}.`,
      ...said,
      ...losses(book),
      ...(count > 0 && days.length === 0 ? ["", "Nothing is due in the next seven days."] : []),
      ...days.flatMap(({ title: day, tasks }) => ["", day, ...columns(tasks)]),
      ...(shown.length === 0 ? [] : ["", "Later", ...columns(shown)]),
      ...(later.length > shown.length ? [`  and ${later.length - shown.length} more`] : []),
    ],
    calendar: calendarFile(dueEntries(lines, on), `${title}: trays due`, on),
    week: weekPage(title, on, said.join(" "), dueWeek(lines, due.day, true).days),
  };
}

/** @throws PlainFailure unless the text is a date */
function checkedDate(text: string): string {
  try {
    dayNumber(text);
    return text;
  } catch {
    throw new PlainFailure(`--on: give a date as year-month-day, such as 2026-03-10; received ${text}.`);
  }
}

/**
 * `gramwright due`: prints what is due of every growing tray by day, and writes it as a calendar or a page when asked to.
 * @throws PlainFailure if the book cannot be read, the date makes no sense, or a file cannot be written
 */
export async function printDue(path: string, options: DueOptions): Promise<void> {
  const on = checkedDate(options.on ?? today());
  const progress = terminalProgress();
  const { book, folder } = await openBookFolder(path, progress);
  progress.done();
  requireTrays(book, path);
  const { lines, calendar, week } = dueFiles(book, on);
  const outputs: Output[] = [
    ...(options.ics === undefined ? [] : [{ path: options.ics, text: calendar, kind: "calendar" as const }]),
    ...(options.week === undefined ? [] : [{ path: options.week, text: week, kind: "week" as const }]),
  ];
  const written = writeOutputs(outputs, folder);
  const said = written.length === 0 ? [] : ["", `Written: ${written.join(", ")}`];
  print(`${[...lines, ...said].join("\n")}\n`);
}
