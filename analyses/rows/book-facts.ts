import type { Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { doseFactor } from "../../src/design/factor.ts";
import { wilsonInterval } from "../../src/statistics/counts/proportion-interval.ts";
import { meanInterval } from "../../src/statistics/descriptive/mean-interval.ts";
import { compareTreatment } from "../comparison/compare-treatment.ts";
import { levelLabel } from "../comparison/level-text.ts";
import { isFinished, isLost, type YieldWeight, yieldPerGoodTray } from "../comparison/tray-response.ts";

/** A figure of the whole book with its range. */
export interface BookFact {
  label: string;
  unit: string;
  value: number;
  low: number;
  high: number;
  n: number;
}

/**
 * The figures that answers hang on: mean yield of a good tray, share lost, and what the highest dose adds over the lowest.
 * @param weight fixed beforehand, so that leaving trays out does not change what is compared
 * @returns those that can be worked out
 */
export function bookFacts(trial: Trial, weight: YieldWeight | undefined): BookFact[] {
  const level = trial.settings.intervalLevel;
  const facts: BookFact[] = [];
  if (weight !== undefined) {
    const response = yieldPerGoodTray(weight);
    const values = trial.trays.flatMap((tray) => (tray.traysInPool === 1 ? (response.of(tray) ?? []) : []));
    if (values.length >= 2) {
      const { mean, lower, upper, n } = meanInterval(values, level);
      facts.push({ label: `mean ${response.label}`, unit: response.unit, value: mean, low: lower, high: upper, n });
    }
  }
  const finished = trial.trays.filter(isFinished);
  const total = startedCount(finished);
  if (total > 0) {
    const { proportion, lower, upper } = wilsonInterval(startedCount(finished.filter(isLost)), total, level);
    facts.push({
      label: "share of finished trays lost",
      unit: "share",
      value: proportion,
      low: lower,
      high: upper,
      n: total,
    });
  }
  if (weight === undefined) return facts;
  const compared = compareTreatment(trial, doseFactor, yieldPerGoodTray(weight), "higher");
  if (compared.kind === "cannot-tell") return facts;
  const { arms, pairs } = compared.comparison;
  const ordered = [...arms].sort((a, b) => (a.dose ?? 0) - (b.dose ?? 0));
  const [first, last] = [ordered[0]!.arm, ordered.at(-1)!.arm];
  const pair = pairs.find((one) => [one.first, one.second].includes(first) && [one.first, one.second].includes(last))!;
  const sign = pair.first === first ? 1 : -1;
  const ends = [sign * pair.low, sign * pair.high].sort((a, b) => a - b);
  facts.push({
    label: `${levelLabel(doseFactor, last)} against ${levelLabel(doseFactor, first)}, ${compared.response.label}`,
    unit: compared.response.unit,
    value: sign * pair.difference,
    low: ends[0]!,
    high: ends[1]!,
    n: compared.observations.length,
  });
  return facts;
}

/** Whether a figure moved out of its range, or its range began or ceased to hold 0. */
export function factChanged(all: BookFact, without: BookFact): boolean {
  const clear = ({ low, high }: BookFact) => low > 0 || high < 0;
  return without.value < all.low || without.value > all.high || (all.unit !== "share" && clear(all) !== clear(without));
}
