import { dateOfDay } from "../../src/measures/day-number.ts";
import { dayWords } from "../../src/planning/day-words.ts";
import type { WeekDay } from "../../src/planning/week-page.ts";
import type { DueLine } from "./due-lines.ts";
import type { DueDay } from "./known-days.ts";

/** days of a printed week */
const length = 7;

/**
 * What is due by day: what is late first, then each day of the week, then what comes later.
 * @param all with days on which nothing is due, for paper
 */
export function dueWeek(
  lines: ReadonlyArray<DueLine>,
  { on }: DueDay,
  all = false,
): { days: WeekDay[]; later: DueLine[] } {
  const late = lines.filter(({ state }) => state === "lost" || state === "overdue");
  const others = lines.filter((line) => !late.includes(line));
  const lastDay = dateOfDay(on + length - 1);
  const days = Array.from({ length }, (_, index): WeekDay => {
    const date = dateOfDay(on + index);
    return { title: dayWords(date), tasks: others.filter(({ day }) => day === date) };
  });
  const first: WeekDay[] = late.length === 0 ? [] : [{ title: "Look at first", tasks: late.map(lateTask) }];
  return {
    days: [...first, ...(all ? days : days.filter(({ tasks }) => tasks.length > 0))],
    later: others.filter(({ day }) => day > lastDay).sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0)),
  };
}

const lateTask = (line: DueLine) => ({ ...line, what: line.state === "lost" ? "likely lost" : "overdue" });
