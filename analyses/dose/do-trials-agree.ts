import type {
  Analysis,
  AnswerFront,
  Certainty,
  Chart,
  Estimate,
  Outcome,
  Sentence,
  Table,
  Trial,
} from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { type AgreementOfTrials, agreementOfTrials } from "../../src/statistics/meta-analysis/agreement-of-trials.ts";
import {
  type RandomEffectsSummary,
  randomEffectsSummary,
} from "../../src/statistics/meta-analysis/random-effects-summary.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { type TrayResponse, yieldPerGoodTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { effectIn, judgeTrial, type SharedEffect, sharedEffect, type TrialEffect } from "./effect-per-trial.ts";
import { trialsFront } from "./trials-front.ts";
import { trialsOfBook } from "./trials-of-book.ts";

interface Combined {
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

const effectLabel = (effect: SharedEffect): string =>
  effect.kind === "pair"
    ? `${effect.to} ${doseFactor.unit} against ${effect.from} ${doseFactor.unit}`
    : `each further ${doseFactor.unit}`;

/** With fewer trials the spread between them is hardly known, and a range that allows for it says next to nothing. */
const trialsForSpread = 5;

/** The range that is told: of the effect if it is the same in all, unless trials differ or are enough to know how much they do. */
function toldMean({ agreement, summary, effects }: Combined, alpha: number) {
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

interface Said extends Pick<AnswerFront, "short" | "figure" | "strip"> {
  sentence: Sentence;
  certainty: Certainty;
}

function verdict(combined: Combined, alpha: number): Said {
  const { effect, effects, agreement, response, unit } = combined;
  const told = toldMean(combined, alpha);
  const many = `${effects.length} trials`;
  const sameWay = effects.every(({ estimate }) => estimate > 0) || effects.every(({ estimate }) => estimate < 0);
  const front = trialsFront(
    { value: told.estimate, low: told.low, high: told.high },
    unit,
    effects.length,
    sameWay,
    agreement.p < alpha,
  );
  const together: Sentence = [
    told.allowed ? "together " : "if the true difference is the same in all, ",
    ...effectParts(effect),
    told.allowed ? " gave " : " gives ",
    { value: told.estimate, unit, signed: true },
    " (",
    { from: told.low, to: told.high, unit, signed: true },
    `) ${response.label}.`,
  ];
  // one cook shows nothing of how much gains differ between cooks, so trials of one cook cannot settle that they differ
  const firm = effects.every(({ oneCook }) => !oneCook);
  if (agreement.p < alpha) {
    return {
      sentence: [
        `The ${many} do not agree${sameWay ? " on how much, though all point the same way" : ""}: ${firm ? "they differ by more than chance" : "they differ by more than trays do, though one cook a trial cannot show more"}; `,
        ...together,
      ],
      certainty: firm ? "settled" : "leaning",
      ...front,
    };
  }
  return {
    sentence: [
      sameWay
        ? `The ${many} agree as far as can be told: all point the same way and differ by no more than chance; `
        : `The ${many} do not point the same way, but differ by no more than chance; `,
      ...together,
    ],
    // agreement is never shown, only not refuted; the difference itself is settled by the question about it
    certainty: sameWay ? "leaning" : "open",
    ...front,
  };
}

function trialTable({ effects, summary, agreement, effect, response, unit }: Combined): Table {
  const { modifiedHartungKnapp: mean, prediction } = summary;
  const same = agreement.common;
  return {
    caption: `${effectLabel(effect)}, trial by trial: ${response.label}`,
    columns: [
      { label: "trial" },
      { label: "trays", unit: "trays" },
      { label: "cooks", unit: "cooks" },
      { label: "effect", unit },
      { label: "from", unit },
      { label: "to", unit },
      { label: "weight", unit: "share" },
    ],
    rows: [
      ...effects.map(({ name, trays, cooks, estimate, low, high }, k) => [
        name,
        trays,
        cooks === 0 ? null : cooks,
        estimate,
        low,
        high,
        summary.weights[k]!,
      ]),
      ["if the true effect is the same in all", null, null, same.estimate, same.lower, same.upper, null],
      ...(prediction === undefined
        ? []
        : [["a next trial like these", null, null, summary.estimate, prediction.lower, prediction.upper, null]]),
      [
        "if it differs from trial to trial",
        effects.reduce((sum, { trays }) => sum + trays, 0),
        null,
        summary.estimate,
        mean.lower,
        mean.upper,
        1,
      ],
    ],
    totalRows: 1,
    note: "A trial's weight falls with its error and with how much trials differ.",
  };
}

function trialChart(combined: Combined, alpha: number): Chart {
  const { effects, effect, response, unit } = combined;
  const told = toldMean(combined, alpha);
  return {
    kind: "intervals",
    title: `${effectLabel(effect)}, trial by trial`,
    description: effects.map(({ name, estimate }) => `${name}: ${estimate.toPrecision(3)} ${unit}`).join("; "),
    unit,
    valueLabel: `gain in ${response.label}`,
    rows: [
      ...effects.map(({ name, estimate, low, high }) => ({ label: name, value: estimate, low, high })),
      { label: "together", value: told.estimate, low: told.low, high: told.high },
    ],
    reference: 0,
  };
}

function estimates(trial: Trial, combined: Combined): Estimate[] {
  const { effect, effects, summary, response, unit, agreement } = combined;
  const { betweenVariance } = summary;
  const told = toldMean(combined, trial.settings.significanceLevel);
  const base = { level: trial.settings.intervalLevel, unit, n: effects.length, nUnit: "trials" };
  const spread = Math.sqrt(betweenVariance.upper);
  return [
    {
      ...base,
      label: `${effectLabel(effect)}, ${response.label}, trials together`,
      value: told.estimate,
      low: told.low,
      high: told.high,
      method: told.allowed ? "random effects, Hartung and Knapp" : "weighted by precision, if the same in all trials",
    },
    {
      ...base,
      label: "standard deviation of the true effect from trial to trial",
      value: Math.sqrt(betweenVariance.estimate),
      ...(Number.isFinite(spread) ? { low: Math.sqrt(betweenVariance.lower), high: spread } : {}),
      p: agreement.p,
      method: "restricted maximum likelihood, limits from the generalised Q; p by Welch's F",
    },
  ];
}

const sentenceList = (items: ReadonlyArray<{ name: string; reason: string }>): Sentence[] =>
  items.map(({ name, reason }) => [`Trial ${name} takes no part: ${reason}.`]);

function answer(trial: Trial, combined: Combined): Outcome {
  const { effect, effects, summary, agreement, leftOut, unit } = combined;
  const alpha = trial.settings.significanceLevel;
  const { heterogeneity, modifiedHartungKnapp: mean } = summary;
  const said = verdict(combined, alpha);
  const percent = (share: number) => `${Math.round(share * 100)}%`;
  return {
    kind: "answer",
    ...said,
    test: { p: agreement.p, settleable: effects.every(({ oneCook }) => !oneCook) },
    ...(said.certainty === "settled"
      ? {
          lowered: {
            sentence: ["Leaning to a difference between trials. ", ...said.sentence] satisfies Sentence,
            short: ["The trials seem to differ."] satisfies Sentence,
          },
        }
      : {}),
    estimates: estimates(trial, combined),
    tables: [trialTable(combined)],
    charts: [trialChart(combined, alpha)],
    excluded: [],
    method: [
      [
        `A trial is one harvest sheet. ${effect.kind === "pair" ? `The two doses most trials hold link them: ${effectLabel(effect)}, each compared inside its own trial and cooks.` : "No two doses stand together in two trials, so the rise per mL along a straight line is compared, each inside its own trial and cooks."}`,
      ],
      [
        "Each trial is decided as the book is. Whether they agree: Welch's F, which allows for how poorly few cooks know their own error. Where they may differ: random effects, variance between trials by restricted maximum likelihood, interval by Hartung and Knapp.",
      ],
      [
        `Differences between trials: F = ${agreement.f.toPrecision(3)} with ${agreement.numeratorDf} and ${agreement.denominatorDf.toPrecision(3)} degrees of freedom, p = ${agreement.p.toPrecision(2)}; ${percent(heterogeneity.iSquared)} of the variation between trials is more than chance.`,
      ],
    ],
    caveats: [
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
    ],
  };
}

function run(trial: Trial): Outcome {
  const settle: Sentence = [
    "Keep one harvest sheet per trial, and hold the same lowest dose and at least one other in every cook of each.",
  ];
  const weight = yieldWeightOf(trial.trays);
  if (weight === undefined) {
    return noAnswer(["Cannot tell whether trials agree: no good tray has a weight."], settle, {
      missing: { kind: "record", need: "the weight of each harvested tray" },
    });
  }
  const response = yieldPerGoodTray(weight);
  const trials = trialsOfBook(trial.trays);
  if (trials.length < 2) {
    return noAnswer(
      ["Cannot tell whether trials agree: the book holds one harvest sheet, which counts as one trial."],
      settle,
      { missing: { kind: "vary", need: "a second trial in a harvest sheet of its own" } },
    );
  }
  const read = trials.map((one) => judgeTrial(trial, one, response));
  const judged = read.flatMap((one) => (one.kind === "judged" ? [one.judged] : []));
  const leftOut = read.flatMap((one) => (one.kind === "left-out" ? [{ name: one.name, reason: one.reason }] : []));
  const effect = sharedEffect(judged);
  const found = judged.map((one) => effectIn(trial, one, effect));
  const effects = found.flatMap((one) => ("reason" in one ? [] : [one]));
  const without = [...leftOut, ...found.flatMap((one) => ("reason" in one ? [one] : []))];
  if (effects.length < 2) {
    return noAnswer(
      [
        `Cannot tell whether trials agree: ${effects.length === 0 ? "in none" : "in only one"} of ${trials.length} harvest sheets can the dose be judged on its own.`,
      ],
      settle,
      {
        caveats: sentenceList(without),
        missing: { kind: "trays", need: "trials in which the dose can be judged on its own" },
      },
    );
  }
  const summary = randomEffectsSummary(
    effects.map(({ estimate }) => estimate),
    effects.map(({ standardError }) => standardError),
    { level: trial.settings.intervalLevel },
  );
  const agreement = agreementOfTrials(
    effects.map(({ estimate }) => estimate),
    effects.map(({ standardError }) => standardError),
    effects.map(({ degreesOfFreedom }) => degreesOfFreedom),
    trial.settings.intervalLevel,
  );
  const unit = effect.kind === "pair" ? response.unit : `${response.unit}/${doseFactor.unit}`;
  return answer(trial, { effect, effects, leftOut: without, summary, agreement, response, unit });
}

/** Whether earlier trials of the same doses agree, and what they say together. */
export const doTrialsAgree: Analysis = {
  id: "do-trials-agree",
  name: "Do the trials agree?",
  question: "Do the trials agree, and what do they say together?",
  needs: ["tray_id", "inoculum_ml"],
  experimentalUnit: "trial",
  assumes: ["each harvest sheet is one trial", "doses were given to trays at random within each trial"],
  topic: "growing",
  headline: false,
  run,
};
