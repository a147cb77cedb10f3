import type { Sentence } from "../../src/analysis.ts";
import { type DoseStep, isWorthTrying } from "../../src/decisions/dose/index.ts";
import type { BookDose } from "./book-dose-decision.ts";
import { amountWord, type CoinDigits, dosePart, earns, isAdvised, leftPart } from "./dose-words.ts";
import { chanceText } from "./verdict-words.ts";

/** Fewer cooks than this do not show whether the next one would do the same. Common practice, no source. */
export const fewestCooks = 3;
/** Work a trial tray takes over any other: drawing, labelling, weighing it alone. Common practice, no source. */
export const extraMinutes = 2;

/** Trays that the smallest trial gives to a new dose: half a load in each of three cooks, beside the dose to use. */
export const trialTrays = (traysPerLoad: number): number => fewestCooks * Math.max(1, Math.round(traysPerLoad / 2));

/** What a judgement of untried doses takes beside the decision. */
export interface TrialTerms {
  traysAYear: number;
  traysPerLoad: number;
  ownerLabourRate: number;
}

/** An untried dose as it is judged in every answer. */
export interface JudgedStep {
  step: DoseStep;
  /** it lies among the doses that do as well as the one to use */
  asGood: boolean;
  /** knowing it for sure brings more in a year than the smallest trial gives up */
  worth: boolean;
  /** at most, over a year's trays */
  worthAYear: number;
  /** by the trial's trays against the dose to use, and by the work on them; below 0 where more is expected of them */
  givenUp: number;
}

/** The one rule by which a dose that was not tried is worth trying. */
function judgedStep(of: BookDose, step: DoseStep, terms: TrialTerms): JudgedStep {
  const { asGood: range, priced } = of.decision;
  const asGood = range !== undefined && step.dose >= range.low && step.dose <= range.high;
  const trays = trialTrays(terms.traysPerLoad);
  // the trays of the dose to use beside it are weighed one by one, too
  const work = priced ? (2 * extraMinutes * terms.ownerLabourRate) / 60 : 0;
  const difference = step.difference - work;
  return {
    step,
    asGood,
    worth: !asGood && isWorthTrying({ ...step, difference }, terms.traysAYear, trays),
    worthAYear: step.value * terms.traysAYear,
    givenUp: -difference * trays,
  };
}

/**
 * Untried doses beside the one to use, and those beyond the range where more could be earned; what is worth trying first, of
 * these a step beside the dose to use before a leap across doses that were tried, and most worth trying first.
 */
export function judgedSteps(of: BookDose, terms: TrialTerms): JudgedStep[] {
  const { nextSteps, edges } = of.decision;
  const all = [...nextSteps, ...edges.flatMap(({ next }) => next ?? [])];
  const isBeside = ({ step }: JudgedStep): boolean => nextSteps.some(({ dose }) => dose === step.dose);
  return [...new Map(all.map((step) => [step.dose, step])).values()]
    .map((step) => judgedStep(of, step, terms))
    .sort(
      (a, b) =>
        Number(b.worth) - Number(a.worth) ||
        Number(isBeside(b)) - Number(isBeside(a)) ||
        b.worthAYear - b.givenUp - (a.worthAYear - a.givenUp),
    );
}

/** The untried dose that is advised beside the dose to use, while the trays cannot tell; undefined where none is. */
export function triedBeside(of: BookDose, terms: TrialTerms): JudgedStep | undefined {
  if (of.decision.certainty !== "open" || !isAdvised(of)) return undefined;
  return judgedSteps(of, terms).find(({ worth }) => worth);
}

/**
 * What an untried dose promises: its chance, and what trying it brings and gives up.
 * @param sooner what is worth trying first
 */
export function stepSentence(
  of: BookDose,
  { step, asGood, worth, worthAYear, givenUp }: JudgedStep,
  settings: CoinDigits,
  sooner?: JudgedStep,
): Sentence {
  const [dose, use] = [dosePart(of, step.dose), dosePart(of, of.decision.use.dose)];
  if (asGood) return [dose, " is not worth a trial: it would do as well as ", use, "."];
  const chance: Sentence = [`the chance that it ${earns(of)} more than `, use, ` is ${chanceText(step.chanceBetter)}`];
  const onAverage: Sentence = [
    "on average it would leave ",
    ...leftPart(of, Math.abs(step.difference), settings),
    step.difference >= 0 ? " more a tray." : " less a tray.",
  ];
  const rough = step.beyond ? [" That is beyond your data, so rough."] : [];
  if (!worth) return [dose, " is not worth a trial: ", ...chance, ", and ", ...onAverage, ...rough];
  const weighed: Sentence =
    givenUp <= 0
      ? onAverage
      : [
          "knowing for sure is worth ",
          ...leftPart(of, worthAYear, settings),
          " a year at most, and a small trial of it takes ",
          ...leftPart(of, givenUp, settings),
          ".",
        ];
  const when: Sentence =
    sooner === undefined || sooner.step.dose === step.dose
      ? ["Try ", dose, " next: "]
      : [dose, " is worth a trial, but after ", dosePart(of, sooner.step.dose), ": "];
  return [...when, ...chance, "; ", ...weighed, ...rough];
}

/** Ends of the range tried beside which more could be earned. */
export function edgeSentences(of: BookDose, terms: TrialTerms, settings: CoinDigits): Sentence[] {
  const sooner = judgedSteps(of, terms).find(({ worth }) => worth);
  return of.decision.edges.map(({ side, dose, next }) => [
    dosePart(of, dose),
    ` is the ${side} ${amountWord(of)} ${of.tied.some((one) => (side === "highest" ? one > dose : one < dose)) ? "that can be judged" : "you tried"}. `,
    ...(next === undefined
      ? ["There is none beyond it to try."]
      : stepSentence(of, judgedStep(of, next, terms), settings, sooner)),
  ]);
}
