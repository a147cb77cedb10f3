import type { Trial } from "../../src/analysis.ts";
import type { Suppositions } from "../../src/decisions/verdict/index.ts";
import type { VariedThing } from "../../src/design/varied-things.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { harvestDays } from "../comparison/tray-days.ts";
import { type TrayResponse, yieldPerGoodTray, yieldPerStartedTray } from "../comparison/tray-response.ts";
import { earningResponses, energyResponse } from "../costs/earning-responses.ts";
import { decideTreatment, type TreatmentDecision } from "../treatment/treatment-decision.ts";
import type { ResponseWords } from "../treatment/verdict-words.ts";
import { daysDecision, daysWords } from "../treatment/what-changed-the-days.ts";
import { yieldDecision, yieldWords } from "../treatment/what-changed-the-yield.ts";

/** Temperatures compared on one measure, with the words it is reported in. */
export interface Measure {
  of: TreatmentDecision;
  words: ResponseWords;
  /** what temperature may have changed, inside a sentence: "profit" */
  result: string;
}

/** Saleable weight of a started tray for each day from inoculation to harvest. */
function yieldPerDay(weight: "dry" | "fresh"): TrayResponse {
  const perStarted = yieldPerStartedTray(weight);
  return {
    label: `${weight} yield per started tray and day`,
    unit: "g/day",
    of: (tray) => {
      const [grams, days] = [perStarted.of(tray), harvestDays.of(tray)];
      return grams === undefined || days === undefined || days <= 0 ? undefined : grams / days;
    },
  };
}

/** What a run's trays are judged by, whether or not temperatures can be compared. */
export function responsesOf(trial: Trial): TrayResponse[] {
  const weight = yieldWeightOf(trial);
  const weights = weight === undefined ? [] : [yieldPerGoodTray(weight)];
  const daily = weight === undefined ? [] : [yieldPerDay(weight)];
  return [...weights, harvestDays, ...daily, ...earningResponses(trial).map(({ response }) => response)];
}

const perTray = (did: string, does: string, better: "higher" | "lower"): ResponseWords => ({
  of: "a started tray",
  more: "more",
  less: "less",
  did,
  does,
  better,
});

const none: ReadonlyArray<object> = [];

/**
 * Temperatures compared on every measure the book has: what a tray earned first, else its yield; then yield, days, energy.
 * The yield and the days are the very decisions that every other answer about them reads.
 */
export function temperatureMeasures(trial: Trial, thing: VariedThing): Measure[] {
  const { costLines = none, products = none, unread = none } = trial;
  const from = [costLines, products, unread];
  const weight = yieldWeightOf(trial);
  const on = (
    response: TrayResponse | undefined,
    words: ResponseWords,
    result: string,
    suppositions?: Suppositions,
  ): Measure[] => {
    if (response === undefined) return [];
    const { better } = words;
    const of = decideTreatment(trial, thing, { response, better, withLost: false, suppositions, from });
    return of === undefined ? [] : [{ of, words, result }];
  };
  const grams = yieldDecision(trial, thing);
  const days = daysDecision(trial, harvestDays, thing);
  return [
    ...earningResponses(trial).flatMap(({ response, suppositions }) =>
      on(response, perTray("earned", "earns", "higher"), "profit", suppositions),
    ),
    ...(weight === undefined || grams === undefined ? [] : [{ of: grams, words: yieldWords(weight), result: "yield" }]),
    ...(weight === undefined ? [] : on(yieldPerDay(weight), perTray("gave", "gives", "higher"), "yield a day")),
    ...(days === undefined ? [] : [{ of: days, words: daysWords, result: "days to harvest" }]),
    ...on(energyResponse(trial), perTray("took", "takes", "lower"), "energy"),
  ];
}
