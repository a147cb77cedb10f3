import type { Analysis, Certainty, Chart, Estimate, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { normalQuantile } from "../../src/statistics/distributions/normal.ts";
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

function verdict(
  { effect, effects, summary, response, unit }: Combined,
  alpha: number,
): { sentence: Sentence; certainty: Certainty } {
  const { heterogeneity, modifiedHartungKnapp: mean } = summary;
  const together: Sentence = [
    "together ",
    ...effectParts(effect),
    " gives ",
    { value: summary.estimate, unit, signed: true },
    " (",
    { from: mean.lower, to: mean.upper, unit, signed: true },
    `) ${response.label}`,
  ];
  const many = `${effects.length} trials`;
  const sameWay = effects.every(({ estimate }) => estimate > 0) || effects.every(({ estimate }) => estimate < 0);
  if (heterogeneity.p < alpha) {
    return {
      sentence: [
        `The ${many} do not agree${sameWay ? " on how much, though all point the same way" : ""}: what dose does differed from trial to trial by more than chance; `,
        ...together,
        ".",
      ],
      certainty: "settled",
    };
  }
  const clear = mean.lower * mean.upper > 0;
  return {
    sentence: [
      sameWay
        ? `The ${many} agree as far as can be told: all point the same way and differ by no more than chance; `
        : `The ${many} do not point the same way, but differ by no more than chance; `,
      ...together,
      ".",
    ],
    certainty: sameWay && clear ? "settled" : sameWay ? "leaning" : "open",
  };
}

/** The mean effect if it were the same in every trial, with its normal interval. */
function sameEverywhere(effects: ReadonlyArray<TrialEffect>, level: number) {
  const weights = effects.map(({ standardError }) => 1 / standardError ** 2);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const estimate = effects.reduce((sum, one, k) => sum + (one.estimate * weights[k]!) / total, 0);
  const reach = normalQuantile((1 + level) / 2) / Math.sqrt(total);
  return { estimate, low: estimate - reach, high: estimate + reach };
}

function trialTable({ effects, summary, effect, response, unit }: Combined): Table {
  const { modifiedHartungKnapp: mean, prediction } = summary;
  const same = sameEverywhere(effects, summary.level);
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
      { label: "model" },
    ],
    rows: [
      ...effects.map(({ name, trays, cooks, estimate, low, high, model }, k) => [
        name,
        trays,
        cooks === 0 ? null : cooks,
        estimate,
        low,
        high,
        summary.weights[k]!,
        model,
      ]),
      ["if the true effect is the same in all", null, null, same.estimate, same.low, same.high, null, "common effect"],
      ...(prediction === undefined
        ? []
        : [
            [
              "a next trial like these",
              null,
              null,
              summary.estimate,
              prediction.lower,
              prediction.upper,
              null,
              "prediction",
            ],
          ]),
      [
        "together",
        effects.reduce((sum, { trays }) => sum + trays, 0),
        null,
        summary.estimate,
        mean.lower,
        mean.upper,
        1,
        "random effects",
      ],
    ],
    totalRows: 1,
    note: "A trial's weight falls with its error and with how much trials differ.",
  };
}

function trialChart({ effects, summary, effect, response, unit }: Combined): Chart {
  const { modifiedHartungKnapp: mean } = summary;
  return {
    kind: "intervals",
    title: `${effectLabel(effect)}, trial by trial`,
    description: effects.map(({ name, estimate }) => `${name}: ${estimate.toPrecision(3)} ${unit}`).join("; "),
    unit,
    valueLabel: `gain in ${response.label}`,
    rows: [
      ...effects.map(({ name, estimate, low, high }) => ({ label: name, value: estimate, low, high })),
      { label: "together", value: summary.estimate, low: mean.lower, high: mean.upper },
    ],
    reference: 0,
  };
}

function estimates(trial: Trial, { effect, effects, summary, response, unit }: Combined): Estimate[] {
  const { modifiedHartungKnapp: mean, betweenVariance } = summary;
  const base = { level: trial.settings.intervalLevel, unit, n: effects.length, nUnit: "trials" };
  const spread = Math.sqrt(betweenVariance.upper);
  return [
    {
      ...base,
      label: `${effectLabel(effect)}, ${response.label}, trials together`,
      value: summary.estimate,
      low: mean.lower,
      high: mean.upper,
      p: mean.p,
      method: "random effects, Hartung and Knapp",
    },
    {
      ...base,
      label: "standard deviation of the true effect from trial to trial",
      value: Math.sqrt(betweenVariance.estimate),
      ...(Number.isFinite(spread) ? { low: Math.sqrt(betweenVariance.lower), high: spread } : {}),
      method: "restricted maximum likelihood, limits from the generalised Q",
    },
  ];
}

const sentenceList = (items: ReadonlyArray<{ name: string; reason: string }>): Sentence[] =>
  items.map(({ name, reason }) => [`Trial ${name} takes no part: ${reason}.`]);

function answer(trial: Trial, combined: Combined): Outcome {
  const { effect, effects, summary, leftOut } = combined;
  const { heterogeneity } = summary;
  const { sentence, certainty } = verdict(combined, trial.settings.significanceLevel);
  const percent = (share: number) => `${Math.round(share * 100)}%`;
  return {
    kind: "answer",
    sentence,
    certainty,
    ...trialsFront(
      {
        value: summary.estimate,
        low: summary.modifiedHartungKnapp.lower,
        high: summary.modifiedHartungKnapp.upper,
      },
      combined.unit,
      effects.length,
      effects.every(({ estimate }) => estimate > 0) || effects.every(({ estimate }) => estimate < 0),
      heterogeneity.p < trial.settings.significanceLevel,
    ),
    estimates: estimates(trial, combined),
    tables: [trialTable(combined)],
    charts: [trialChart(combined)],
    excluded: [],
    method: [
      [
        `A trial is one harvest sheet. ${effect.kind === "pair" ? `The two doses most trials hold link them: ${effectLabel(effect)}, each compared inside its own trial and cooks.` : "No two doses stand together in two trials, so the rise per mL along a straight line is compared, each inside its own trial and cooks."}`,
      ],
      [
        "Combined by a random-effects summary: variance between trials by restricted maximum likelihood, interval by Hartung and Knapp, never narrower than the trials' own errors.",
      ],
      [
        `Differences between trials: Q = ${heterogeneity.q.toPrecision(3)} with ${heterogeneity.df} degree${heterogeneity.df === 1 ? "" : "s"} of freedom, p = ${heterogeneity.p.toPrecision(2)}; ${percent(heterogeneity.iSquared)} of the variation between trials is more than chance.`,
      ],
    ],
    caveats: [
      ...(effects.length < 4
        ? [
            [
              `With ${effects.length} trials a real difference between them is easily missed, and the interval of the summary is wide: it has ${effects.length - 1} degree${effects.length === 2 ? "" : "s"} of freedom.`,
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
    return noAnswer(["Cannot tell whether trials agree: no good tray has a weight."], settle);
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
  const found = judged.map((one) => effectIn(one, effect, trial.settings.intervalLevel));
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
  const unit = effect.kind === "pair" ? response.unit : `${response.unit}/${doseFactor.unit}`;
  return answer(trial, { effect, effects, leftOut: without, summary, response, unit });
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
