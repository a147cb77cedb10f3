import type { Tray } from "../../src/records/tray.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";

/** Trays that stood in one chamber at one setting from one cook: one trial of that temperature, however many they are. */
export interface ChamberRun {
  name: string;
  /** undefined where chambers are not recorded */
  chamber: string | undefined;
  cook: string | undefined;
  celsius: number | undefined;
  trays: Tray[];
}

/** Sorts trays into runs. Trays without a cook run with those moved to fruiting (else inoculated) in the same month. */
export function chamberRuns(trays: ReadonlyArray<Tray>): ChamberRun[] {
  const runs = new Map<string, ChamberRun>();
  for (const tray of trays) {
    const { chamber, fruitingCelsius: celsius } = tray;
    const cook = tray.batch ?? (tray.fruitingOn ?? tray.inoculatedOn)?.slice(0, 7);
    const key = JSON.stringify([chamber, cook, celsius]);
    const run = runs.get(key) ?? {
      name: [chamber, cook, celsius === undefined ? undefined : `${celsius} °C`]
        .filter((part) => part !== undefined)
        .join(", "),
      chamber,
      cook,
      celsius,
      trays: [],
    };
    runs.set(key, run);
    run.trays.push(tray);
  }
  return [...runs.values()];
}

/** Mean of a response over a run's trays, a pool counting as its trays; undefined where no tray has it. */
export function runMean(run: ChamberRun, response: TrayResponse): number | undefined {
  let [sum, count] = [0, 0];
  for (const tray of run.trays) {
    const value = response.of(tray);
    if (value === undefined) continue;
    sum += value * tray.traysInPool;
    count += tray.traysInPool;
  }
  return count === 0 ? undefined : sum / count;
}
