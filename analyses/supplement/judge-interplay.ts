import type { Sentence, Trial } from "../../src/analysis.ts";
import { doseFactor, type Factor } from "../../src/design/factor.ts";
import { inSentence, levelLabel, levelPart } from "../comparison/level-text.ts";
import type { Interaction } from "./interaction.ts";

/** The most a second factor may change what a dose does, by the intervals. */
const largestPossible = ({ contrasts }: Interaction): number =>
  Math.max(...contrasts.map(({ low, high }) => Math.max(Math.abs(low), Math.abs(high))));

/** What is said of an interplay, and how sure it is. */
export interface Judged {
  sentence: Sentence;
  certainty: "settled" | "leaning" | "open";
  /** whether they have to be judged together */
  together: boolean;
}

/** Whether dose and a second factor have to be judged together. @param mean of a tray, in `unit` */
export function judge(trial: Trial, interaction: Interaction, second: Factor, mean: number, unit: string): Judged {
  const { test, contrasts } = interaction;
  const { significanceLevel: alpha, worthwhileShare } = trial.settings;
  const what = inSentence(second.label);
  const largest = contrasts.reduce((a, b) => (Math.abs(b.estimate) > Math.abs(a.estimate) ? b : a));
  const pair: Sentence = [
    "from ",
    levelPart(doseFactor, largest.fromDose, Number(largest.fromDose)),
    " to ",
    levelPart(doseFactor, largest.dose, Number(largest.dose)),
    " with ",
    levelLabel(second, largest.other),
    " instead of ",
    levelLabel(second, largest.fromOther),
    " changes the gain by ",
    { value: largest.estimate, unit, signed: true },
    " (",
    { from: largest.low, to: largest.high, unit, signed: true },
    ")",
  ];
  // too small to matter, as for any difference
  const margin = worthwhileShare * Math.abs(mean);
  const possible = largestPossible(interaction);
  if (possible <= margin) {
    return {
      sentence: [
        test.p < alpha
          ? `Dose and ${what} can be judged apart: they do interact, but one changes what the other does by no more than `
          : `Dose and ${what} can be judged apart: one changes what the other does by no more than `,
        { value: possible, unit },
        ", less than ",
        { value: worthwhileShare, unit: "share" },
        " of a tray.",
      ],
      certainty: "settled",
      together: false,
    };
  }
  if (test.p < alpha) {
    return {
      sentence: [`Dose and ${what} have to be judged together: going `, ...pair, "."],
      certainty: contrasts.some(({ low, high }) => low * high > 0) ? "settled" : "leaning",
      together: true,
    };
  }
  return {
    sentence: [
      `No interplay of dose and ${what} is shown, but one of up to `,
      { value: possible, unit },
      " a tray is not ruled out: going ",
      ...pair,
      ".",
    ],
    certainty: test.p < Math.max(0.2, alpha) ? "leaning" : "open",
    together: false,
  };
}
