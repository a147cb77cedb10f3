import type { Analysis, Chart, Estimate, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { yieldWeightOf } from "../../src/records/yield-weight.ts";
import { mean } from "../../src/statistics/descriptive/mean.ts";
import { agreementOfTrials } from "../../src/statistics/meta-analysis/agreement-of-trials.ts";
import { randomEffectsSummary } from "../../src/statistics/meta-analysis/random-effects-summary.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { yieldPerGoodTray } from "../comparison/tray-response.ts";
import { effectIn, judgeTrial, sharedEffect } from "./effect-per-trial.ts";
import { trialsOfBook } from "./trials-of-book.ts";
import {
  allowsForDifference,
  type Combined,
  meanAllowing,
  supposedShare,
  togetherMean,
  trialsForSpread,
} from "./trials-together.ts";
import { caveatWords, effectLabel, methodWords, sentenceList, verdict } from "./trials-words.ts";

function trialTable(combined: Combined, alpha: number): Table {
  const { effects, summary, agreement, effect, response, unit } = combined;
  const mean = meanAllowing(combined);
  const { weights } = togetherMean(combined, alpha);
  const prediction = effects.length < trialsForSpread ? undefined : summary.prediction;
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
        weights[k]!,
      ]),
      ["if the true effect is the same in all", null, null, same.estimate, same.lower, same.upper, null],
      ...(prediction === undefined
        ? []
        : [["a next trial like these", null, null, summary.estimate, prediction.lower, prediction.upper, null]]),
      [
        "if it differs from trial to trial",
        effects.reduce((sum, { trays }) => sum + trays, 0),
        null,
        mean.estimate,
        mean.low,
        mean.high,
        1,
      ],
    ],
    totalRows: 1,
    note: "A trial's weight is its share in the figure over all trials.",
  };
}

function trialChart(combined: Combined, alpha: number): Chart {
  const { effects, effect, response, unit } = combined;
  const together = togetherMean(combined, alpha);
  return {
    kind: "intervals",
    title: `${effectLabel(effect)}, trial by trial`,
    description: effects.map(({ name, estimate }) => `${name}: ${estimate.toPrecision(3)} ${unit}`).join("; "),
    unit,
    valueLabel: `gain in ${response.label}`,
    rows: [
      ...effects.map(({ name, estimate, low, high }) => ({ label: name, value: estimate, low, high })),
      { label: "together", value: together.estimate, low: together.low, high: together.high },
    ],
    reference: 0,
  };
}

function estimates(trial: Trial, combined: Combined): Estimate[] {
  const { effect, effects, summary, response, unit, agreement } = combined;
  const { betweenVariance } = summary;
  const together = togetherMean(combined, trial.settings.significanceLevel);
  const base = { level: trial.settings.intervalLevel, unit, n: effects.length, nUnit: "trials" };
  const spread = Math.sqrt(betweenVariance.upper);
  return [
    {
      ...base,
      label: `${effectLabel(effect)}, ${response.label}, trials together`,
      value: together.estimate,
      low: together.low,
      high: together.high,
      method: !allowsForDifference(combined, trial.settings.significanceLevel)
        ? "weighted by trays, if the same in all trials"
        : effects.length < trialsForSpread
          ? "mean of trials, its spread moderated"
          : "random effects, Hartung and Knapp",
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

function answer(trial: Trial, combined: Combined): Outcome {
  const { effects, agreement } = combined;
  const alpha = trial.settings.significanceLevel;
  const said = verdict(combined, alpha);
  return {
    kind: "answer",
    ...said,
    test: { p: agreement.p, settleable: effects.every(({ oneCook }) => !oneCook) },
    estimates: estimates(trial, combined),
    tables: [trialTable(combined, alpha)],
    charts: [trialChart(combined, alpha)],
    excluded: [],
    method: methodWords(combined),
    caveats: caveatWords(combined, alpha),
  };
}

function run(trial: Trial): Outcome {
  const settle: Sentence = [
    "Keep one harvest sheet per trial, and hold the same lowest dose and at least one other in every cook of each.",
  ];
  const weight = yieldWeightOf(trial);
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
    trial.settings.intervalLevel,
  );
  const agreement = agreementOfTrials(
    effects.map(({ estimate }) => estimate),
    effects.map(({ standardError }) => standardError),
    effects.map(({ degreesOfFreedom }) => degreesOfFreedom),
    trial.settings.intervalLevel,
    effects.map(({ trays }) => trays),
  );
  const unit = effect.kind === "pair" ? response.unit : `${response.unit}/${doseFactor.unit}`;
  const span = effect.kind === "pair" ? 1 : mean(judged.map(({ doses }) => doses.at(-1)! - doses[0]!));
  const weights = judged.flatMap(({ trays }) => trays.flatMap(({ value }) => (value === "lost" ? [] : [value])));
  const gainSd = (supposedShare * mean(weights)) / span;
  return answer(trial, { effect, effects, leftOut: without, summary, agreement, response, unit, gainSd });
}

/** Whether earlier trials of the same doses agree, and what they say together. */
export const doTrialsAgree: Analysis = {
  id: "do-trials-agree",
  name: "Do the trials agree?",
  question: "Do the trials agree, and what do they say together?",
  needs: ["tray_id", "inoculum_ml"],
  assumes: ["each harvest sheet is one trial", "doses were given to trays at random within each trial"],
  topic: "growing",
  headline: false,
  run,
};
