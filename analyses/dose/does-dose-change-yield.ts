import type { Analysis, Answer, Chart, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { compareTreatment, sameLevelsAs, type TreatmentComparison } from "../comparison/compare-treatment.ts";
import { layoutGrid } from "../comparison/confounding.ts";
import { sensitivityChecks } from "../comparison/sensitivity-checks.ts";
import { yieldPerGoodTray, yieldPerStartedTray, yieldWeightOf } from "../comparison/tray-response.ts";
import {
  headlineEstimate,
  levelChart,
  levelsTold,
  levelTable,
  moreOrLess,
  pairTable,
  ratioEstimates,
  timesAsMuch,
} from "../comparison/treatment-facts.ts";
import { missingTrays } from "../rows/missing-trays.ts";
import { curveChart, curveTable, doseCurve, slopeSentence } from "./dose-curve.ts";

const opening = {
  settled: "Dose changes yield: ",
  leaning: "Dose may change yield: ",
  open: "Dose is not shown to change yield: ",
} as const;

/** The answer sentence: per good tray first, per started tray beside it. */
function answerSentence(good: TreatmentComparison, started: TreatmentComparison | undefined): Sentence {
  const { to, from } = levelsTold(good);
  const weight = good.response.label.split(" ")[0]!;
  const perGood = moreOrLess(good);
  const perStarted = started && moreOrLess(started);
  return [
    opening[good.certainty],
    to,
    " gave ",
    ...perGood.amount,
    ` ${weight} than `,
    from,
    " per good tray",
    ...perGood.range,
    ...timesAsMuch(good),
    ...(perStarted === undefined
      ? []
      : ["; counting lost trays as nothing, ", ...perStarted.amount, " per started tray", ...perStarted.range]),
    ".",
  ];
}

function run(trial: Trial): Outcome {
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined) {
    return {
      kind: "cannot-tell",
      reason: ["Cannot tell whether dose changes yield: no good tray has a weight."],
      wouldSettle: ["Weigh each tray at harvest, fresh and dry, and type the weights in."],
      estimates: [],
      tables: [],
      charts: [],
      excluded: [],
      method: [],
      caveats: [],
    };
  }
  const good = compareTreatment(trial, doseFactor, yieldPerGoodTray(weight), "higher");
  if (good.kind === "cannot-tell") return good;
  const startedOutcome = compareTreatment(trial, doseFactor, yieldPerStartedTray(weight), "higher");
  const started = startedOutcome.kind === "compared" ? sameLevelsAs(startedOutcome, good) : undefined;
  const curve = doseCurve(good.observations, trial.settings.intervalLevel, trial.memo);
  const chart = curve && curveChart(curve, good.response, doseFactor.label, doseFactor.unit);
  const grid = layoutGrid(good.layout);
  const agreement = sensitivityChecks(trial, good);
  const answer: Answer = {
    kind: "answer",
    sentence: answerSentence(good, started),
    certainty: good.certainty,
    estimates: [
      headlineEstimate(trial, good),
      ...ratioEstimates(trial, good),
      ...(started === undefined ? [] : [headlineEstimate(trial, started)]),
    ],
    tables: [
      levelTable(trial, good, started),
      pairTable(good),
      agreement.table,
      ...(curve === undefined ? [] : [curveTable(curve, good.response)]),
      ...(grid === undefined ? [] : [grid]),
    ],
    charts: [levelChart(good), chart].filter((one): one is Chart => one !== undefined),
    excluded: good.excluded,
    method: [
      ...good.method,
      agreement.sentence,
      ...(curve === undefined
        ? []
        : [["Curves of yield over dose are fitted with an offset for each cook and ranked by AICc."]]),
    ],
    caveats: [
      ...missingTrays(trial),
      ...(curve?.line === undefined ? [] : [slopeSentence(trial, curve.line, good.response, doseFactor.unit)]),
      ...good.caveats,
      ...agreement.caveats,
    ],
  };
  return answer;
}

/** Whether the inoculum dose changes the yield, per good and per started tray. */
export const doesDoseChangeYield: Analysis = {
  id: "does-dose-change-yield",
  name: "Dose and yield",
  question: "Does the inoculum dose change the yield?",
  needs: ["tray_id", "inoculum_ml"],
  experimentalUnit: "tray",
  assumes: [
    "doses were given to trays at random within each cook",
    "trays were weighed the same way",
    "one record per tray",
  ],
  topic: "growing",
  headline: true,
  run,
};
