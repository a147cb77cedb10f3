import type { Answer, Certainty, Sentence } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import type { SharedEffect } from "./effect-per-trial.ts";
import { type Differ, trialsFront } from "./trials-front.ts";
import {
  allowsForDifference,
  type Combined,
  meanAllowing,
  supposedShare,
  togetherMean,
  trialsForSpread,
} from "./trials-together.ts";

/** "12 mL against 3 mL", or "a further mL". */
const effectParts = (effect: SharedEffect): Sentence =>
  effect.kind === "pair"
    ? [{ value: effect.to, unit: doseFactor.unit }, " against ", { value: effect.from, unit: doseFactor.unit }]
    : [`each further ${doseFactor.unit}`];

export const effectLabel = (effect: SharedEffect): string =>
  effect.kind === "pair"
    ? `${effect.to} ${doseFactor.unit} against ${effect.from} ${doseFactor.unit}`
    : `each further ${doseFactor.unit}`;

interface Said extends Pick<Answer, "short" | "figure" | "strip" | "sentence" | "lowered"> {
  certainty: Certainty;
}

/** Whether trials agree, in words. */
export function verdict(combined: Combined, alpha: number): Said {
  const { effect, effects, agreement, response, unit } = combined;
  const mean = togetherMean(combined, alpha);
  const allowed = allowsForDifference(combined, alpha);
  const many = `${effects.length} trials`;
  const sameWay = effects.every(({ estimate }) => estimate > 0) || effects.every(({ estimate }) => estimate < 0);
  const frontOf = (differ: Differ) =>
    trialsFront(
      { value: mean.estimate, low: mean.low, high: mean.high },
      unit,
      effects.length,
      sameWay,
      differ,
      allowed,
    );
  const front = frontOf(agreement.p < alpha ? "yes" : "no");
  const together: Sentence = [
    allowed ? "together " : "if the true difference is the same in all, ",
    ...effectParts(effect),
    allowed ? " gave " : " gives ",
    { value: mean.estimate, unit, signed: true },
    " (",
    { from: mean.low, to: mean.high, unit, signed: true },
    `) ${response.label}.`,
  ];
  // one cook shows nothing of how much gains differ between cooks, so trials of one cook cannot settle that they differ
  const firm = effects.every(({ oneCook }) => !oneCook);
  if (agreement.p < alpha) {
    const how = sameWay ? " on how much, though all point the same way" : "";
    const differ = firm ? "chance" : "trays do, though one cook a trial cannot show more";
    return {
      sentence: [`The ${many} do not agree${how}: they differ by more than ${differ}; `, ...together],
      certainty: firm ? "settled" : "leaning",
      ...front,
      ...(firm
        ? {
            lowered: {
              sentence: [
                `The ${many} may not agree${how}: alone they would differ by more than chance, among all that this report looks at they do not; `,
                ...together,
              ],
              ...frontOf("perhaps"),
            },
          }
        : {}),
    };
  }
  return {
    sentence: [
      sameWay
        ? `The ${many} agree as far as can be seen: all point the same way and differ by no more than chance; `
        : `The ${many} do not point the same way, but differ by no more than chance; `,
      ...together,
    ],
    // agreement is never shown, only not refuted; the difference itself is settled by the question about it
    certainty: sameWay ? "leaning" : "open",
    ...front,
  };
}

export const sentenceList = (items: ReadonlyArray<{ name: string; reason: string }>): Sentence[] =>
  items.map(({ name, reason }) => [`Trial ${name} takes no part: ${reason}.`]);

/** How trials were compared. */
export function methodWords({ effect, summary, agreement }: Combined): Sentence[] {
  const percent = (share: number) => `${Math.round(share * 100)}%`;
  return [
    [
      `A trial is one harvest sheet. ${effect.kind === "pair" ? `The two doses most trials hold link them: ${effectLabel(effect)}, each compared inside its own trial and cooks.` : "No two doses stand together in two trials, so the rise per mL along a straight line is compared, each inside its own trial and cooks."}`,
    ],
    [
      "Each trial is decided as the book is. Whether they agree: Welch's F, which allows for how poorly few cooks know their own error. If the effect is the same in all, trials weigh by their trays. Where they may differ: of five trials or more random effects, variance between trials by restricted maximum likelihood, interval by Hartung and Knapp; of fewer their plain mean, its variance moderated by a scaled inverse chi-square prior.",
    ],
    [
      `Differences between trials: F = ${agreement.f.toPrecision(3)} with ${agreement.numeratorDf} and ${agreement.denominatorDf.toPrecision(3)} degrees of freedom, p = ${agreement.p.toPrecision(2)}; ${percent(summary.iSquared)} of the variation between trials is more than chance.`,
    ],
  ];
}

/** What to keep in mind of trials put together. */
export function caveatWords(combined: Combined, alpha: number): Sentence[] {
  const { effect, effects, leftOut, unit } = combined;
  const mean = meanAllowing(combined);
  const share = `${Math.round(100 * supposedShare)}% of a tray's yield`;
  const few = `With ${effects.length} trials`;
  return [
    ...(effects.length >= trialsForSpread
      ? []
      : allowsForDifference(combined, alpha)
        ? [[`${few} it is hardly known how much they differ: the range supposes about ${share}.`]]
        : [
            [
              `${few} a real difference between them is easily missed. Allowing for one of about ${share}, the mean is `,
              { value: mean.estimate, unit, signed: true },
              " (",
              { from: mean.low, to: mean.high, unit, signed: true },
              ").",
            ] satisfies Sentence,
          ]),
    ...(effect.kind === "slope"
      ? [
          [
            "A rise per mL means the same in every trial only where the doses lie in the straight part of the curve.",
          ] satisfies Sentence,
        ]
      : []),
    ...sentenceList(leftOut),
    ["Keep the lowest dose in every cook of every trial: it is what links them."],
  ];
}
