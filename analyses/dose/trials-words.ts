import type { Answer, Certainty, Sentence } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import type { AgreementOfTrials } from "../../src/statistics/meta-analysis/agreement-of-trials.ts";
import type { RandomEffectsSummary } from "../../src/statistics/meta-analysis/random-effects-summary.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import type { SharedEffect, TrialEffect } from "./effect-per-trial.ts";
import { type Differ, trialsFront } from "./trials-front.ts";

/** What trials of the same doses say together. */
export interface Combined {
  effect: SharedEffect;
  effects: TrialEffect[];
  leftOut: { name: string; reason: string }[];
  summary: RandomEffectsSummary;
  agreement: AgreementOfTrials;
  response: TrayResponse;
  unit: string;
}

/** "12 mL against 3 mL", or "a further mL". */
const effectParts = (effect: SharedEffect): Sentence =>
  effect.kind === "pair"
    ? [{ value: effect.to, unit: doseFactor.unit }, " against ", { value: effect.from, unit: doseFactor.unit }]
    : [`each further ${doseFactor.unit}`];

export const effectLabel = (effect: SharedEffect): string =>
  effect.kind === "pair"
    ? `${effect.to} ${doseFactor.unit} against ${effect.from} ${doseFactor.unit}`
    : `each further ${doseFactor.unit}`;

/** With fewer trials the spread between them is hardly known, and a range that allows for it says next to nothing. */
const trialsForSpread = 5;

/** The range that is given: of the effect if it is the same in all, unless trials differ or are enough to know how much they do. */
export function togetherMean({ agreement, summary, effects }: Combined, alpha: number) {
  const { modifiedHartungKnapp: mean } = summary;
  return agreement.p < alpha || effects.length >= trialsForSpread
    ? { allowed: true, estimate: summary.estimate, low: mean.lower, high: mean.upper }
    : {
        allowed: false,
        estimate: agreement.common.estimate,
        low: agreement.common.lower,
        high: agreement.common.upper,
      };
}

interface Said extends Pick<Answer, "short" | "figure" | "strip" | "sentence" | "lowered"> {
  certainty: Certainty;
}

/** Whether trials agree, in words. */
export function verdict(combined: Combined, alpha: number): Said {
  const { effect, effects, agreement, response, unit } = combined;
  const mean = togetherMean(combined, alpha);
  const many = `${effects.length} trials`;
  const sameWay = effects.every(({ estimate }) => estimate > 0) || effects.every(({ estimate }) => estimate < 0);
  const frontOf = (differ: Differ) =>
    trialsFront({ value: mean.estimate, low: mean.low, high: mean.high }, unit, effects.length, sameWay, differ);
  const front = frontOf(agreement.p < alpha ? "yes" : "no");
  const together: Sentence = [
    mean.allowed ? "together " : "if the true difference is the same in all, ",
    ...effectParts(effect),
    mean.allowed ? " gave " : " gives ",
    { value: mean.estimate, unit, signed: true },
    " (",
    { from: mean.low, to: mean.high, unit, signed: true },
    `) ${response.label}.`,
  ];
  // one cook shows nothing of how much gains differ between cooks, so trials of one cook cannot settle that they differ
  const firm = effects.every(({ oneCook }) => !oneCook);
  if (agreement.p < alpha) {
    const how = sameWay ? " on how much, though all point the same way" : "";
    const differ = firm
      ? "they differ by more than chance"
      : "they differ by more than trays do, though one cook a trial cannot show more";
    return {
      sentence: [`The ${many} do not agree${how}: ${differ}; `, ...together],
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
  const { heterogeneity } = summary;
  const percent = (share: number) => `${Math.round(share * 100)}%`;
  return [
    [
      `A trial is one harvest sheet. ${effect.kind === "pair" ? `The two doses most trials hold link them: ${effectLabel(effect)}, each compared inside its own trial and cooks.` : "No two doses stand together in two trials, so the rise per mL along a straight line is compared, each inside its own trial and cooks."}`,
    ],
    [
      "Each trial is decided as the book is. Whether they agree: Welch's F, which allows for how poorly few cooks know their own error. Where they may differ: random effects, variance between trials by restricted maximum likelihood, interval by Hartung and Knapp.",
    ],
    [
      `Differences between trials: F = ${agreement.f.toPrecision(3)} with ${agreement.numeratorDf} and ${agreement.denominatorDf.toPrecision(3)} degrees of freedom, p = ${agreement.p.toPrecision(2)}; ${percent(heterogeneity.iSquared)} of the variation between trials is more than chance.`,
    ],
  ];
}

/** What to keep in mind of trials put together. */
export function caveatWords({ effect, effects, summary, leftOut, unit }: Combined): Sentence[] {
  const { modifiedHartungKnapp: mean } = summary;
  return [
    ...(effects.length < trialsForSpread
      ? [
          [
            `With ${effects.length} trials a real difference between them is easily missed. Allowing for one, the range of the mean would be `,
            { from: mean.lower, to: mean.upper, unit, signed: true },
            ": so few trials cannot say how much they differ, so that range is of no use yet.",
          ] satisfies Sentence,
        ]
      : []),
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
