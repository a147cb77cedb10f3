import type { Trial } from "../../src/analysis.ts";
import {
  type ComparedTray,
  type Decision,
  decideComparison,
  decideStartedTrays,
  decideUnordered,
  type Level,
  type Suppositions,
  type VerdictSettings,
} from "../../src/decisions/verdict/index.ts";
import type { Factor } from "../../src/design/factor.ts";
import { mostLevels, type VariedThing, variedThings } from "../../src/design/varied-things.ts";
import { hasEnded } from "../../src/records/tray.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { alwaysWith } from "./came-together.ts";
import { type GatheredTrays, gatherTrays } from "./compared-trays.ts";
import { atReadings, type ReadingWord, standingSince } from "./earlier-readings.ts";

/** What varied in a book and what the verdict rules say of it on one response. */
export interface TreatmentDecision {
  thing: VariedThing;
  response: TrayResponse;
  gathered: GatheredTrays;
  decision: Decision;
  /** per started tray; absent for responses that lost trays know nothing of */
  started?: Decision;
  /** the report's main question: it is decided first, the others by what that leaves */
  isMain: boolean;
  /** another thing varied in the same cooks, which is taken out */
  beside?: VariedThing;
  /** what each recorded reading says of the trays it had, this one last; empty where no record is kept */
  readings: ReadingWord[];
  /** settled at an earlier reading and not contradicted since */
  settledBefore: boolean;
  settings: VerdictSettings;
}

/** How a response is compared. */
export interface ComparedOn {
  response: TrayResponse;
  better: "higher" | "lower";
  /** lost trays count, as losses and as nothing in a started tray */
  withLost: boolean;
  /** for responses that are not weights; see `Suppositions` */
  suppositions?: Suppositions;
  /** what the response is worked out from besides the trays: costs, prices */
  from?: ReadonlyArray<object>;
}

/** Everything that varied, the main thing first. */
export function thingsOf(trial: Trial): ReadonlyArray<VariedThing> {
  const { trays, settings, memo } = trial;
  return memo.once([trays, settings], "things that varied", () =>
    variedThings(trays.filter(hasEnded), settings.varied),
  );
}

/** Dates make seasons and years, so what they hold followed the calendar by itself. */
export const isPeriod = ({ factor }: VariedThing): boolean => factor.key === "season" || factor.key === "year";

/** Whether chance chose which tray, or cook, got which level. */
export const isDrawnByLot = ({ settings }: Trial): boolean => settings.dosesDrawnByLot === "yes";

function settingsOf(trial: Trial, thing: VariedThing, on: ComparedOn): VerdictSettings {
  const { settings, reading } = trial;
  const usual = usualLevel(settings.usualDose, thing);
  return {
    alpha: settings.significanceLevel,
    reading: reading ?? "unknown",
    drawnByLot: isDrawnByLot(trial) || isPeriod(thing),
    better: on.better,
    ...(on.suppositions === undefined ? {} : { suppositions: on.suppositions }),
    ...(usual === undefined ? {} : { usual }),
  };
}

/** The level that the settings call usual: "9" or "9 mL" of an amount, a name as it is. */
function usualLevel(typed: string, { kind, factor }: VariedThing): Level | undefined {
  const text = typed.trim();
  if (text === "" || kind === "names") return text === "" ? undefined : text;
  const bare = factor.unit !== "" && text.endsWith(factor.unit) ? text.slice(0, -factor.unit.length).trim() : text;
  const value = Number(bare.replace(",", "."));
  return Number.isFinite(value) ? value : undefined;
}

/** Things that may be crossed with another in one trial and change a yield themselves. */
const crossed: ReadonlyArray<string> = [
  "inoculum_ml",
  "spawn_g",
  "spawn_pct",
  "supplement_g",
  "supplement",
  "supplement_grade",
  "strain",
  "fruiting_c",
];

/** What a column is a facet of: a supplement has a name, a grade and an amount. */
const subjectOf = ({ factor }: VariedThing): string => factor.key.split("_")[0]!;

/** Two columns that say one thing twice: "none" and 0 g, "fine" and 40 g. Neither is taken out of the other. */
const saySame = (trial: Trial, one: VariedThing, other: VariedThing): boolean =>
  subjectOf(one) === subjectOf(other) &&
  (alwaysWith(one.factor, other.factor, trial.trays) || alwaysWith(other.factor, one.factor, trial.trays));

/**
 * Another thing that the trial varied: its part is taken out. What was the same in each whole cook changes nothing inside
 * cooks, so of a thing varied there only what varied there, too, is looked at.
 */
function besideOf(trial: Trial, thing: VariedThing): VariedThing | undefined {
  if (!crossed.includes(thing.factor.key)) return undefined;
  return thingsOf(trial).find(
    (other) =>
      other.factor.key !== thing.factor.key &&
      (thing.place === "whole cooks" || other.place === thing.place) &&
      other.levels <= mostLevels &&
      crossed.includes(other.factor.key) &&
      !saySame(trial, thing, other),
  );
}

/** A tray's level of a thing: an amount as a number, else its name; undefined where it is not written. */
export const levelIn = (thing: Factor, tray: Parameters<Factor["level"]>[0]): Level | undefined =>
  thing.value === undefined ? thing.level(tray) : thing.value(tray);

/** The trays with the level of another thing that the same trial varied. */
const withOther = ({ trays, trayOf }: GatheredTrays, beside: Factor): ComparedTray[] =>
  trays.map((one) => ({ ...one, other: levelIn(beside, trayOf.get(one.row)!) ?? "not written" }));

/**
 * What the verdict rules say of a thing that varied, on one response.
 * @returns undefined where no finished tray counts
 */
export function decideTreatment(trial: Trial, thing: VariedThing, on: ComparedOn): TreatmentDecision | undefined {
  const { trays, settings, memo } = trial;
  const name = JSON.stringify(["verdict", thing.factor.key, on.response.label, trial.reading, trial.readings?.length]);
  return memo.once([trays, settings, ...(on.from ?? [])], name, () => {
    const gathered = gatherTrays(trays, thing.factor, on.response, on.withLost);
    if (gathered.trays.length === 0) return undefined;
    const verdictSettings = settingsOf(trial, thing, on);
    const beside = besideOf(trial, thing);
    const compared = beside === undefined ? gathered.trays : withOther(gathered, beside.factor);
    const decide = (some: ReadonlyArray<ComparedTray>, at: VerdictSettings): Decision =>
      thing.kind === "amount" ? decideComparison(some, at) : decideUnordered(some, at);
    const now = decide(compared, verdictSettings);
    const isMain = on.withLost && thingsOf(trial)[0] === thing;
    const cookOf = (row: number): string => {
      const { batch, inoculatedOn } = gathered.trayOf.get(row)!;
      return batch ?? inoculatedOn ?? "";
    };
    const readings = isMain
      ? atReadings(trial, compared, cookOf, now, (some, at) => decide(some, { ...verdictSettings, ...at }))
      : [];
    const { decision, settledBefore } = standingSince(readings, now, settings.significanceLevel);
    return {
      thing,
      response: on.response,
      gathered,
      decision,
      ...(on.withLost
        ? { started: decideStartedTrays(compared, verdictSettings, thing.kind === "amount" ? now : undefined) }
        : {}),
      isMain,
      ...(beside === undefined ? {} : { beside }),
      readings,
      settledBefore,
      settings: verdictSettings,
    };
  });
}

/** Whether an amount has too many levels to be reported one by one. */
export const isTrend = ({ kind, levels }: VariedThing): boolean => kind === "amount" && levels > mostLevels;
