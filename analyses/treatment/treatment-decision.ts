import type { Trial } from "../../src/analysis.ts";
import {
  type Decision,
  decideComparison,
  decideStartedTrays,
  decideUnordered,
  type Level,
  type Suppositions,
  type VerdictSettings,
} from "../../src/decisions/verdict/index.ts";
import { mostLevels, type VariedThing, variedThings } from "../../src/design/varied-things.ts";
import { hasEnded } from "../../src/records/tray.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { type GatheredTrays, gatherTrays } from "./compared-trays.ts";

/** What varied in a book and what the verdict rules say of it on one response. */
export interface TreatmentDecision {
  thing: VariedThing;
  response: TrayResponse;
  gathered: GatheredTrays;
  decision: Decision;
  /** per started tray; absent for responses that lost trays know nothing of */
  started?: Decision;
}

/** How a response is compared. */
export interface ComparedOn {
  response: TrayResponse;
  better: "higher" | "lower";
  /** lost trays count, as losses and as nothing in a started tray */
  withLost: boolean;
  /** for responses that are not weights; see `Suppositions` */
  suppositions?: Suppositions;
}

/** Everything that varied, the main thing first. */
export function thingsOf(trial: Trial): ReadonlyArray<VariedThing> {
  const { trays, settings, memo } = trial;
  return memo.once([trays, settings], "things that varied", () =>
    variedThings(trays.filter(hasEnded), settings.varied),
  );
}

/** Dates make seasons and years, so what they hold followed the calendar by itself. */
const isPeriod = ({ factor }: VariedThing): boolean => factor.key === "season" || factor.key === "year";

/** Whether chance chose which tray, or cook, got which level. */
export const isDrawnByLot = ({ settings }: Trial): boolean => settings.dosesDrawnByLot === "yes";

function settingsOf(trial: Trial, thing: VariedThing, on: ComparedOn): VerdictSettings {
  const { settings, reading } = trial;
  return {
    alpha: settings.significanceLevel,
    reading: reading ?? "unknown",
    drawnByLot: isDrawnByLot(trial) || isPeriod(thing),
    better: on.better,
    ...(on.suppositions === undefined ? {} : { suppositions: on.suppositions }),
    ...(usualLevel(settings.usualDose, thing) ?? {}),
  };
}

function usualLevel(typed: string, { kind }: VariedThing): { usual: Level } | undefined {
  if (typed === "") return undefined;
  return { usual: kind === "amount" ? Number(typed) : typed };
}

/**
 * What the verdict rules say of a thing that varied, on one response.
 * @returns undefined where no finished tray counts
 */
export function decideTreatment(trial: Trial, thing: VariedThing, on: ComparedOn): TreatmentDecision | undefined {
  const { trays, settings, memo } = trial;
  const name = JSON.stringify(["verdict", thing.factor.key, on.response.label, trial.reading ?? "unknown"]);
  return memo.once([trays, settings], name, () => {
    const gathered = gatherTrays(trays, thing.factor, on.response, on.withLost);
    if (gathered.trays.length === 0) return undefined;
    const verdictSettings = settingsOf(trial, thing, on);
    const decide = thing.kind === "amount" ? decideComparison : decideUnordered;
    return {
      thing,
      response: on.response,
      gathered,
      decision: decide(gathered.trays, verdictSettings),
      ...(on.withLost ? { started: decideStartedTrays(gathered.trays, verdictSettings) } : {}),
    };
  });
}

/** Whether an amount has too many levels to be told one by one. */
export const isTrend = ({ kind, levels }: VariedThing): boolean => kind === "amount" && levels > mostLevels;
