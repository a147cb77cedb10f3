import type { Analysis, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { atSignificance, type Cap, type Decision } from "../../src/decisions/verdict/index.ts";
import { daysBetween } from "../../src/measures/day-number.ts";
import { counted } from "../../src/records/counted.ts";
import { endsOf } from "../../src/records/ends.ts";
import type { Tray } from "../../src/records/tray.ts";
import { mean } from "../../src/statistics/descriptive/mean.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { colonisationDays, harvestDays, lastDateOf } from "../comparison/tray-days.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { treatmentAnswer } from "./treatment-answer.ts";
import { decideTreatment, type TreatmentDecision, thingsOf } from "./treatment-decision.ts";

/** Trays treated alike take about this share of their days more or less. Common practice, no source. */
const daysSpread = 0.1;
/** True differences between levels are about this share of the days. Common practice, no source. */
const daysGain = 0.08;

/** How days are spoken of. */
export const daysWords = { of: "", more: "more", less: "less", did: "took", does: "takes", better: "lower" } as const;

/** As `response`, a tray that is still waiting taken as the slowest so far: no sooner than it has waited already. */
function withWaiting(trial: Trial, response: TrayResponse): TrayResponse {
  const last = lastDateOf(trial.trays);
  const [, slowest] = endsOf(trial.trays.flatMap((tray) => response.of(tray) ?? []));
  return {
    ...response,
    label: `${response.label}, waiting trays counted`,
    of: (tray) => {
      const days = response.of(tray);
      if (days !== undefined || tray.outcome !== "growing" || tray.inoculatedOn === undefined) return days;
      return Math.max(slowest, last === undefined ? 0 : daysBetween(tray.inoculatedOn, last));
    },
  };
}

const isWaiting = (tray: Tray, response: TrayResponse): boolean =>
  tray.outcome === "growing" && response.of(tray) === undefined;

/**
 * The thing a book is about, or another one, compared on days; undefined where nothing varied or no tray has such days. Settled
 * only where trays that are still waiting could not change it.
 */
export function daysDecision(
  trial: Trial,
  response: TrayResponse,
  thing = thingsOf(trial)[0],
): TreatmentDecision | undefined {
  const days = trial.trays.flatMap((tray) => response.of(tray) ?? []);
  if (thing === undefined || days.length === 0) return undefined;
  const usual = mean(days);
  const suppositions = { traySd: Math.max(0.5, daysSpread * usual), gainSd: Math.max(0.25, daysGain * usual) };
  const on = { response, better: "lower", withLost: false, suppositions } as const;
  const of = decideTreatment(trial, thing, on);
  if (of?.decision.verdict !== "settled" || !trial.trays.some((tray) => isWaiting(tray, response))) return of;
  const counted = decideTreatment(trial, thing, { ...on, response: withWaiting(trial, response) })?.decision;
  const sign = (decision: Decision | undefined) => Math.sign(decision?.difference?.estimate ?? 0);
  if (counted?.verdict === "settled" && sign(counted) === sign(of.decision)) return of;
  const caps = [...of.decision.caps, { at: "leaning", reason: "unfinished-trays" } satisfies Cap];
  return { ...of, decision: atSignificance({ ...of.decision, caps }, of.decision.significance) };
}

/** Trays that are not there yet are the slow ones, so leaving them out flatters a slow level. */
function unfinishedNote({ trays }: Trial, response: TrayResponse): Sentence[] {
  const waiting = trays.filter((tray) => isWaiting(tray, response)).length;
  if (waiting === 0) return [];
  return [[`${counted(waiting, "growing tray is", "growing trays are")} not counted: not there yet.`]];
}

/** Why there are no days: dates that were typed and wait for an answer, or none at all. */
function noDays({ issues }: Trial): Outcome {
  const open = issues.find(
    ({ rule, severity }) => severity === "warning" && ["no-year", "day-or-month", "serial-date"].includes(rule),
  );
  if (open !== undefined) {
    return noAnswer(
      [`Cannot tell what changed the days: dates are typed but not read (${open.reason}).`],
      [`${open.action}.`],
      { missing: { kind: "record", need: `one answer about the dates: ${open.reason}` } },
    );
  }
  return noAnswer(
    ["Cannot tell what changed the days: no date of colonising or harvest goes with a thing that varied."],
    ["Type the date of inoculation, and the first date on which a tray is fully colonised."],
    { missing: { kind: "record", need: "the dates of inoculation and colonising" } },
  );
}

function run(trial: Trial): Outcome {
  const response = trial.trays.some((tray) => colonisationDays.of(tray) !== undefined) ? colonisationDays : harvestDays;
  const of = daysDecision(trial, response);
  if (of === undefined) return noDays(trial);
  const outcome = treatmentAnswer(trial, of, daysWords, response.label);
  return { ...outcome, caveats: [...outcome.caveats, ...unfinishedNote(trial, response)] };
}

/** Whether what was varied changed the days a tray takes. */
export const whatChangedTheDays: Analysis = {
  id: "what-changed-the-days",
  name: "What changed days",
  question: "Did what you varied change the days a tray takes?",
  needs: ["tray_id", "inoculated_on"],
  assumes: ["trays were looked at equally often, whatever their level"],
  topic: "growing",
  headline: true,
  run,
};
