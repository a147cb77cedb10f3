import { isContaminationASignal } from "../../analyses/losses/is-contamination-a-signal.ts";
import type { Trial } from "../../src/analysis.ts";
import { isLost } from "../../src/records/tray.ts";
import { stratifiedAssociation } from "../../src/statistics/counts/stratified-association.ts";
import { plainReading, type Reading, toldNothing } from "./reading.ts";

/** Whether losses are reported as a signal. There is no true value for its interval to hold here. */
export function readLosses(trial: Trial): Reading {
  const outcome = isContaminationASignal.run(trial);
  return outcome.kind === "cannot-tell" ? toldNothing : plainReading(outcome.certainty === "settled", true);
}

/** The cook with the largest share lost against all others by Mantel's test at 5 %. */
export function readWorstCook(trial: Trial): Reading {
  const cooks = [...new Set(trial.trays.map(({ batch }) => batch!))].map((cook) => {
    const own = trial.trays.filter(({ batch }) => batch === cook);
    return { lost: own.filter(isLost).length, trays: own.length };
  });
  const worst = cooks.reduce((a, b) => (b.lost / b.trays > a.lost / a.trays ? b : a));
  const lost = trial.trays.filter(isLost).length;
  if (lost === 0 || lost === trial.trays.length || cooks.length < 2) return toldNothing;
  const test = stratifiedAssociation([
    { events: [worst.lost, lost - worst.lost], trials: [worst.trays, trial.trays.length - worst.trays] },
  ]);
  return plainReading(test !== undefined && test.p < 0.05, true);
}
