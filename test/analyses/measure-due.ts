import { dueTrays } from "../../analyses/due/due-trays.ts";
import { dateOfDay, dayNumber } from "../../src/measures/day-number.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { pickingsOf } from "../../src/records/tray.ts";
import { type DueBook, dueBook, firstDay } from "./due-book.ts";

/** How often what was said of growing trays came true. */
export interface DueRates {
  windows: number;
  /** share of windows reported as 8 of 10 that held */
  held: number;
  /** share of trays that came sooner, and later, than their window */
  sooner: number;
  later: number;
  /** share of trays there by the day after which they are called overdue */
  byLate: number;
}

/** Looks at simulated books week by week and compares what was reported with what came. */
export function measureDue(book: Omit<DueBook, "seed">, seeds: number, from: number, every = 7): DueRates {
  let [windows, held, sooner, late] = [0, 0, 0, 0];
  for (let seed = 1; seed <= seeds; seed++) {
    const trays = dueBook({ ...book, seed });
    const end = firstDay + 7 * book.cooks;
    for (let day = firstDay + from; day < end; day += every) {
      for (const { tray, next, harvest } of dueTrays(trays, defaultSettings, dateOfDay(day)).trays) {
        for (const window of [next, ...(harvest === undefined ? [] : [harvest])]) {
          if (window.basis.kind !== "own") continue;
          const dates = {
            colonise: tray.colonisedOn,
            move: tray.fruitingOn,
            harvest: tray.harvestedOn,
            flush: pickingsOf(tray)
              .map(({ harvestedOn }) => harvestedOn!)
              .find((date) => dayNumber(date) > day),
          };
          const came = dayNumber(dates[window.step]!);
          windows++;
          if (came < window.low) sooner++;
          else if (came <= window.high) held++;
          if (came <= window.late) late++;
        }
      }
    }
  }
  const share = (count: number) => count / Math.max(1, windows);
  return { windows, held: share(held), sooner: share(sooner), later: 1 - share(held + sooner), byLate: share(late) };
}
