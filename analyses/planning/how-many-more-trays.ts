import type { Analysis, Answer, AnswerFront, Chart, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { armsOf } from "../../src/design/arm.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { counted } from "../../src/records/counted.ts";
import { type YieldWeight, yieldWeightOf } from "../../src/records/yield-weight.ts";
import { inSentence } from "../comparison/level-text.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { observe, yieldPerGoodTray } from "../comparison/tray-response.ts";
import { type BookDose, bookDoseDecision } from "../treatment/book-dose-decision.ts";
import { cannotTellWords } from "../treatment/cannot-tell-words.ts";
import { amountWord, leftPart, leftUnit } from "../treatment/dose-words.ts";
import { judgedSteps } from "../treatment/step-words.ts";
import type { TreatmentDecision } from "../treatment/treatment-decision.ts";
import { yieldDecision } from "../treatment/what-changed-the-yield.ts";
import { whyNothingVaried, whyNotWeighed } from "../treatment/why-nothing-compared.ts";
import { startsPerYear, trialTerms } from "../treatment/year-of-trays.ts";
import { bookSpread } from "./book-spread.ts";
import { freshTrial, usualSpreads } from "./fresh-trial.ts";
import { bestWorth, type Further, firstToShow, furtherOf } from "./further-cooks.ts";
import { type WorthwhileDifference, worthwhileDifference } from "./worthwhile-difference.ts";

/** Further cooks that are advised: two months of a load a week. Common practice, no source. */
const mostAdvised = 8;
const cooksText = (count: number): string => counted(count, "more cook");

function furtherTable(of: TreatmentDecision, further: ReadonlyArray<Further>, dose: BookDose | undefined): Table[] {
  const shows = further.some(({ couldShow }) => couldShow !== undefined);
  if (!shows && dose === undefined) return [];
  const unit = dose === undefined ? "g" : leftUnit(dose);
  const table: Table = {
    caption: "What more cooks like these would bring",
    columns: [
      { label: "more cooks", unit: "cooks" },
      { label: "more trays", unit: "trays" },
      ...(shows ? [{ label: "could show from end to end", unit: of.response.unit }] : []),
      ...(dose === undefined
        ? []
        : [
            { label: "better choice of dose, a year", unit },
            { label: "the trial gives up", unit },
            { label: "left of it in a year", unit },
          ]),
    ],
    rows: further.map(({ cooks, trays, couldShow, worth }) => [
      cooks,
      trays,
      ...(shows ? [couldShow ?? null] : []),
      ...(worth === undefined ? [] : [worth.perYear + worth.trialCost, worth.trialCost, worth.perYear]),
    ]),
    open: further.filter(({ cooks }) => cooks <= mostAdvised).length,
    note: [
      ...(shows ? ["Could show: the difference seen four times in five."] : []),
      ...(dose === undefined ? [] : ["The trial gives up what its trays would leave more at the dose to use."]),
    ].join(" "),
  };
  return [table];
}

/** What more trays do for the choice of a dose, in money or grams a year. */
function worthSentence(dose: BookDose, further: ReadonlyArray<Further>, trial: Trial): Sentence {
  const best = bestWorth(further);
  const year = Math.round(startsPerYear(trial));
  const { cooks, trays, worth } = best ?? further.find((one) => one.cooks === 4)!;
  const saved = worth!.perYear + worth!.trialCost;
  const figures: Sentence = [
    ...leftPart(dose, saved, trial.settings),
    ` a year (${year} trays), and the trial gives up `,
    ...leftPart(dose, worth!.trialCost, trial.settings),
    ".",
  ];
  return best === undefined
    ? [
        ` For choosing the ${amountWord(dose)} more trays do not pay: ${cooksText(cooks)} (${trays} trays) would be worth `,
        ...figures,
      ]
    : [` For choosing the ${amountWord(dose)} ${cooksText(cooks)} (${trays} trays) would be worth `, ...figures];
}

/** The first of the further cooks that would show a difference of the size seen so far. */
const showsSeen = ({ decision }: TreatmentDecision, further: ReadonlyArray<Further>): Further | undefined =>
  firstToShow(further, Math.abs(decision.difference!.estimate));

/** How many cooks would show a difference as large as the one seen, where a smaller one is out of reach. */
function seenSentence(of: TreatmentDecision, further: ReadonlyArray<Further>): Sentence {
  const shows = showsSeen(of, further);
  if (shows === undefined) return [];
  const seen = { value: Math.abs(of.decision.difference!.estimate), unit: of.response.unit, digits: 2 };
  return [" The ", seen, ` seen so far would show after ${cooksText(shows.cooks)} (${shows.trays} trays).`];
}

function showSentence(of: TreatmentDecision, further: ReadonlyArray<Further>, worth: WorthwhileDifference): Sentence {
  const { verdict, difference } = of.decision;
  const what = inSentence(of.thing.factor.label);
  if (verdict === "settled")
    return [`Already decided: no more trays are needed to show that ${what} changes the yield.`];
  const now = difference!.couldHaveShown;
  const enough = firstToShow(further, worth.grams);
  const sought: Sentence = [{ value: worth.grams, unit: of.response.unit, digits: 2 }, " (", ...worth.because, ")"];
  if (now <= worth.grams) {
    return ["These trays could have shown ", ...sought, ": a true difference is likely smaller."];
  }
  return [
    "Not decided yet: these trays could show ",
    { value: now, unit: of.response.unit, digits: 2 },
    " from end to end. ",
    ...(enough === undefined
      ? [`Even ${cooksText(further.at(-1)!.cooks)} would not show `, ...sought, ".", ...seenSentence(of, further)]
      : [`With ${cooksText(enough.cooks)} (${enough.trays} trays) it would be `, ...sought, "."]),
  ];
}

/** Cooks to grow: those that are enough or pay; else, where nothing weighs the cost, the same levels in each that comes. */
function nextOf(
  { decision, thing }: TreatmentDecision,
  more: Further | undefined,
  isEnough: boolean,
  isWeighed: boolean,
): Pick<AnswerFront, "next"> {
  const levels = thing.factor.key === doseFactor.key ? "doses" : "levels";
  const step = (act: string, why: string) => ({ next: [{ rank: "trial" as const, act: [act], because: [why] }] });
  if (more !== undefined && more.cooks <= mostAdvised) {
    const shows = `${more.cooks === 1 ? "It" : "They"} would show a gain worth having.`;
    const why = isEnough ? shows : "The better choice of dose pays for it.";
    return step(`Grow ${cooksText(more.cooks)} of the same ${levels}.`, why);
  }
  if (isWeighed || decision.verdict === "settled") return {};
  if (decision.method === "one-cook")
    return step(`Grow the same ${levels} in a second cook.`, "One cook cannot show what the next one does.");
  if (more === undefined) return {};
  const why = `${cooksText(more.cooks)} would show a gain worth having.`;
  return step(`Keep the same ${levels} side by side in each cook.`, why);
}

/** @param advisesOther the answer on the dose advises something else */
function frontOf(
  of: TreatmentDecision,
  further: ReadonlyArray<Further>,
  worth: WorthwhileDifference,
  advisesOther: boolean,
): AnswerFront {
  const { decision, response } = of;
  const now = decision.difference!.couldHaveShown;
  const enough = firstToShow(further, worth.grams);
  const pays = bestWorth(further);
  const settled = decision.verdict === "settled";
  // where the dose decides, cooks that do not pay for themselves are not advised, whatever they would show
  const isWeighed = further.some((one) => one.worth !== undefined);
  const more = isWeighed ? pays : settled || now <= worth.grams ? undefined : enough;
  const seen = showsSeen(of, further);
  return {
    short: settled
      ? [`No more trays are needed to show that ${inSentence(of.thing.factor.label)} changes the yield.`]
      : now <= worth.grams
        ? ["These trays could have shown a gain of ", ...worth.because, "."]
        : enough === undefined
          ? seen === undefined
            ? [`Even ${cooksText(further.at(-1)!.cooks)} would not show a gain of `, ...worth.because, "."]
            : [`${cooksText(seen.cooks)} would show a difference like the one seen.`]
          : [`${cooksText(enough.cooks)} would show a gain of `, ...worth.because, "."],
    figure: { label: "could be shown so far", value: now, unit: response.unit, digits: 2 },
    strip: {
      kind: "amount",
      unit: response.unit,
      value: now,
      digits: 2,
      others: [
        { name: "worth finding", value: worth.grams },
        ...(enough?.couldShow === undefined
          ? []
          : [{ name: `after ${cooksText(enough.cooks)}`, value: enough.couldShow }]),
      ],
    },
    ...(advisesOther ? {} : nextOf(of, more, more === enough, isWeighed)),
  };
}

function couldShowChart(further: ReadonlyArray<Further>, unit: string): Chart[] {
  const shown = further.filter((one): one is Further & { couldShow: number } => one.couldShow !== undefined);
  if (shown.length < 2) return [];
  const [x, y] = [shown.map(({ cooks }) => cooks), shown.map(({ couldShow }) => couldShow)];
  return [
    {
      kind: "curve",
      title: "Difference that could be shown, by further cooks",
      description: shown.map(({ cooks, couldShow }) => `${cooksText(cooks)}: ${couldShow.toPrecision(3)}`).join("; "),
      xLabel: "more cooks",
      xUnit: "cooks",
      yLabel: "could be shown",
      yUnit: unit,
      x,
      y,
    },
  ];
}

/** Whether a dose not tried yet is worth a trial, or none, as none pays: the same levels again are then no advice. */
const advisesOther = (trial: Trial, dose: BookDose): boolean =>
  dose.decision.nonePays || judgedSteps(dose, trialTerms(trial)).some(({ worth }) => worth);

function answer(trial: Trial, of: TreatmentDecision, found: ReturnType<typeof bookDoseDecision>): Answer {
  const { decision, gathered, response } = of;
  const dose = found.kind === "dose" && found.thing.factor.key === of.thing.factor.key ? found : undefined;
  const further = furtherOf(trial, of, dose);
  const good = decision.levels.flatMap(({ values }) => values);
  const mean = good.reduce((sum, { value }) => sum + value / good.length, 0);
  const worth = worthwhileDifference(trial.settings.worthwhileShare, mean);
  const isDone = decision.verdict === "settled" && bestWorth(further) === undefined;
  return {
    kind: "answer",
    sentence: [...showSentence(of, further, worth), ...(dose === undefined ? [] : worthSentence(dose, further, trial))],
    ...frontOf(of, further, worth, dose !== undefined && advisesOther(trial, dose)),
    certainty: "measured" satisfies Answer["certainty"],
    estimates: [
      {
        label: "difference that could be shown so far",
        value: decision.difference!.couldHaveShown,
        level: 0.8,
        unit: response.unit,
        n: good.length,
        nUnit: "trays",
        method: "standard error of the difference from end to end",
      },
    ],
    // what no one needs any more is not drawn
    tables: furtherTable(of, further, dose).map((table) => (isDone ? { ...table, open: 0 } : table)),
    charts: isDone ? [] : couldShowChart(further, response.unit),
    excluded: gathered.excluded,
    method: [
      [
        "Standard errors fall with the root of the number of cooks; further cooks are taken to be like those in the book.",
      ],
      ...(dose === undefined
        ? []
        : [
            [
              "More trays are worth the better choice that is expected after them: expected value of sample information.",
            ] satisfies Sentence,
          ]),
    ],
    caveats: [["Every further cook has to hold every level, drawn by lot tray by tray."]],
  };
}

function spreadOf(trial: Trial, weight: YieldWeight) {
  return bookSpread(observe(trial.trays, doseFactor, yieldPerGoodTray(weight)));
}

function run(trial: Trial): Outcome {
  const weight = yieldWeightOf(trial);
  const levels = Math.max(2, armsOf(trial.trays, doseFactor).length);
  if (weight === undefined) {
    return noAnswer(
      ["Cannot tell how many more trays are needed: ", ...whyNotWeighed(trial).reason],
      [...whyNotWeighed(trial).remedy, " Until then the table of usual spreads is a start."],
      { tables: usualSpreads(levels, trial), missing: whyNotWeighed(trial).missing },
    );
  }
  const of = yieldDecision(trial);
  if (of === undefined || of.decision.difference === undefined || of.decision.errors === undefined) {
    const spread = spreadOf(trial, weight);
    const words = of && cannotTellWords(inSentence(of.thing.factor.label), of.decision);
    const nothing = whyNothingVaried(trial);
    const byLayout = of?.decision.caps.every(({ reason }) => reason !== "one-level" && reason !== "no-good-trays");
    const never = byLayout === true ? " No number of trays laid out this way would decide." : "";
    return noAnswer(
      [
        "Cannot tell how many more trays are needed: ",
        ...(words === undefined ? nothing.reason : [`${words.reason}.${never}`]),
      ],
      [...(words === undefined ? nothing.remedy : [words.remedy]), ...freshTrial(spread, levels, trial, weight)],
      {
        excluded: of?.gathered.excluded ?? [],
        tables: spread === undefined ? usualSpreads(levels, trial) : [],
        missing: words === undefined ? nothing.missing : words.missing,
      },
    );
  }
  return answer(trial, of, bookDoseDecision(trial));
}

/** What more trays over more cooks would show, and what that is worth. */
export const howManyMoreTrays: Analysis = {
  id: "how-many-more-trays",
  name: "How many more trays",
  question: "How many more trays, over how many cooks, would decide it?",
  needs: ["tray_id"],
  assumes: ["trays and cooks to come vary as those in the book", "every further cook holds every level"],
  topic: "money",
  headline: true,
  run,
};
