import type { Missing, NextStep, Sentence, Trial } from "../../src/analysis.ts";
import { halfWrittenThings, manyNamed, variedThings } from "../../src/design/varied-things.ts";
import { counted } from "../../src/records/counted.ts";
import { countedEnds } from "../../src/records/ended-cooks.ts";
import { hasEnded, isLost } from "../../src/records/tray.ts";
import { inSentence } from "../comparison/level-text.ts";
import { levelOf } from "./verdict-words.ts";
import { yieldSoFar } from "./yield-so-far.ts";

/** Why nothing is compared, what would settle it, and what it waits for. */
export interface WhyNothing {
  /** follows "Cannot tell ...: " */
  reason: Sentence;
  remedy: Sentence;
  missing: Missing;
  next?: NextStep[];
}

/** Whether every finished tray was lost; false while none is finished. */
export function allLost({ trays }: Pick<Trial, "trays">): boolean {
  const finished = countedEnds(trays);
  return finished.length > 0 && finished.every(isLost);
}

/** Words for a book of which every finished tray was lost. */
const everyTrayLost: WhyNothing = {
  reason: ["every finished tray was lost."],
  remedy: ["Find out why before the next cook: see the question about losses."],
  missing: { kind: "trays", need: "trays that are picked and weighed" },
  next: [
    {
      rank: "alarm",
      act: ["Find out why before the next cook."],
      because: ["Every finished tray was lost."],
      see: "is-contamination-a-signal",
    },
  ],
};

/** Why no good tray has a weight. */
export const whyNotWeighed = (trial: Trial): WhyNothing =>
  allLost(trial)
    ? everyTrayLost
    : {
        reason: ["no good tray has a weight."],
        remedy: ["Weigh each tray at harvest, fresh and dry, and type the weights in."],
        missing: { kind: "record", need: "the weight of each harvested tray" },
      };

/** " Seen so far: 28 g dry a good tray, of 1 tray."; nothing without a weight. */
function seenSoFar(trial: Trial): Sentence {
  const seen = yieldSoFar(trial);
  if (seen === undefined) return [];
  const { grams, count, weight } = seen;
  const of = ` ${weight} a good tray, of ${counted(count, "tray")}.`;
  return [" Seen so far: ", { value: grams, unit: "g", digits: 3 }, of];
}

/** What to do stands on the front, and why not yet in the waiting list. */
const nextTrial = (act: string, because: string): NextStep[] => [
  { rank: "trial", act: [act], because: [because], see: "waiting" },
];

const nothingWritten: WhyNothing = {
  reason: ["no column says what any tray was given."],
  remedy: ["Write each tray's dose, strain or supplement into a column of its own."],
  missing: { kind: "record", need: "each tray's dose, strain or supplement" },
  next: nextTrial("Write down what each tray was given.", "No column says it, so nothing can be compared."),
};

const allAlike: WhyNothing = {
  reason: ["every finished tray was treated alike."],
  remedy: ["Give some trays of each cook another dose, strain or supplement, and write it down."],
  missing: { kind: "vary", need: "two levels of one thing in the same cook" },
  next: nextTrial(
    "Give half the trays of the next cook another dose.",
    "All were treated alike, so nothing can be compared.",
  ),
};

/**
 * Why finished trays are not compared: blank cells beside the only level of a thing, other levels still growing, or nothing
 * varied; with the mean seen so far.
 */
export function whyNothingVaried(trial: Trial): WhyNothing {
  const seen = seenSoFar(trial);
  const [half] = halfWrittenThings(trial.trays.filter(hasEnded));
  if (half !== undefined) {
    const { factor, level, blank } = half;
    const what = inSentence(factor.label);
    const isAmount = factor.value !== undefined;
    return {
      reason: [
        levelOf(factor, isAmount ? Number(level) : level),
        ` is the only ${what} written, and ${blank} finished trays have none written.`,
        ...seen,
      ],
      remedy: [`Type ${isAmount ? "0" : "none"}, or what they had, as the ${what} of these trays.`],
      missing: { kind: "record", need: `the ${what} of the trays where it is blank` },
    };
  }
  const [started] = variedThings(trial.trays);
  if (started !== undefined && !started.isPeriod) {
    const what = inSentence(started.factor.label);
    return {
      reason: [`only one level of ${what} has a finished tray so far.`, ...seen],
      remedy: ["Wait for the trays that still grow."],
      missing: { kind: "trays", need: `finished trays of two levels of ${what}` },
    };
  }
  const many = manyNamed(trial.trays.filter(hasEnded));
  if (many !== undefined) {
    const what = inSentence(many.factor.label);
    return {
      reason: [`${many.names} names of ${what} are too many to compare, with few trays of each.`, ...seen],
      remedy: [`Give a few names of ${what} six trays or more each, and write each name alike.`],
      missing: { kind: "trays", need: `more trays of each ${what}` },
    };
  }
  const { reason, ...rest } = trial.issues.some(({ rule }) => rule === "no-varied-column") ? nothingWritten : allAlike;
  return { reason: [...reason, ...seen], ...rest };
}
