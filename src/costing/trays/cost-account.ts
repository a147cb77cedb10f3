import { dryMatter, weightAtMoisture } from "../../measures/moisture.ts";
import type { Stage } from "../../records/cost-line.ts";
import { grouped } from "../../records/grouped.ts";
import { isLost, type Tray } from "../../records/tray.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import { compensatedSum, compensatedSumOver } from "../compensated-sum.ts";
import { stageOrder, stages } from "../lines/line-stage.ts";
import { type NormalLoss, normalLoss } from "./normal-loss.ts";
import type { CostItem, TrayCosts } from "./tray-costs.ts";

/** Which costs are counted: all; all but the owner's own time; only those that grow with what is made. */
export type CostScope = "full" | "without owner labour" | "variable";

/**
 * Which weight a gram is: as picked; as dried; of dry matter; or dried to the settings' moisture, so that runs dried to
 * different ends compare.
 */
export type GramKind = "fresh" | "dried" | "dry matter" | "dried at common moisture";

/** One finished tray, or pool, as a cost and what it gave. The ratio of the sums is the cost of a gram, lost trays in it. */
export interface CostGramPair {
  tray: Tray;
  /** net of what a lost tray recovered */
  cost: number;
  /** 0 for a lost tray */
  grams: number;
}

/** What a gram cost. */
export interface GramCost {
  kind: "gram-cost";
  grams: number;
  /** good trays weighed that way; the others take no part */
  trays: number;
  /** with the normal loss */
  withNormalLoss: number;
  /** with all loss: the ratio of the pairs' sums */
  withAllLosses: number;
  /** laid out again each time it is asked for: one for every tray */
  readonly pairs: CostGramPair[];
}

/** Lost trays by the furthest stage they came to. */
export interface LostAtStage {
  stage: Stage;
  trays: number;
  cost: number;
  costPerTray: number;
}

/** What a set of trays cost and who carries it. */
export interface CostAccount {
  kind: "account";
  loss: NormalLoss;
  /** trays still growing, which take no part */
  growing: number;
  lostAt: LostAtStage[];
  perGram: Record<GramKind, GramCost | CannotTell>;
}

/** Whether a cost counts in a scope. */
export const inScope = ({ ownerLabour, variable }: CostItem, scope: CostScope): boolean =>
  scope === "full" || (scope === "variable" ? variable : !ownerLabour);

/** Each tray's cost in a scope, up to and with a stage. */
export function scopedTotals(costs: TrayCosts, scope: CostScope, upTo: Stage = "drying"): Float64Array {
  const totals = new Float64Array(costs.trays.length);
  costs.items.forEach((item, row) => {
    if (!inScope(item, scope) || stageOrder(item.stage) > stageOrder(upTo)) return;
    const amounts = costs.amounts[row]!;
    for (let index = 0; index < totals.length; index++) totals[index]! += amounts[index]!;
  });
  return totals;
}

function gramsOf(tray: Tray, gram: GramKind, driedMoisture: number): number | undefined {
  if (gram === "fresh") return tray.freshGrams;
  if (gram === "dried" || tray.dryGrams === undefined) return tray.dryGrams;
  const moisture = tray.finalMoisture ?? driedMoisture;
  return gram === "dry matter"
    ? dryMatter(tray.dryGrams, moisture)
    : weightAtMoisture(tray.dryGrams, moisture, driedMoisture);
}

const indicesOf = (costs: TrayCosts, wanted: (tray: Tray) => boolean, among: ReadonlyArray<number>): number[] =>
  among.filter((index) => wanted(costs.trays[index]!));

const poolSum = (costs: TrayCosts, among: ReadonlyArray<number>): number =>
  among.reduce((sum, index) => sum + costs.trays[index]!.traysInPool, 0);

const lossOf = (costs: TrayCosts, totals: Float64Array, good: number[], lost: number[]): NormalLoss | CannotTell => {
  const { normalLossRate, normalLossBase, recoveredPerLostTray } = costs.settings;
  return normalLoss({
    costOfGood: compensatedSumOver(good, (index) => totals[index]!),
    costOfLost: compensatedSumOver(lost, (index) => totals[index]!),
    good: poolSum(costs, good),
    lost: poolSum(costs, lost),
    ...(normalLossRate === undefined ? {} : { normalRate: normalLossRate }),
    normalBase: normalLossBase,
    recoveredPerLost: recoveredPerLostTray,
  });
};

/** Cost of a gram over some trays. A good tray without that weight takes its share of the lost trays' cost with it. */
function gramCost(
  costs: TrayCosts,
  totals: Float64Array,
  gram: GramKind,
  good: number[],
  lost: number[],
): GramCost | CannotTell {
  const loss = lossOf(costs, totals, good, lost);
  if (loss.kind === "cannot-tell") return loss;
  const weighedOnes: number[] = [];
  const gramsGiven: number[] = [];
  let weighed = 0;
  for (const index of good) {
    const tray = costs.trays[index]!;
    const given = gramsOf(tray, gram, costs.settings.driedMoisture);
    if (given === undefined) continue;
    weighedOnes.push(index);
    gramsGiven.push(given);
    weighed += tray.traysInPool;
  }
  if (weighed === 0) return cannotTell(`no good tray has a ${gram === "fresh" ? "fresh" : "dry"} weight`);
  const grams = compensatedSum(gramsGiven);
  if (!(grams > 0)) return cannotTell("the good trays gave nothing");
  const shareWeighed = weighed / loss.good;
  const paid = weighedOnes.map((index) => totals[index]!);
  const costOfWeighed = compensatedSum(paid);
  for (const index of lost) {
    const net = totals[index]! - costs.settings.recoveredPerLostTray * costs.trays[index]!.traysInPool;
    paid.push(net * shareWeighed);
  }
  const places = weighedOnes.concat(lost);
  return {
    kind: "gram-cost",
    grams,
    trays: weighed,
    withNormalLoss: (costOfWeighed + loss.normalCost * shareWeighed) / grams,
    withAllLosses: compensatedSum(paid) / grams,
    get pairs() {
      return places.map((index, k) => ({ tray: costs.trays[index]!, cost: paid[k]!, grams: gramsGiven[k] ?? 0 }));
    },
  };
}

/**
 * What trays cost and who carries it: normal and abnormal loss, cost of a started and of a good tray, lost trays by
 * stage, and cost of a gram fresh, dried, of dry matter and at a common moisture. A fresh gram carries no drying.
 * Trays still growing take no part.
 * @returns cannot-tell when none of them is finished, or none was good
 * @example costAccount(costs, "full").perGram.dried.withNormalLoss // 0.09538...
 */
export function costAccount(costs: TrayCosts, scope: CostScope): CostAccount | CannotTell {
  const among = costs.trays.map((_, index) => index);
  return accountOf(costs, among, scopedTotals(costs, scope), scopedTotals(costs, scope, "harvest"));
}

function accountOf(
  costs: TrayCosts,
  among: ReadonlyArray<number>,
  totals: Float64Array,
  toHarvest: Float64Array,
): CostAccount | CannotTell {
  const good = indicesOf(costs, ({ outcome }) => outcome === "good", among);
  const lost = indicesOf(costs, isLost, among);
  const growing = indicesOf(costs, ({ outcome }) => outcome === "growing", among);
  const loss = lossOf(costs, totals, good, lost);
  if (loss.kind === "cannot-tell") return loss;
  const lostAt = stages.flatMap((stage) => {
    const here = lost.filter((index) => costs.lives[index]!.reached === stage);
    const [trays, cost] = [poolSum(costs, here), compensatedSumOver(here, (index) => totals[index]!)];
    return trays === 0 ? [] : [{ stage, trays, cost, costPerTray: cost / trays }];
  });
  const found: Partial<Record<GramKind, GramCost | CannotTell>> = {};
  // worked out when asked for: each holds a pair for every tray
  const ofGram = (gram: GramKind): GramCost | CannotTell => {
    found[gram] ??= gramCost(costs, gram === "fresh" ? toHarvest : totals, gram, good, lost);
    return found[gram];
  };
  return {
    kind: "account",
    loss,
    growing: poolSum(costs, growing),
    lostAt,
    perGram: {
      get fresh() {
        return ofGram("fresh");
      },
      get dried() {
        return ofGram("dried");
      },
      get "dry matter"() {
        return ofGram("dry matter");
      },
      get "dried at common moisture"() {
        return ofGram("dried at common moisture");
      },
    },
  };
}

/** The account of each group of trays. */
export interface GroupAccount {
  key: string;
  trays: number;
  /** lost trays, and what they cost net of what was recovered: all there is to say of a group that lost every tray */
  lost: number;
  costOfLost: number;
  account: CostAccount | CannotTell;
}

/**
 * One account of full cost per group: by dose, grade, cook or month of inoculation. The normal rate is applied within each group, so
 * a group with more than the usual loss shows it as abnormal there even where the whole book does not.
 * @param keyOf the group of a tray; undefined leaves it out
 * @returns groups in the order first met
 * @example accountsBy(costs, (tray) => tray.batch).map(({ key }) => key) // ["C1", "C2"]
 */
export function accountsBy(costs: TrayCosts, keyOf: (tray: Tray) => string | undefined): GroupAccount[] {
  const groups = grouped(costs.trays.keys(), (index) => keyOf(costs.trays[index]!));
  const [totals, toHarvest] = [scopedTotals(costs, "full"), scopedTotals(costs, "full", "harvest")];
  return [...groups].map(([key, members]) => {
    const gone = indicesOf(costs, isLost, members);
    const lost = poolSum(costs, gone);
    return {
      key,
      trays: poolSum(costs, members),
      lost,
      costOfLost: compensatedSumOver(gone, (index) => totals[index]!) - costs.settings.recoveredPerLostTray * lost,
      account: accountOf(costs, members, totals, toHarvest),
    };
  });
}
