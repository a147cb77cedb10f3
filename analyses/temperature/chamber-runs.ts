import type { Sentence } from "../../src/analysis.ts";
import type { Tray } from "../../src/records/tray.ts";
import type { Observation, TrayResponse } from "../comparison/tray-response.ts";

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

/** One observation for each run that has the response, with its temperature as the arm and its cook as the group. */
export function runObservations(runs: ReadonlyArray<ChamberRun>, response: TrayResponse): Observation[] {
  return runs.flatMap((run) => {
    const value = runMean(run, response);
    if (value === undefined || run.celsius === undefined) return [];
    const arm = String(run.celsius);
    return [{ tray: run.name, arm, dose: run.celsius, value, groups: [run.cook ?? ""], source: run.trays[0]! }];
  });
}

/** Whether temperature can be told from chamber and cook, by the runs. */
export type TemperatureLayout =
  | {
      kind: "judged";
      runs: ChamberRun[];
      levels: number[];
      runsPerLevel: number[];
      sideBySide: boolean;
      chambersRecorded: boolean;
    }
  | {
      kind: "not-judged";
      because: "not recorded" | "one level" | "one chamber per temperature" | "one run per temperature";
      detail: Sentence;
    };

/**
 * Decides by the runs whether temperature can be judged: every temperature needs two runs or more, and where chambers are
 * recorded, some chamber must have had several temperatures or every temperature several chambers.
 */
export function temperatureLayout(trays: ReadonlyArray<Tray>): TemperatureLayout {
  const known = trays.filter(({ fruitingCelsius }) => fruitingCelsius !== undefined);
  if (known.length === 0)
    return { kind: "not-judged", because: "not recorded", detail: ["no tray has its fruiting temperature recorded"] };
  const runs = chamberRuns(known);
  const levels = [...new Set(runs.map(({ celsius }) => celsius!))].sort((a, b) => a - b);
  if (levels.length < 2) {
    return {
      kind: "not-judged",
      because: "one level",
      detail: ["every tray was fruited at the same temperature (", { value: levels[0]!, unit: "°C" }, ")"],
    };
  }
  const chambersRecorded = runs.every(({ chamber }) => chamber !== undefined);
  const ofLevel = levels.map((level) => runs.filter(({ celsius }) => celsius === level));
  if (chambersRecorded) {
    const levelsOf = new Map<string, Set<number>>();
    for (const { chamber, celsius } of runs)
      levelsOf.set(chamber!, (levelsOf.get(chamber!) ?? new Set()).add(celsius!));
    const someSwapped = [...levelsOf.values()].some((own) => own.size > 1);
    const single = ofLevel.filter((own) => new Set(own.map(({ chamber }) => chamber)).size < 2);
    if (!someSwapped && single.length > 0) {
      return {
        kind: "not-judged",
        because: "one chamber per temperature",
        detail: [
          `each temperature had ${single.length === levels.length ? "one chamber of its own" : "chambers of its own, some only one"}, so chamber and temperature cannot be told apart, however many trays there are`,
        ],
      };
    }
  }
  const runsPerLevel = ofLevel.map((own) => own.length);
  if (Math.min(...runsPerLevel) < 2) {
    return {
      kind: "not-judged",
      because: "one run per temperature",
      detail: ["a temperature was run only once, and trays of one chamber run count as one, however many there are"],
    };
  }
  const cooks = new Map<string, Set<number>>();
  for (const { cook, celsius } of runs) {
    if (cook !== undefined) cooks.set(cook, (cooks.get(cook) ?? new Set()).add(celsius!));
  }
  const shared = [...cooks.values()].filter((own) => own.size > 1).length;
  return {
    kind: "judged",
    runs,
    levels,
    runsPerLevel,
    sideBySide: shared >= 2 && shared * 2 >= cooks.size,
    chambersRecorded,
  };
}
