import { whatChangedTheYield } from "../../analyses/treatment/what-changed-the-yield.ts";
import type { Trial } from "../../src/analysis.ts";
import { readingOf } from "../../src/decisions/verdict/index.ts";
import { type Asked, readHeaps } from "./read-doses.ts";
import { holds, plainReading, type Reading, toldNothing } from "./reading.ts";

/** The doses an estimate is of, from its label: "9 mL against 3 mL, dry yield per good tray". */
function dosesNamed(label: string): [number, number] {
  const found = /^([\d.]+) mL against ([\d.]+) mL/.exec(label);
  if (found === null) throw new Error(`no two doses in "${label}"`);
  return [Number(found[1]), Number(found[2])];
}

/** Whether a gain is settled at any reading of a book that is read after every cook, each reading noted in the record. */
export function readLooks(trial: Trial, asked: Asked): Reading {
  const days = [...new Set(trial.trays.map(({ inoculatedOn }) => inoculatedOn!))].sort();
  const outcomes = days.map((day, reading) =>
    whatChangedTheYield.run({
      ...trial,
      trays: trial.trays.filter(({ inoculatedOn }) => inoculatedOn! <= day),
      reading: readingOf({
        finishedCooks: reading + 1,
        growing: false,
        earlier: days.slice(0, reading).map((_, i) => i + 1),
      }),
    }),
  );
  const outcome = outcomes.at(-1)!;
  if (outcome.kind === "cannot-tell") return toldNothing;
  const { label, low, high } = outcome.estimates[0]!;
  const [to, from] = dosesNamed(label);
  const truly = asked.truly(to) - asked.truly(from);
  return plainReading(
    outcomes.some((one) => one.kind === "answer" && one.certainty === "settled"),
    low === undefined || high === undefined || holds(low, high, truly),
  );
}

/** The heaps compared again after every cook: an alarm at any look is an alarm. */
export function readHeapsAtEveryLook(trial: Trial, asked: Asked): Reading {
  const days = [...new Set(trial.trays.map(({ inoculatedOn }) => inoculatedOn!))].sort();
  const readings = days.map((day) =>
    readHeaps({ ...trial, trays: trial.trays.filter(({ inoculatedOn }) => inoculatedOn! <= day) }, asked),
  );
  return plainReading(
    readings.some(({ alarm }) => alarm),
    readings.every(({ headlineCovers }) => headlineCovers),
  );
}
