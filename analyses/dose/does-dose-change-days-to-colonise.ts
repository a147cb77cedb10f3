import type { Analysis, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { compareTreatment, type TreatmentComparison } from "../comparison/compare-treatment.ts";
import { layoutGrid } from "../comparison/confounding.ts";
import { levelPart } from "../comparison/level-text.ts";
import { sensitivityChecks } from "../comparison/sensitivity-checks.ts";
import { compareSurvival, type SurvivalComparison } from "../comparison/survival-comparison.ts";
import { colonisationDays } from "../comparison/tray-days.ts";
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
import { doseLine, slopeSentence } from "./dose-curve.ts";

const opening = {
  settled: "Dose changes days to colonise: ",
  leaning: "Dose may change days to colonise: ",
  open: "No effect of dose is shown on days to colonise: ",
} as const;

/** The far arm's time as a multiple of the first arm's, for trials with unfinished trays. */
function ratioSentence(compared: TreatmentComparison, waiting: SurvivalComparison): Sentence {
  const { treatment } = compared.layout;
  const last = waiting.ratios.at(-1)!;
  const { arms } = compared.comparison;
  const doseOf = (arm: string) => arms.find((one) => one.arm === arm)?.dose;
  return [
    levelPart(treatment, last.arm, doseOf(last.arm)),
    " takes ",
    { value: last.ratio, unit: "factor", digits: 2 },
    " times as long as ",
    levelPart(treatment, arms[0]!.arm, arms[0]!.dose),
    " (",
    { from: last.low, to: last.high, unit: "factor", digits: 2 },
    ` times), counting ${waiting.unfinished} unfinished ${waiting.unfinished === 1 ? "tray" : "trays"} as still waiting.`,
  ];
}

/** "12 mL took 4.0 days less than 3 mL (3.2 to 4.7 days less)". */
function fasterOrSlower(compared: TreatmentComparison): Sentence {
  const { to, from } = levelsTold(compared);
  const { amount, range } = moreOrLess(compared);
  return [to, " took ", ...amount, " than ", from, ...range, ...timesAsMuch(compared, "as long")];
}

function run(trial: Trial): Outcome {
  const compared = compareTreatment(trial, doseFactor, colonisationDays, "lower");
  if (compared.kind === "cannot-tell") return compared;
  const { settings } = trial;
  const arms = compared.comparison.arms.map(({ arm }) => arm);
  const waiting = compareSurvival(trial, compared.layout, arms);
  const counted = waiting.kind === "compared" && waiting.unfinished > 0 ? waiting : undefined;
  const certainty =
    counted === undefined
      ? compared.certainty
      : counted.p < settings.significanceLevel
        ? "settled"
        : counted.p < Math.max(0.2, settings.significanceLevel)
          ? "leaning"
          : "open";
  const line = doseLine(compared.observations, settings.intervalLevel);
  const grid = layoutGrid(compared.layout);
  const agreement = sensitivityChecks(trial, compared);
  return {
    kind: "answer",
    sentence:
      counted === undefined
        ? [opening[certainty], ...fasterOrSlower(compared), "."]
        : [opening[certainty], ...ratioSentence(compared, counted)],
    certainty,
    estimates: [headlineEstimate(trial, compared), ...ratioEstimates(trial, compared)],
    tables: [
      levelTable(trial, compared),
      ...(waiting.kind === "compared" ? [waiting.table] : []),
      pairTable(compared),
      agreement.table,
      ...(grid === undefined ? [] : [grid]),
    ],
    charts: [levelChart(compared), ...(waiting.kind === "compared" ? [waiting.chart] : [])],
    excluded: compared.excluded,
    method: [...compared.method, ...(waiting.kind === "compared" ? [waiting.method] : []), agreement.sentence],
    caveats: [
      ...(line === undefined ? [] : [slopeSentence(trial, line, compared.response, doseFactor.unit)]),
      ...(waiting.kind === "none" ? [[`Unfinished trays could not be counted in: ${waiting.reason}.`]] : []),
      ...compared.caveats,
      ...agreement.caveats,
    ],
  };
}

/** Whether the inoculum dose changes how fast trays colonise. */
export const doesDoseChangeDaysToColonise: Analysis = {
  id: "does-dose-change-days-to-colonise",
  name: "Dose and days",
  question: "Does the inoculum dose change the days to colonise?",
  needs: ["tray_id", "inoculum_ml", "inoculated_on", "colonised_on"],
  experimentalUnit: "tray",
  assumes: ["doses were given to trays at random within each cook", "trays were looked at about once a day"],
  topic: "growing",
  headline: true,
  run,
};
