import type { RawTable } from "../../records/sheet.ts";
import type { DateConventions } from "../dates/parse-date.ts";
import type { LogColumns } from "./log-columns.ts";
import { parseTimestamp } from "./parse-timestamp.ts";

/** A row's date and time as typed, from one column or two. */
export const momentOf = (cells: ReadonlyArray<string>, { date, clock }: LogColumns): string =>
  clock === undefined ? cells[date]! : `${cells[date]} ${cells[clock]}`;

/** The largest step of a series that only rises or only falls, in ms; undefined for any other series. */
function largestStep(moments: ReadonlyArray<string>): number | undefined {
  let largest = 0;
  let rises = false;
  let falls = false;
  for (let index = 1; index < moments.length; index++) {
    const step = Date.parse(`${moments[index]}Z`) - Date.parse(`${moments[index - 1]}Z`);
    if (step > 0) rises = true;
    if (step < 0) falls = true;
    largest = Math.max(largest, Math.abs(step));
  }
  return rises && falls ? undefined : largest;
}

/** A log runs in time: the order of day and month in which it does, without leaps, where only one of them does. */
export function orderInTime(table: RawTable, columns: LogColumns, dates: DateConventions): DateConventions {
  const dayFirst: string[] = [];
  const monthFirst: string[] = [];
  table.forEachRow((cells) => {
    const reading = parseTimestamp(momentOf(cells, columns), dates);
    // a date that is the same either way, such as 4/4/26, belongs to both series
    if (reading.kind !== "ambiguous" && reading.kind !== "moment") return;
    dayFirst.push(reading.kind === "moment" ? reading.at : reading.dayFirst);
    monthFirst.push(reading.kind === "moment" ? reading.at : reading.monthFirst);
  });
  const [day, month] = [largestStep(dayFirst), largestStep(monthFirst)];
  if (day === undefined && month === undefined) return dates;
  if (month === undefined || (day !== undefined && day * 5 < month)) return { ...dates, order: "day first" };
  if (day === undefined || month * 5 < day) return { ...dates, order: "month first" };
  return dates;
}
