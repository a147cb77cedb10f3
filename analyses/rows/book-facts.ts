import type { Trial } from "../../src/analysis.ts";
import type { YieldWeight } from "../../src/records/yield-weight.ts";
import { meanInterval } from "../../src/statistics/descriptive/mean-interval.ts";
import { yieldPerGoodTray } from "../comparison/tray-response.ts";
import { lossShare } from "../losses/loss-share.ts";
import { decideTreatment, thingsOf } from "../treatment/treatment-decision.ts";
import { differenceEstimate } from "../treatment/treatment-tables.ts";

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
 * The figures that answers depend on: mean yield of a good tray, share lost, and the difference that the main thing makes.
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
  const lost = lossShare(trial);
  if (lost !== undefined) {
    const { label, unit, value, low, high, n } = lost.share;
    facts.push({ label, unit, value, low, high, n });
  }
  if (weight === undefined) return facts;
  const [thing] = thingsOf(trial);
  const response = yieldPerGoodTray(weight);
  const of =
    thing === undefined ? undefined : decideTreatment(trial, thing, { response, better: "higher", withLost: true });
  const [difference] = of === undefined ? [] : differenceEstimate(of, of.decision);
  if (difference?.low === undefined || difference.high === undefined) return facts;
  const { label, unit, value, low, high, n } = difference;
  facts.push({ label, unit, value, low, high, n });
  return facts;
}

/** Whether a figure moved out of its range, or its range began or ceased to hold 0. */
export function factChanged(all: BookFact, without: BookFact): boolean {
  const clear = ({ low, high }: BookFact) => low > 0 || high < 0;
  return without.value < all.low || without.value > all.high || (all.unit !== "share" && clear(all) !== clear(without));
}
