import type {
  Analysis,
  AnswerFront,
  Certainty,
  Figure,
  NextStep,
  Outcome,
  Sentence,
  Trial,
} from "../../src/analysis.ts";
import { missingTrays } from "../comparison/missing-trays.ts";
import { type BookDose, bookDoseDecision, namedThing } from "../treatment/book-dose-decision.ts";
import { doseCaveats } from "../treatment/dose-caveats.ts";
import { doseChart, doseEstimates, doseTable } from "../treatment/dose-tables.ts";
import {
  amountWord,
  asGoodSentence,
  askedOf,
  besideDose,
  besideRange,
  cannotTellDoses,
  dosePart,
  doseRange,
  earns,
  isAdvised,
  leftLabel,
  leftUnit,
  nonePaysWords,
  useSentence,
} from "../treatment/dose-words.ts";
import { noDoseAnswer } from "../treatment/no-dose-answer.ts";
import { edgeSentences, triedBeside } from "../treatment/step-words.ts";
import { chanceText } from "../treatment/verdict-words.ts";
import { trialTerms } from "../treatment/year-of-trays.ts";
import { namesAnswer } from "./names-answer.ts";

const question = "Which dose should I use?";
const name = "Which dose to use";

/** One claim for the front; the dose itself is the large number beside it. */
function shortOf(of: BookDose): Sentence {
  const { use, certainty, nonePays, doses, priced } = of.decision;
  if (nonePays) return [`${nonePaysWords(of)}.`];
  if (!isAdvised(of))
    return [`Any ${amountWord(of)} from `, doseRange(of, { low: doses[0]!, high: doses.at(-1)! }), " does as well."];
  if (certainty === "open") return [cannotTellDoses(of)];
  const left = (value: number) => ({ value, unit: leftUnit(of), ...(priced ? {} : { digits: 3 }) });
  return [
    `Expected to ${priced ? "leave" : "yield"} `,
    left(use.left.mean),
    " of a started tray, between ",
    left(use.left.low),
    " and ",
    left(use.left.high),
    ".",
  ];
}

/** The dose to use, with those not ruled out; where none is advised, what is left of a tray. */
function figureOf(of: BookDose): Figure {
  const { use, certainty, notRuledOut } = of.decision;
  if (!isAdvised(of)) {
    const { mean, low, high } = use.left;
    return { label: `expected, ${leftLabel(of)}`, value: mean, unit: leftUnit(of), from: low, to: high };
  }
  const { low, high } = notRuledOut;
  const label =
    certainty === "settled" ? `${amountWord(of)} to use` : certainty === "open" ? "to use meanwhile" : "best guess";
  return {
    label,
    value: use.dose,
    unit: of.thing.factor.unit === "" ? "factor" : of.thing.factor.unit,
    ...(low < high && low <= use.dose && use.dose <= high ? { from: low, to: high } : {}),
  };
}

/** Whether good trays alone may say otherwise than the dose does. */
const someLost = ({ decision }: BookDose): boolean => decision.seen.some(({ lost }) => lost > 0);

/** What to do because of it. A dose that pays for nothing is no advice, nor is one among equals. */
function nextOf(trial: Trial, of: BookDose): NextStep[] {
  const { use, certainty, notRuledOut } = of.decision;
  if (!isAdvised(of)) return [];
  const untried = triedBeside(of, trialTerms(trial));
  if (untried !== undefined) {
    const act: Sentence = ["Meanwhile use ", dosePart(of, use.dose), ", and try ", besideDose(of, untried.step.dose)];
    const chance = chanceText(untried.step.chanceBetter);
    return [
      {
        rank: "dose",
        act: [...act, " beside it."],
        because:
          certainty === "open" && someLost(of)
            ? ["Losses counted, it risks least. ", dosePart(of, untried.step.dose), ` ${earns(of)} more: ${chance}.`]
            : ["The chance that ", dosePart(of, untried.step.dose), ` ${earns(of)} more is ${chance}.`],
      },
    ];
  }
  return [
    {
      rank: "dose",
      act: [
        certainty === "settled" ? "Use " : "Meanwhile use ",
        dosePart(of, use.dose),
        use.over === undefined || certainty === "settled" ? "." : ", on a few trays first.",
      ],
      because:
        certainty === "open"
          ? [`It risks least: ${someLost(of) ? "counting losses, " : ""}the trays cannot tell them apart.`]
          : notRuledOut.ruledOut.length === 0 || certainty === "settled"
            ? [
                `${use.over === undefined ? "Of those tried" : "Between those tried"} it is expected to ${of.decision.priced ? "leave" : "yield"} most.`,
              ]
            : notRuledOut.low === notRuledOut.high
              ? ["The others tried are ruled out."]
              : ["Anything from ", besideRange(of, notRuledOut), " could still be the best."],
    },
  ];
}

function frontOf(trial: Trial, of: BookDose): AnswerFront {
  const { use, notRuledOut, doses } = of.decision;
  return {
    short: shortOf(of),
    figure: figureOf(of),
    strip: {
      kind: "best-dose",
      unit: of.thing.factor.unit,
      use: use.dose,
      from: notRuledOut.low,
      to: notRuledOut.high,
      tried: doses,
    },
    next: nextOf(trial, of),
  };
}

function methodOf(of: BookDose): Sentence[] {
  const { settings, oneTop } = of.decision;
  return [
    [
      `Yield over dose is an average of candidate shapes (line, levelling off, plateau, peak, threshold) plus a smooth departure, weighed by their likelihood; ${settings.draws} curves are drawn (seed ${settings.seed}), with losses by logistic regression and days by a straight line.`,
    ],
    [
      "Doses are looked at in steps of ",
      dosePart(of, settings.step),
      "; a difference below ",
      { value: settings.tolerance, unit: "share" },
      ` of a started tray's ${of.decision.priced ? "income" : "yield"} counts as none.`,
      ...(oneTop < 1
        ? [" Curves with two tops are left out: ", { value: 1 - oneTop, unit: "share", digits: 2 } as const, "."]
        : []),
    ],
    [
      "The best dose of the range lies among those not ruled out ",
      { value: of.decision.notRuledOut.coverage, unit: "share" },
      " of the time, by simulation.",
    ],
    ...(of.money === undefined
      ? []
      : [[`Net price from ${of.money.sold.products.join("; ")}; costs from costs.csv.`] satisfies Sentence]),
  ];
}

/** As what every gram counts as sold, and which products do not come into it. */
function soldAs({ money, weight }: BookDose): Sentence[] {
  if (money === undefined) return [];
  const { others, driedShare } = money.sold;
  const unsold = "Unsold product lowers what a gram really brings.";
  if (driedShare > 0 && driedShare < 1)
    return [
      [
        "Of what is picked, ",
        { value: 1 - driedShare, unit: "share", digits: 2 },
        ` counts as sold fresh and the rest dried, as products.csv expects of a month, net of fees and packing. ${unsold}`,
      ],
    ];
  const apart = others.length === 0 ? "" : `; ${others.join("; ")} ${others.length === 1 ? "is" : "are"} not in it`;
  return [
    [`Every gram counts as sold ${weight === "dry" ? "dried" : "fresh"}, net of fees and packing${apart}. ${unsold}`],
  ];
}

function run(trial: Trial): Outcome {
  const named = namedThing(trial);
  const byName = named === undefined ? undefined : namesAnswer(trial, named);
  if (byName !== undefined) return byName;
  const of = bookDoseDecision(trial);
  if (of.kind === "no-dose")
    return noDoseAnswer(of, `Cannot tell which ${amountWord(of)} to use`, askedOf(of, question, name));
  return {
    kind: "answer",
    ...askedOf(of, question, name),
    sentence: useSentence(of, trial.settings),
    certainty: of.decision.certainty as Certainty,
    ...frontOf(trial, of),
    estimates: doseEstimates(of),
    tables: [doseTable(of)],
    charts: [doseChart(of)],
    excluded: of.excluded,
    method: methodOf(of),
    caveats: [
      ...asGoodSentence(of),
      ...edgeSentences(of, trialTerms(trial), trial.settings),
      ...doseCaveats(of),
      ...missingTrays(trial),
      ...soldAs(of),
    ],
  };
}

/** Which dose to use, how sure that is, and what being wrong costs. */
export const whichDoseEarnsMost: Analysis = {
  id: "which-dose-earns-most",
  name,
  question,
  needs: ["tray_id"],
  assumes: [
    "everything made is sold at today's net price",
    "costs.csv lists everything that is paid for",
    "over dose the yield has one top at most",
  ],
  topic: "money",
  headline: true,
  run,
};
