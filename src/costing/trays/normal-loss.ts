import { requireFinite, requireNotNegative, requireShareBelowOne } from "../../measures/require-amounts.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";

/** Who carries the cost of lost units. */
export interface NormalLoss {
  kind: "loss";
  started: number;
  good: number;
  /** lost units the usual rate foresees, carried by the good ones; not rounded to whole units */
  normal: number;
  /** lost units beyond that, an expense of the period */
  abnormal: number;
  /** money got back for all lost units */
  recovered: number;
  /** what the normal loss costs, less what was recovered on it */
  normalCost: number;
  /** what the abnormal loss costs, less what was recovered on it: no part of the cost of good units */
  abnormalCost: number;
  /** all cost less all recovered, per started unit */
  costPerStarted: number;
  /** cost of a good unit with the normal loss */
  costPerGood: number;
  /** all cost less all recovered, abnormal loss too, per good unit */
  costPerGoodWithAllLosses: number;
}

/**
 * Splits the cost of lost units into what good units carry (the usual loss) and what is an expense of the period.
 * Lost units count at the mean of what was spent on them, less what was recovered.
 * @param costOfGood money spent on the good units before any loss; costOfLost: on the lost ones
 * @param normalRate the usual loss as a share of `normalBase`; absent: all of this loss is usual
 * @param normalBase "starts": of all units started; "good": of the good ones. 5 in 40 is 12.5 % of starts, 14.29 % of good
 * @param recoveredPerLost money got back for one lost unit
 * @returns cannot-tell when nothing was good
 * @throws RangeError if a number is negative or not finite, or a rate of starts is not below 1
 * @source IAS 2 paragraph 16 (abnormal waste is no cost of inventory); cost per good unit = (cost - recovered - abnormal)/good
 * @example normalLoss({ costOfGood: 2000, costOfLost: 200, good: 500, lost: 50, normalRate: 0.06, normalBase: "good", recoveredPerLost: 0 }).costPerGood // 4.24
 */
export function normalLoss(input: {
  costOfGood: number;
  costOfLost: number;
  good: number;
  lost: number;
  normalRate?: number;
  normalBase: "starts" | "good";
  recoveredPerLost: number;
}): NormalLoss | CannotTell {
  const { costOfGood, costOfLost, good, lost, normalRate, normalBase, recoveredPerLost } = input;
  for (const name of ["good", "lost", "recoveredPerLost"] as const) requireNotNegative("normalLoss", name, input[name]);
  for (const name of ["costOfGood", "costOfLost"] as const) requireFinite("normalLoss", name, input[name]);
  if (normalRate !== undefined) {
    if (normalBase === "starts") requireShareBelowOne("normalLoss", "normalRate", normalRate);
    else requireNotNegative("normalLoss", "normalRate", normalRate);
  }
  const started = good + lost;
  if (started === 0) return cannotTell("no tray is finished");
  if (good === 0) return cannotTell("no finished tray was good, so there is nothing to carry the cost");
  const foreseen = normalRate === undefined ? lost : normalRate * (normalBase === "starts" ? started : good);
  const normal = Math.min(lost, foreseen);
  const abnormal = lost - normal;
  const recovered = lost * recoveredPerLost;
  const netLoss = costOfLost - recovered;
  const normalCost = lost === 0 ? 0 : netLoss * (normal / lost);
  const abnormalCost = lost === 0 ? 0 : netLoss * (abnormal / lost);
  return {
    kind: "loss",
    started,
    good,
    normal,
    abnormal,
    recovered,
    normalCost,
    abnormalCost,
    costPerStarted: (costOfGood + netLoss) / started,
    costPerGood: (costOfGood + normalCost) / good,
    costPerGoodWithAllLosses: (costOfGood + netLoss) / good,
  };
}
