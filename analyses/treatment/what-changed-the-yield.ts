import type { Analysis, Chart, Outcome, Trial } from "../../src/analysis.ts";
import { daysWords } from "../../src/planning/day-words.ts";
import { counted } from "../../src/records/counted.ts";
import { traysOfPlan, trialInBook } from "../../src/records/planned-trial.ts";
import { hasEnded } from "../../src/records/tray.ts";
import { type YieldWeight, yieldWeightOf } from "../../src/records/yield-weight.ts";
import { missingTrays } from "../comparison/missing-trays.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { yieldPerGoodTray } from "../comparison/tray-response.ts";
import { expectedGrams } from "./book-dose-decision.ts";
import { treatmentAnswer } from "./treatment-answer.ts";
import { decideTreatment, type TreatmentDecision, thingsOf } from "./treatment-decision.ts";
import type { ResponseWords } from "./verdict-words.ts";
import { whyNothingVaried, whyNotWeighed } from "./why-nothing-compared.ts";
import { frontSoFar } from "./yield-so-far.ts";

export const yieldWords = (weight: YieldWeight): ResponseWords => ({
  of: `${weight} a good tray`,
  more: "more",
  less: "less",
  did: "gave",
  does: "gives",
  better: "higher",
});

/** The thing a book is about, compared on the weight of good trays; undefined where nothing varied or nothing is weighed. */
export function yieldDecision(trial: Trial, thing = thingsOf(trial)[0]): TreatmentDecision | undefined {
  const weight = yieldWeightOf(trial);
  if (weight === undefined || thing === undefined) return undefined;
  return decideTreatment(trial, thing, { response: yieldPerGoodTray(weight), better: "higher", withLost: true });
}

/** Draws what the decision about the dose expects of a good tray beside what was seen. */
function withCurve(trial: Trial, { thing, decision }: TreatmentDecision): (chart: Chart) => Chart {
  const expected = expectedGrams(trial, thing);
  if (expected === undefined || decision.difference === undefined) return (chart) => chart;
  const curve = {
    x: expected.map(({ dose }) => dose),
    y: expected.map(({ grams }) => grams.mean),
    low: expected.map(({ grams }) => grams.low),
    high: expected.map(({ grams }) => grams.high),
  };
  return (chart) => (chart.kind === "doses" ? { ...chart, curve } : chart);
}

/** "This is the trial planned on 2 Mar 2026: 2 of its 3 cooks are finished."; nothing where no plan came back filled in. */
function plannedWords({ trays }: Trial, { thing }: TreatmentDecision): string[] {
  const found = trialInBook(trays);
  if (found === undefined || ![thing.factor.key, thing.factor.key.replace(/^factor:/, "")].includes(found.trial.varies))
    return [];
  const { trial, isWholeBook } = found;
  const own = traysOfPlan(trays);
  const growing = new Set(own.filter((tray) => !hasEnded(tray)).map(({ batch }) => batch));
  const finished = new Set(own.map(({ batch }) => batch).filter((batch) => !growing.has(batch))).size;
  const day = `${daysWords(trial.plannedOn, trial.plannedOn)} ${trial.plannedOn.slice(0, 4)}`;
  return [
    ` ${isWholeBook ? "This is" : "Among the trays is"} the trial planned on ${day}: ${finished} of its ${counted(trial.cooks, "cook is", "cooks are")} finished.`,
  ];
}

function run(trial: Trial): Outcome {
  const weight = yieldWeightOf(trial);
  const of = yieldDecision(trial);
  if (weight === undefined || of === undefined) {
    const { reason, remedy, ...more } = weight === undefined ? whyNotWeighed(trial) : whyNothingVaried(trial);
    return noAnswer(["Cannot tell what changed the yield: ", ...reason], remedy, { ...frontSoFar(trial, of), ...more });
  }
  const outcome = treatmentAnswer(trial, of, yieldWords(weight), "yield");
  const planned = plannedWords(trial, of);
  return {
    ...(outcome.kind === "answer"
      ? { ...outcome, sentence: [...outcome.sentence, ...planned] }
      : { ...frontSoFar(trial, of), ...outcome, reason: [...outcome.reason, ...planned] }),
    charts: outcome.charts.map(withCurve(trial, of)),
    caveats: [...outcome.caveats, ...missingTrays(trial)],
  };
}

/** Whether what was varied changed the yield: one verdict with its parts. */
export const whatChangedTheYield: Analysis = {
  id: "what-changed-the-yield",
  name: "What changed yield",
  question: "Did what you varied change the yield?",
  needs: ["tray_id"],
  assumes: ["trays of one cook were given their level without looking at them", "trays were weighed the same way"],
  topic: "growing",
  headline: true,
  main: true,
  run,
};
