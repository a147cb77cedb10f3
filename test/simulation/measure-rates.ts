import { colonisationDays } from "../../analyses/comparison/tray-days.ts";
import { yieldPerGoodTray, yieldPerStartedTray } from "../../analyses/comparison/tray-response.ts";
import type { Trial } from "../../src/analysis.ts";
import { readBestDose, readBestMean } from "./read-best-dose.ts";
import { type Asked, readDoses, readHeaps } from "./read-doses.ts";
import { readHeapsAtEveryLook, readLooks } from "./read-looks.ts";
import { readLosses, readWorstCook } from "./read-losses.ts";
import type { Reading } from "./reading.ts";
import { bookOf, type Read, type Scenario } from "./scenarios.ts";

/** Shares over many books, each 0 to 1. */
export interface Rates {
  alarm: number;
  cannotTell: number;
  headlineCoverage: number;
}

/** One scenario, one result of its trays, many books. */
export interface Measured {
  scenario: Scenario;
  read: Read;
  /** in truth there is nothing to raise an alarm about */
  alarmIsFalse: boolean;
  books: number;
  ours: Rates;
  naive: Rates;
}

const share = <T>(of: ReadonlyArray<T>, holds: (one: T) => boolean): number =>
  of.length === 0 ? 1 : of.filter(holds).length / of.length;

function ratesOf(readings: ReadonlyArray<Reading>): Rates {
  const reported = readings.filter(({ cannotTell }) => !cannotTell);
  return {
    alarm: share(readings, ({ alarm }) => alarm),
    cannotTell: share(readings, ({ cannotTell }) => cannotTell),
    headlineCoverage: share(reported, ({ headlineCovers }) => headlineCovers),
  };
}

/** What one result of a tray really is at a dose; supplements count equally. */
export function trulyOf({ truth, supplements }: Scenario, read: Read): (dose: number) => number {
  if (read === "days") return (dose) => truth.days(dose);
  if (read === "losses") return (dose) => truth.loss(dose);
  const good = (dose: number) =>
    (supplements ?? [undefined]).reduce((sum, supplement) => sum + truth.grams(dose, supplement), 0) /
    (supplements?.length ?? 1);
  return read === "started" ? (dose) => good(dose) * (1 - truth.loss(dose)) : good;
}

interface Reader {
  ours(trial: Trial): Reading;
  naive(trial: Trial): Reading;
}

function readerOf(read: Read, truly: (dose: number) => number): Reader {
  const asked: Asked =
    read === "days"
      ? { response: colonisationDays, better: "lower", truly }
      : {
          response: read === "started" ? yieldPerStartedTray("dry") : yieldPerGoodTray("dry"),
          better: "higher",
          truly,
        };
  switch (read) {
    case "good":
    case "started":
    case "days":
      return { ours: (trial) => readDoses(trial, asked), naive: (trial) => readHeaps(trial, asked) };
    case "looks":
      return { ours: (trial) => readLooks(trial, asked), naive: (trial) => readHeapsAtEveryLook(trial, asked) };
    case "best dose":
      return { ours: (trial) => readBestDose(trial, truly), naive: (trial) => readBestMean(trial, truly) };
    case "losses":
      return { ours: readLosses, naive: readWorstCook };
  }
}

/** Reads seeded books of a scenario by the project's method and by the plainest one, and counts. */
export function measureRates(scenario: Scenario, read: Read, books: number, firstSeed = 1): Measured {
  const truly = trulyOf(scenario, read);
  const reader = readerOf(read, truly);
  const ours: Reading[] = [];
  const naive: Reading[] = [];
  for (let seed = firstSeed; seed < firstSeed + books; seed++) {
    const trial = bookOf(scenario, seed);
    ours.push(reader.ours(trial));
    naive.push(reader.naive(trial));
  }
  const values = scenario.doses.map(truly);
  return {
    scenario,
    read,
    alarmIsFalse:
      read === "best dose" ? scenario.bestAtEdge === true : Math.max(...values) - Math.min(...values) < 1e-9,
    books,
    ours: ratesOf(ours),
    naive: ratesOf(naive),
  };
}

/** Standard error of a share counted over so many books, were the share as stated. */
export const standardErrorOf = (stated: number, books: number): number => Math.sqrt((stated * (1 - stated)) / books);

/** False-alarm rate and interval level the methods promise. */
export const promised = { alarm: 0.05, coverage: 0.95 } as const;

/**
 * Where a measurement breaks what is promised, in words; empty when it does not.
 * @param allowed standard errors of the counted share by which it may miss
 */
export function broken({ scenario, alarmIsFalse, books, ours }: Measured, allowed = 2): string[] {
  if (scenario.right === "cannot tell") {
    return ours.cannotTell === 1 ? [] : [`cannot tell in ${ours.cannotTell} of the books, not in all`];
  }
  const [most, least] = [
    promised.alarm + allowed * standardErrorOf(promised.alarm, books),
    promised.coverage - allowed * standardErrorOf(promised.coverage, books),
  ];
  return [
    ...(ours.cannotTell > 0.5 ? [`cannot tell in ${ours.cannotTell} of the books`] : []),
    ...(alarmIsFalse && ours.alarm > most ? [`false alarms ${ours.alarm}, more than ${most}`] : []),
    ...(ours.headlineCoverage < least ? [`headline covered ${ours.headlineCoverage}, less than ${least}`] : []),
  ];
}
