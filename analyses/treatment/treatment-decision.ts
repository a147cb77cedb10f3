import type { Trial } from "../../src/analysis.ts";
import {
  atSignificance,
  type Cap,
  type ComparedTray,
  type Decision,
  decideComparison,
  decideStartedTrays,
  decideUnordered,
  type Suppositions,
  type VerdictSettings,
} from "../../src/decisions/verdict/index.ts";
import { mostLevels, type VariedThing, variedThings } from "../../src/design/varied-things.ts";
import { cookOf, lostAhead } from "../../src/records/ended-cooks.ts";
import { hasEnded } from "../../src/records/tray.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { typedUsual } from "../comparison/usual-level.ts";
import { type GatheredTrays, gatherTrays } from "./compared-trays.ts";
import { atReadings, hasLaterTrays, type ReadingWord, standingSince } from "./earlier-readings.ts";
import { type FlushesBeside, flushesBeside } from "./flushes-beside.ts";
import { type SubstrateBeside, substrateBeside } from "./substrate-beside.ts";
import { type VariedBeside, variedBeside } from "./varied-beside.ts";

/** What varied in a book and what the verdict rules say of it on one response. */
export interface TreatmentDecision {
  thing: VariedThing;
  response: TrayResponse;
  /** whether lost trays count: where not, as in days, they are left out */
  withLost: boolean;
  gathered: GatheredTrays;
  decision: Decision;
  /** per started tray, worked out where it is asked for; undefined for responses that lost trays know nothing of */
  started(): Decision | undefined;
  /** the report's main question: it is decided first, the others by what that leaves */
  isMain: boolean;
  /** other things that varied in the same cooks: taken out, or tied to it in part */
  beside: Pick<VariedBeside, "takenOut" | "tied">;
  /** what each recorded reading says of the trays it had, this one last; empty where no record is kept */
  readings: ReadingWord[];
  /** settled at an earlier reading and not contradicted since */
  settledBefore: boolean;
  /** some levels were picked more often than others; absent where not, and for what is no weight */
  flushes?: FlushesBeside | undefined;
  /** some levels held more substrate than others; absent where not, and for what is no weight */
  substrate?: SubstrateBeside | undefined;
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
  return memo.once([trays, settings], "things that varied", () => {
    const ahead = lostAhead(trays);
    return variedThings(
      trays.filter((tray) => hasEnded(tray) && !ahead.has(tray)),
      settings.varied,
    );
  });
}

/** Whether chance chose which tray, or cook, got which level. */
export const isDrawnByLot = ({ settings }: Trial): boolean => settings.dosesDrawnByLot === "yes";

function settingsOf(trial: Trial, thing: VariedThing, on: ComparedOn): VerdictSettings {
  const { settings, reading } = trial;
  const usual = typedUsual(settings.usualDose, thing);
  return {
    alpha: settings.significanceLevel,
    reading: reading ?? "unknown",
    drawnByLot: isDrawnByLot(trial) || thing.isPeriod,
    better: on.better,
    ...(on.suppositions === undefined ? {} : { suppositions: on.suppositions }),
    ...(usual === undefined ? {} : { usual }),
  };
}

/**
 * Settled only where the comparison on other values (first pickings, as much substrate) settles the same, open where that points
 * the other way: else what a level gave more may be what it had more of.
 * @param again absent where it cannot be made
 */
function besideAgain(decision: Decision, again: Decision | undefined, reason: Cap["reason"]): Decision {
  const isAgainst =
    again !== undefined && Math.sign(again.difference?.estimate ?? 0) !== Math.sign(decision.difference?.estimate ?? 0);
  if (!isAgainst && (again?.verdict === "settled" || decision.verdict !== "settled")) return decision;
  const cap: Cap = { at: isAgainst ? "open" : "leaning", reason };
  return atSignificance({ ...decision, caps: [...decision.caps, cap] }, decision.significance);
}

/**
 * What the verdict rules say of a thing that varied, on one response.
 * @returns undefined where no finished tray counts
 */
export function decideTreatment(trial: Trial, thing: VariedThing, on: ComparedOn): TreatmentDecision | undefined {
  const { trays, settings, memo } = trial;
  const name = JSON.stringify(["verdict", thing.factor.key, on.response.label, trial.reading, trial.readings?.length]);
  return memo.once([trays, settings, ...(on.from ?? [])], name, () => {
    const gathered = gatherTrays(trays, thing.factor, on.response, on.withLost, memo);
    if (gathered.trays.length === 0) return undefined;
    const verdictSettings = settingsOf(trial, thing, on);
    const { trays: compared, ...beside } = variedBeside(trial, thing, thingsOf(trial), gathered);
    const decide = (some: ReadonlyArray<ComparedTray>, at: VerdictSettings): Decision =>
      thing.kind === "amount" ? decideComparison(some, at) : decideUnordered(some, at);
    const isMain = on.withLost && thingsOf(trial)[0] === thing;
    const cookOfRow = (row: number): string => cookOf(gathered.byRow[row]!) ?? "";
    const isLater = isMain && hasLaterTrays(trial, compared, cookOfRow);
    const now = decide(compared, isLater ? { ...verdictSettings, reading: "other" } : verdictSettings);
    const readings = isMain
      ? atReadings(trial, compared, cookOfRow, now, isLater, (some, at) => decide(some, { ...verdictSettings, ...at }))
      : [];
    const standing = standingSince(readings, now, settings.significanceLevel);
    const { settledBefore } = standing;
    const isWeight = on.withLost && on.response.unit === "g";
    const again = (some: ReadonlyArray<ComparedTray>): Decision => decide(some, verdictSettings);
    const flushes = isWeight ? flushesBeside(now, compared, gathered.byRow, again) : undefined;
    const substrate = isWeight
      ? substrateBeside(thing, now, compared, gathered.byRow, beside.takenOut, again)
      : undefined;
    let { decision } = standing;
    if (flushes !== undefined) decision = besideAgain(decision, flushes.first, "flushes-follow-level");
    if (substrate !== undefined) decision = besideAgain(decision, substrate.again, "substrate-follows-level");
    return {
      thing,
      response: on.response,
      withLost: on.withLost,
      gathered,
      decision,
      started: () =>
        on.withLost
          ? memo.once([compared], "started trays", () =>
              decideStartedTrays(compared, verdictSettings, thing.kind === "amount" ? now : undefined),
            )
          : undefined,
      isMain,
      beside,
      readings,
      settledBefore,
      flushes,
      substrate,
      settings: verdictSettings,
    };
  });
}

/** Whether an amount has too many levels to be reported one by one. */
export const isTrend = ({ kind, levels }: VariedThing): boolean => kind === "amount" && levels > mostLevels;
