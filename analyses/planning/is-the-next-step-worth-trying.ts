import type { Analysis, AnswerFront, Certainty, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { levelName } from "../comparison/level-text.ts";
import { type BookDose, bookDoseDecision } from "../treatment/book-dose-decision.ts";
import { doseCaveats } from "../treatment/dose-caveats.ts";
import { doseChart } from "../treatment/dose-tables.ts";
import {
  amountWord,
  askedOf,
  besideDose,
  dosePart,
  earns,
  isAdvised,
  leftLabel,
  leftUnit,
  useSentence,
} from "../treatment/dose-words.ts";
import { noDoseAnswer } from "../treatment/no-dose-answer.ts";
import { type JudgedStep, judgedSteps, stepSentence, trialTrays } from "../treatment/step-words.ts";
import { chanceText } from "../treatment/verdict-words.ts";
import { trialTerms } from "../treatment/year-of-trays.ts";

const question = "Is another dose worth trying next?";
const name = "A small step";

function stepTable(of: BookDose, steps: ReadonlyArray<JudgedStep>): Table {
  const unit = leftUnit(of);
  return {
    caption: "Doses not tried yet, against the dose to use",
    columns: [
      { label: of.thing.factor.label, unit: of.thing.factor.unit || undefined },
      { label: "where" },
      { label: `chance that it ${earns(of)} more`, unit: "share" },
      { label: `expected, ${leftLabel(of)}, more`, unit },
      { label: "knowing is worth at most, a year", unit },
      { label: "a small trial takes", unit },
      { label: "worth trying" },
    ],
    rows: steps.map(({ step, asGood, worth, worthAYear, givenUp }) => [
      step.dose,
      step.beyond ? "beyond the doses tried" : "between doses tried",
      step.chanceBetter,
      step.difference,
      worthAYear,
      givenUp,
      worth ? "yes" : asGood ? "no, does as well" : "no",
    ]),
    note: "Worth trying: what knowing brings over a year's trays is more than what the smallest trial takes: what its trays give up, and the work on them.",
  };
}

/** Whether trays had a dose, each of them together with another change. */
const isTied = ({ tied, decision: { settings } }: BookDose, dose: number): boolean =>
  tied.some((one) => Math.abs(one - dose) < settings.step / 2);

function frontOf(of: BookDose, best: JudgedStep | undefined): AnswerFront {
  const { use, notRuledOut, doses } = of.decision;
  const strip = {
    kind: "best-dose",
    unit: of.thing.factor.unit,
    // the dose in question: untried, so it is drawn between those tried
    use: best?.step.dose ?? use.dose,
    from: notRuledOut.low,
    to: notRuledOut.high,
    tried: doses,
  } as const;
  if (best === undefined)
    return {
      short: [`No untried ${amountWord(of)} is near `, dosePart(of, use.dose), "."],
      strip,
      figure: { label: `${amountWord(of)} to use`, value: use.dose, unit: of.thing.factor.unit || "factor" },
    };
  const dose = dosePart(of, best.step.dose);
  return {
    short: best.worth
      ? [
          dose,
          `, ${isTied(of, best.step.dose) ? "not tried by itself yet" : "which you have not tried"}, is worth a trial.`,
        ]
      : [`No untried ${amountWord(of)} is worth a trial.`],
    figure: {
      label: "chance an untried one is better",
      value: best.step.chanceBetter,
      unit: "share",
      digits: 2,
    },
    strip,
    // where the trays cannot tell the doses apart, what to use and what to try is one advice, and the dose's answer gives it;
    // where no dose pays, prices come first
    ...(best.worth && of.decision.certainty !== "open" && isAdvised(of)
      ? {
          next: [
            {
              rank: "trial",
              act: ["Try ", dose, " beside ", besideDose(of, use.dose), "."],
              because: [`The chance that it ${earns(of)} more is ${chanceText(best.step.chanceBetter)}.`],
            },
          ],
        }
      : {}),
  };
}

/** What to keep in mind of a dose that no tray had. */
function stepCaveats(of: BookDose, best: JudgedStep | undefined): Sentence[] {
  return [
    ...(best?.step.beyond === true && !isTied(of, best.step.dose)
      ? [["No tray was that far out: the curve is only carried on."]]
      : []),
    ...(of.thing.factor === doseFactor
      ? [
          [
            "A larger volume of liquid also spreads a bad jar over more trays; balance the water, so that only the culture differs.",
          ],
        ]
      : []),
  ];
}

function run(trial: Trial): Outcome {
  const of = bookDoseDecision(trial);
  if (of.kind === "no-dose")
    return noDoseAnswer(
      of,
      `Cannot tell whether another ${amountWord(of)} is worth trying`,
      askedOf(of, question, name),
    );
  const { decision } = of;
  const { settings } = trial;
  const terms = trialTerms(trial);
  const steps = judgedSteps(of, terms);
  const [best] = steps;
  const stay: Sentence = best?.worth === true ? [] : ["Stay with what you have tried. "];
  return {
    kind: "answer",
    ...askedOf(of, question, name),
    sentence: [
      ...stay,
      ...(best === undefined
        ? [`There is no untried ${amountWord(of)} beside `, dosePart(of, decision.use.dose), " that could be measured."]
        : stepSentence(of, best, settings)),
    ],
    ...frontOf(of, best),
    // an untried dose is never settled: it is worth a trial or not
    certainty: (decision.certainty === "open" ? "open" : "leaning") satisfies Certainty,
    estimates:
      best === undefined
        ? []
        : [
            {
              label: `${levelName(of.thing.factor, String(Number(best.step.dose.toPrecision(6))))} against the ${amountWord(of)} to use, ${leftLabel(of)}`,
              value: best.step.difference,
              level: 0.95,
              unit: leftUnit(of),
              n: decision.seen.reduce((sum, { trays }) => sum + trays, 0),
              nUnit: "trays",
              method: "the draws of the dose decision",
            },
          ],
    tables: best === undefined ? [] : [stepTable(of, steps)],
    charts: [doseChart(of)],
    excluded: of.excluded,
    method: [
      ["The draws of the dose decision at doses that no tray had yet."],
      [
        `Weighed against ${Math.round(terms.traysAYear)} trays a year; the smallest trial gives ${trialTrays(terms.traysPerLoad)} trays to a new dose and as many to the dose to use.`,
      ],
    ],
    caveats: [useSentence(of, settings), ...stepCaveats(of, best), ...doseCaveats(of)],
  };
}

/** Whether a dose that was not tried yet is worth a trial. */
export const isTheNextStepWorthTrying: Analysis = {
  id: "is-the-next-step-worth-trying",
  name,
  question,
  needs: ["tray_id"],
  assumes: ["doses were given to trays at random within each cook", "over dose the yield has one top at most"],
  topic: "money",
  headline: false,
  run,
};
