import { dueTrays } from "../../analyses/due/due-trays.ts";
import { lossAlarm } from "../../analyses/losses/loss-alarm.ts";
import { startForOrder } from "../../analyses/planning/start-for-order.ts";
import {
  growLoad,
  isSummer,
  knownOn,
  type YearLoad,
  type YearTray,
  yearTrays,
  yearTruth,
} from "../../data-samples/first-year.ts";
import { dateOfDay, dayNumber } from "../../src/measures/day-number.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";

/** Trays as the sheet had them on a day. */
export function recordsOn(trays: ReadonlyArray<YearTray>, day: number): Tray[] {
  const named = (name: string, value: number | undefined) => (value === undefined ? {} : { [name]: dateOfDay(value) });
  return trays.flatMap((tray) => {
    const known = knownOn(tray, day);
    if (known === undefined) return [];
    const { trayId, cook, jar, shelf, position, doseMillilitres, outcome, freshGrams, dryGrams } = known;
    return [
      trayRecord({
        ...{ trayId, batch: cook, jar, shelf, loadPosition: String(position), strain: "grey oyster", outcome },
        inoculumMillilitres: doseMillilitres,
        ...named("inoculatedOn", known.inoculated),
        ...named("colonisedOn", known.colonised),
        ...named("fruitingOn", known.fruiting),
        ...named("harvestedOn", known.harvested),
        ...named("driedOn", known.dried),
        ...(freshGrams === undefined ? {} : { freshGrams }),
        ...(dryGrams === undefined ? {} : { dryGrams }),
      }),
    ];
  });
}

/** What a year looked at week by week promised, and what came. */
export interface YearRates {
  windows: number;
  /** of windows told as 8 of 10 */
  held: number;
  /** of trays there by the day after which they are called overdue */
  byLate: number;
  /** years in which the bad cook was named in time, and alarms a year about anything before the summer but it */
  badCookNamed: number;
  falseAlarms: number;
  /** years with an alarm about the warm weeks */
  summerHeard: number;
}

const isBad = ({ batch }: Tray): boolean => batch === yearTruth.badCook;

/** Runs years week by week through what is due and the loss alarm. */
export function measureYears(years: number): YearRates {
  let [windows, held, byLate, badCookNamed, falseAlarms, summerHeard] = [0, 0, 0, 0, 0, 0];
  for (let seed = 1; seed <= years; seed++) {
    const trays = yearTrays(seed);
    const truth = new Map(trays.map((tray) => [tray.trayId, tray]));
    const first = dayNumber(yearTruth.firstDay);
    let [named, wasBad, wasSummer] = ["", false, false];
    for (let day = first + 70; day < first + 360; day += 7) {
      const records = recordsOn(trays, day);
      for (const { tray, next, harvest } of dueTrays(records, defaultSettings, dateOfDay(day)).trays) {
        const own = truth.get(tray.trayId)!;
        for (const window of [next, ...(harvest === undefined ? [] : [harvest])]) {
          const came = { colonise: own.colonised, move: own.fruiting, harvest: own.harvested, flush: undefined }[
            window.step
          ];
          if (window.basis.kind !== "own" || came === undefined || own.lost !== undefined) continue;
          windows++;
          if (came >= window.low && came <= window.high) held++;
          if (came <= window.late) byLate++;
        }
      }
      const alarm = lossAlarm(records, defaultSettings);
      const now = alarm?.heard === true ? `${alarm.worst!.name} ${alarm.worst!.level}` : "";
      if (now !== "" && alarm!.worst!.lost.filter(isBad).length * 2 >= alarm!.worst!.lost.length) wasBad = true;
      else if (now !== "" && isSummer(day - 20)) wasSummer = true;
      else if (now !== "" && now !== named && day < dayNumber("2026-07-01")) falseAlarms++;
      named = now;
    }
    if (wasBad) badCookNamed++;
    if (wasSummer) summerHeard++;
  }
  const share = (count: number, of: number) => count / Math.max(1, of);
  return {
    ...{ windows, held: share(held, windows), byLate: share(byLate, windows) },
    ...{ badCookNamed: share(badCookNamed, years), falseAlarms: share(falseAlarms, years) },
    summerHeard: share(summerHeard, years),
  };
}

/** How sure orders were said to be, and how often they were met. */
export interface OrderRates {
  orders: number;
  /** orders that could be promised */
  promised: number;
  /** mean chance told, and share met, of those promised */
  told: number;
  met: number;
  /** mean number of new loads */
  loads: number;
}

/** Grows what a plan starts and what already grew, and looks whether the order was met in time. */
export function measureOrders(
  growers: number,
  { pastCooks, grams, sure }: { pastCooks: number; grams: number; sure: number },
): OrderRates {
  let [promised, told, met, loads] = [0, 0, 0, 0];
  for (let seed = 1; seed <= growers; seed++) {
    const random = seededRandom(1000 + seed);
    const load = (index: number, day: number): YearLoad => ({ cook: `C${index}`, day, doses: [8, 8, 8, 8, 8, 8] });
    const end = dayNumber("2026-04-20");
    const past = Array.from({ length: pastCooks }, (_, index) => load(index + 1, end - 14 * (pastCooks - index)));
    const trays = past.flatMap((one) => growLoad(one, random));
    const by = end + 75;
    const order = { grams, weight: "dry" as const, by: dateOfDay(by), sure, on: dateOfDay(end) };
    const plan = startForOrder(trialOfTrays(recordsOn(trays, end), { seed }), order);
    if (plan.kind === "cannot-tell" || !plan.isEnough) continue;
    promised++;
    told += plan.chances[plan.starts.length]!;
    loads += plan.starts.length;
    const started = plan.starts.flatMap((date, index) => growLoad(load(100 + index, dayNumber(date)), random));
    const growing = trays.filter(
      ({ harvested, lost }) => harvested !== undefined && harvested > end && (lost === undefined || lost > end),
    );
    const sum = [...started, ...growing]
      .filter(({ dried, lost }) => dried !== undefined && dried <= by && lost === undefined)
      .reduce((total, { dryGrams = 0 }) => total + dryGrams, 0);
    if (sum >= grams) met++;
  }
  return {
    orders: growers,
    promised,
    told: told / Math.max(1, promised),
    met: met / Math.max(1, promised),
    loads: loads / Math.max(1, promised),
  };
}
