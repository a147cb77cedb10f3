import type { Sentence, Trial } from "../../src/analysis.ts";
import { dateOfDay, dayNumber } from "../../src/measures/day-number.ts";
import { calendarFile } from "../../src/planning/calendar-file.ts";
import { dayWords } from "../../src/planning/day-words.ts";
import { type WeekDay, type WeekTask, weekPage } from "../../src/planning/week-page.ts";
import { counted } from "../../src/records/counted.ts";
import { alarmNotes } from "../losses/alarm-words.ts";
import { lossAlarm } from "../losses/loss-alarm.ts";
import { dueEntries } from "./due-entries.ts";
import { basisWords, dueLines } from "./due-lines.ts";
import { type DueTrays, dueCount, dueTrays } from "./due-trays.ts";
import { dueWeek } from "./due-week.ts";
import { keepOrBin, keepOrBinSays } from "./keep-or-bin.ts";

/** What is due in a book on a day, in words, as a calendar and as a page for paper. */
export interface DueList {
  /** ISO 8601 date it is for, and the last date the sheets tell of */
  on: string;
  known: string;
  /** "Lantern Shed, Fri 28 Aug 2026: 12 trays are growing." */
  title: string;
  /** what it is made from and what is not known */
  notes: string[];
  /** what to look at first, then the days of the week on which something is due */
  days: WeekDay[];
  later: WeekTask[];
  /** of what comes later, how much is not listed */
  more: number;
  calendar: string;
  week: string;
}

/** days between the sheets' last date and the list's, from which that is said */
const staleDays = 4;
/** Whether the sheets end some days before the day the list is for. */
export const isStale = ({ on, known }: DueList): boolean => dayNumber(on) - dayNumber(known) >= staleDays;

/** pieces of advice on late trays */
const mostAdvice = 3;
/** rows of what comes after the week */
const mostLater = 12;

/** What the list is made from, in one or two sentences. */
function notesOf({ trays, undated, day }: DueTrays): string[] {
  const bases = new Map<string, number>();
  for (const { next } of trays) {
    const words =
      next.basis.kind === "usual" ? basisWords(next.basis) : `days of ${basisWords({ ...next.basis, waiting: 0 })}`;
    bases.set(words, (bases.get(words) ?? 0) + 1);
  }
  const [most] = [...bases].sort((a, b) => b[1] - a[1]);
  const since = day.on - day.known;
  return [
    ...(most === undefined
      ? []
      : [
          `From ${most[0]}${bases.size > 1 ? ` and ${bases.size - 1} other ${bases.size === 2 ? "group" : "groups"}` : ""}.`,
        ]),
    ...(since >= staleDays && trays.length > 0
      ? [`The sheets end on ${dayWords(dateOfDay(day.known))}: what was done since then is not known here.`]
      : []),
    ...(undated.length > 0
      ? [
          `${counted(undated.length, "growing tray has", "growing trays have")} no date: ${undated
            .slice(0, 4)
            .map(({ trayId }) => trayId)
            .join(", ")}${undated.length > 4 ? " and others" : ""}.`,
        ]
      : []),
  ];
}

/**
 * What is due in a book on a day, as lists and files.
 * @param on ISO 8601 date
 * @param write a sentence as text, in the book's money
 */
export function dueList(trial: Trial, name: string, on: string, write: (says: Sentence) => string): DueList {
  const { trays, settings } = trial;
  const due = dueTrays(trays, settings, on);
  const lines = dueLines(due);
  const title = settings.bookTitle === "" ? name : settings.bookTitle;
  const { days, later } = dueWeek(lines, due.day);
  const notes = [
    ...notesOf(due),
    ...alarmNotes(lossAlarm(trays, settings)),
    ...keepOrBinSays(keepOrBin(trial, due), mostAdvice).map(write),
  ];
  const count = dueCount(due.trays);
  const plain = ({ what, who, when }: WeekTask): WeekTask => ({ what, who, when });
  return {
    on,
    known: dateOfDay(due.day.known),
    title: `${title}, ${dayWords(on)} ${on.slice(0, 4)}: ${count === 0 ? "no tray is growing" : `${counted(count, "tray is", "trays are")} growing`}.`,
    notes: count > 0 && days.length === 0 ? [...notes, "Nothing is due in the next seven days."] : notes,
    days: days.map(({ title: day, tasks }) => ({ title: day, tasks: tasks.map(plain) })),
    later: later.slice(0, mostLater).map(plain),
    more: Math.max(0, later.length - mostLater),
    calendar: calendarFile(dueEntries(lines, on), `${title}: trays due`, on),
    week: weekPage(title, on, notes.join(" "), dueWeek(lines, due.day, true).days),
  };
}
