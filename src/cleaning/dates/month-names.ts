import { fold } from "../../records/words/fold.ts";
import { placesOf } from "../../records/words/languages.ts";

const months = placesOf((words) => words.months);
const weekdays = placesOf((words) => words.weekdays);

/** The month, 1 to 12, that a name or abbreviation stands for in any of the eight languages. */
export function monthNamed(name: string): number | undefined {
  const place = months.get(fold(name));
  return place === undefined ? undefined : place + 1;
}

/** Whether a word names a day of the week in any of the eight languages. */
export const isWeekday = (word: string): boolean => weekdays.has(fold(word));
