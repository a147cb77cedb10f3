import type { CalendarEntry } from "../../src/planning/calendar-file.ts";
import { contentName } from "../../src/records/content-name.ts";
import { counted } from "../../src/records/counted.ts";
import { grouped } from "../../src/records/grouped.ts";
import { basisWords, type DueLine } from "./due-lines.ts";

const isLate = ({ state }: DueLine): boolean => state === "lost" || state === "overdue";

/**
 * What is due as entries of a calendar: one for each cook and step, from the first day to the last of its trays, so that
 * a phone is not filled with one entry a tray. Late trays have an entry on the day itself.
 * @param on ISO 8601 date
 */
export function dueEntries(lines: ReadonlyArray<DueLine>, on: string): CalendarEntry[] {
  // trays without a cook have one entry a row, named by its first tray
  const groups = grouped(lines, (line) =>
    JSON.stringify([isLate(line) ? "late" : line.step, line.cook ?? line.trays[0]]),
  );
  return [...groups].map(([key, own]) => {
    const [first] = own;
    const late = isLate(first!);
    const count = own.reduce((sum, { trays }) => sum + trays.length, 0);
    const what = late ? "Look at" : first!.what.charAt(0).toUpperCase() + first!.what.slice(1);
    const begins = own.map(({ low }) => low).sort()[0]!;
    const ends = own
      .map(({ high }) => high)
      .sort()
      .at(-1)!;
    return {
      uid: `${late ? "late" : first!.step}-${contentName(key).slice(0, 16)}@gramwright`,
      from: late || begins < on ? on : begins,
      to: late ? on : ends < on ? on : ends,
      title: `${what}: ${first!.cook === undefined ? "" : `cook ${first!.cook}, `}${counted(count, "tray")}`,
      description: [...own.map(({ who, when }) => `${who}: ${when}`), `From ${basisWords(first!.basis)}.`].join("\n"),
    };
  });
}
