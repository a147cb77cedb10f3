import { type LossAlarm, lossAlarm } from "../../analyses/losses/loss-alarm.ts";
import { dateOfDay } from "../../src/measures/day-number.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import type { Tray } from "../../src/records/tray.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { trayRecord } from "./demo-records.ts";

/** A grower whose losses are known: two jars a pair of cooks, places, shelves and two people dealt over the trays. */
export interface AlarmGrower {
  seed: number;
  cooks: number;
  cooksAYear: number;
  traysPerCook: number;
  /** chance that a tray is lost */
  share: (facts: Partial<Tray>, cook: number) => number;
  /** whether jar, place, shelf and person are written down */
  written: boolean;
}

/** Draws such a grower's trays. */
export function alarmBook({ seed, cooks, cooksAYear, traysPerCook, share, written }: AlarmGrower): Tray[] {
  const random = seededRandom(seed);
  return Array.from({ length: cooks * traysPerCook }, (_, index) => {
    const [cook, place] = [Math.floor(index / traysPerCook), index % traysPerCook];
    const groups = {
      load: `L${cook}`,
      jar: `J${2 * Math.floor(cook / 2) + (place % 2)}`,
      loadPosition: String(place + 1),
      shelf: `S${random.integer(3)}`,
      operator: ["Ada", "Bo"][random.integer(2)]!,
    };
    const facts = { batch: `C${cook}`, ...(written ? groups : {}) };
    return trayRecord({
      trayId: `T${index}`,
      ...facts,
      inoculatedOn: dateOfDay(20_000 + Math.round((cook * 365) / cooksAYear)),
      outcome: random.uniform() < share({ ...groups, ...facts }, cook) ? "contaminated" : "good",
    });
  });
}

/** What is named: the same over several cooks is one alarm. */
const nameOf = ({ worst }: LossAlarm): string => {
  const moves = worst!.keys.every((key) => ["batch", "load", "inoculated_on"].includes(key));
  return JSON.stringify([worst!.name, worst!.level, moves ? worst!.cook : ""]);
};

/** Losses that come in clumps: one cook in five loses three times its share, the others half of it. */
const clumped = (seed: number, cooks: number, share: number): number[] => {
  const random = seededRandom(900_000 + seed);
  return Array.from({ length: cooks }, () => share * (random.uniform() < 0.2 ? 3 : 0.5));
};

/**
 * Alarms a year that growers with steady losses hear, looking after each cook from half a year on.
 * @param grower `clumps`: the share changes from cook to cook by chance, with the same mean
 */
export function falseAlarmsAYear(
  grower: Omit<AlarmGrower, "seed" | "share" | "cooks"> & { share: number; clumps?: boolean },
  growers: number,
  years: number,
): number {
  const first = Math.round(grower.cooksAYear / 2);
  const cooks = first + Math.round(years * grower.cooksAYear);
  let alarms = 0;
  for (let seed = 1; seed <= growers; seed++) {
    const shares = grower.clumps === true ? clumped(seed, cooks, grower.share) : [];
    const trays = alarmBook({ ...grower, seed, cooks, share: (_, cook) => shares[cook] ?? grower.share });
    let named = "";
    for (let cook = first; cook < cooks; cook++) {
      const alarm = lossAlarm(trays.slice(0, (cook + 1) * grower.traysPerCook), defaultSettings)!;
      const now = alarm.heard ? nameOf(alarm) : "";
      if (now !== "" && now !== named) alarms++;
      named = now;
    }
  }
  return alarms / (growers * years);
}

/** Share of growers who hear an alarm that names what went wrong in their last cook, and of those who hear any. */
export function alarmsHeard(
  share: AlarmGrower["share"],
  isIt: (alarm: LossAlarm) => boolean,
  growers: number,
): { heard: number; named: number } {
  let [heard, named] = [0, 0];
  for (let seed = 1; seed <= growers; seed++) {
    const book = { seed: 7 * seed, cooks: 24, cooksAYear: 24, traysPerCook: 6, written: true, share };
    const alarm = lossAlarm(alarmBook(book), defaultSettings)!;
    if (!alarm.heard) continue;
    heard++;
    if (isIt(alarm)) named++;
  }
  return { heard: heard / growers, named: named / growers };
}
