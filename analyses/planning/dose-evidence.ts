import type { Sentence, Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { doseFactor } from "../../src/design/factor.ts";
import type { KnownDifference } from "../../src/statistics/planning/value-of-sample-information.ts";
import { compareTreatment, groupingsOf } from "../comparison/compare-treatment.ts";
import { inSentence } from "../comparison/level-text.ts";
import { isFinished, observe, yieldPerGoodTray, yieldWeightOf } from "../comparison/tray-response.ts";
import { type DoseMoney, doseMoney } from "../dose/dose-money.ts";
import { doseStep, type StepCurve, stepCurve } from "../dose/dose-steps.ts";
import { type BookSpread, bookSpread } from "./book-spread.ts";

/** Without a spread of its own a book's trays are taken to vary by a quarter of their mean. Common practice, no source. */
const usualVariation = 0.25;
/** How far a dose nobody tried may be off its curve, as a share of a tray's yield. */
const doubtBeyond = 0.1;

/** What the book knows that a proposal rests on. */
export interface DoseEvidence {
  curve: StepCurve | undefined;
  spread: Pick<BookSpread, "traySd" | "cookDoseSd" | "mean">;
  spreadSays: Sentence;
  unit: string;
  money: DoseMoney | undefined;
  noMoney: string;
  tried: number[];
  best: number | undefined;
  /** share of finished trays that were good */
  goodShare: number;
}

/** Share of finished trays that were good; 1 while none is finished. */
function goodShareOf({ trays }: Trial): number {
  const finished = startedCount(trays.filter(isFinished));
  const good = startedCount(trays.filter(({ outcome }) => outcome === "good"));
  return finished === 0 ? 1 : good / finished;
}

/** Reads from a book what the next trial is planned by: spread, curve, prices, the best dose so far. */
export function doseEvidence(trial: Trial): DoseEvidence {
  const tried = [...new Set(trial.trays.flatMap(({ inoculumMillilitres: dose }) => (dose === undefined ? [] : [dose])))]
    .filter((dose) => dose > 0)
    .sort((a, b) => a - b);
  const assumed = {
    spread: { traySd: usualVariation, cookDoseSd: 0, mean: 1 },
    spreadSays: [
      "How much trays vary is not known from this book; a quarter of their mean is assumed (common practice, no source).",
    ] satisfies Sentence,
    unit: "share",
  };
  const weight = yieldWeightOf(trial.trays);
  const nothing: DoseEvidence = {
    ...assumed,
    curve: undefined,
    money: undefined,
    noMoney: "no good tray has a weight",
    tried,
    best: undefined,
    goodShare: goodShareOf(trial),
  };
  if (weight === undefined) return nothing;
  const response = yieldPerGoodTray(weight);
  const spread = bookSpread(observe(trial.trays, doseFactor, response).observations);
  const money = doseMoney(trial, weight);
  const outcome = compareTreatment(trial, doseFactor, response, "higher");
  const compared = outcome.kind === "compared" ? outcome : undefined;
  if (spread === undefined || !(spread.mean > 0)) {
    return { ...nothing, noMoney: "too few trays have a weight to tell what a trial would show" };
  }
  const known: DoseEvidence = {
    ...nothing,
    spread,
    spreadSays: spread.says,
    unit: "g",
    money: money.kind === "money" ? money : undefined,
    noMoney: money.kind === "money" ? "" : money.reason,
  };
  if (compared === undefined) return known;
  const groupNames = groupingsOf(compared.layout, trial.trays).map(({ label }) => inSentence(label));
  const gramsPerMillilitre = known.money === undefined ? 0 : known.money.perMillilitre / known.money.perGram;
  const { arms } = compared.comparison;
  const ahead = arms.reduce((a, b) =>
    b.adjustedMean - b.dose! * gramsPerMillilitre > a.adjustedMean - a.dose! * gramsPerMillilitre ? b : a,
  ).dose!;
  // a tray without any culture is no dose to build a trial round
  const best = ahead > 0 ? ahead : undefined;
  try {
    return { ...known, best, curve: stepCurve(compared.observations, groupNames, trial.settings.intervalLevel) };
  } catch (error) {
    // without a curve the doses can still be laid out; only what they promise is not known
    if (!(error instanceof RangeError)) throw error;
    return { ...known, best };
  }
}

/** Money a started tray of each dose may earn over one of the best dose so far, as known now. */
export function knownDifferences(
  { curve, money, spread, tried, best, goodShare }: DoseEvidence,
  doses: ReadonlyArray<number>,
): KnownDifference[] {
  if (money === undefined) return [];
  const from = best ?? doses[0]!;
  const perGram = money.perGram * goodShare;
  return doses
    .filter((dose) => dose !== from)
    .map((dose) => {
      const liquid = (dose - from) * money.perMillilitre;
      // where nothing tells the doses apart yet, they may differ by a tenth of a tray either way
      if (curve === undefined) return { mean: -liquid, sd: doubtBeyond * spread.mean * perGram };
      const { change, place } = doseStep(curve, tried, from, dose, money.perMillilitre / money.perGram);
      const doubt = place === "tried" ? 0 : doubtBeyond * spread.mean;
      return { mean: change.estimate * perGram - liquid, sd: Math.hypot(change.standardError, doubt) * perGram };
    });
}
