import type { Estimate, Sentence, Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { countedEnds, lostAhead } from "../../src/records/ended-cooks.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { clusteredProportion } from "../../src/statistics/counts/clustered-proportion.ts";
import { scoreLimits } from "../../src/statistics/counts/proportion-interval.ts";
import { cooksInOrder, type LotsInOrder } from "../comparison/cooks-in-order.ts";
import { missingTrays } from "../comparison/missing-trays.ts";

/** How much of what is finished was lost, tray by tray and allowing for cooks. */
export interface LossShare {
  /** ended, in cooks that have ended for the most part */
  finished: ReadonlyArray<Tray>;
  total: number;
  lost: number;
  /** lost in cooks that for the most part still grow: no share of theirs can be told yet */
  lostAhead: number;
  contaminated: number;
  /** with its range, over cooks */
  share: Estimate & { low: number; high: number };
  order: LotsInOrder;
  /** how many times more the share varies over cooks than trays lost one by one would make it, 1 or more */
  designEffect: number;
}

/**
 * How many times less than trays lost one by one the trays of these cooks tell of the share lost, 1 or more.
 * @param order of trays that have ended
 */
export function designEffectOf({ lots }: LotsInOrder): number {
  const perCook = lots.map(({ trays }) => ({ lost: startedCount(trays.filter(isLost)), trays: startedCount(trays) }));
  // one lost tray comes in no clump
  if (perCook.length < 2 || perCook.reduce((sum, { lost }) => sum + lost, 0) < 2) return 1;
  const { designEffect } = clusteredProportion(
    perCook.map((one) => one.lost),
    perCook.map((one) => one.trays),
  );
  return Math.max(1, designEffect);
}

/** The share of finished trays lost; undefined while none is finished. */
export function lossShare({ trays, settings: { intervalLevel: level } }: Trial): LossShare | undefined {
  const finished = countedEnds(trays);
  const total = startedCount(finished);
  if (total === 0) return undefined;
  const lostTrays = finished.filter(isLost);
  const lost = startedCount(lostTrays);
  const order = cooksInOrder(finished);
  const designEffect = designEffectOf(order);
  const { lower: low, upper: high } = scoreLimits(lost / designEffect, total / designEffect, level);
  const share = {
    ...{ label: "share of finished trays lost", value: lost / total, low, high, level, unit: "share" },
    ...{ n: total, nUnit: "trays" },
    method: `Wilson's score interval${designEffect > 1 ? ` on as many trays as tell as much (${(total / designEffect).toFixed(1)}), as losses differ between ${order.lotName}s` : ""}`,
  };
  const ahead = startedCount([...lostAhead(trays)]);
  const contaminated = startedCount(lostTrays.filter(({ outcome }) => outcome === "contaminated"));
  return { finished, total, lost, lostAhead: ahead, contaminated, share, order, designEffect };
}

/** The share lost with its range, as an answer starts. */
export const shareRange = ({ lost, total, lostAhead: ahead, share }: LossShare): Sentence => [
  `${lost} of ${total} finished trays lost (`,
  { value: share.value, unit: "share", digits: 2 },
  ", ",
  { from: share.low, to: share.high, unit: "share" },
  ahead === 0 ? ")" : `), and ${ahead} so far in cooks that still grow`,
];

const closedTrays: Sentence = [
  "Keep contaminated trays closed, take them out of the grow room, and do not sell or eat from them; write them down, they are results.",
];

/** What is to be kept in mind of the share, whatever the losses are tied to. */
export function shareCaveats(trial: Trial, { lost, contaminated, share }: LossShare): Sentence[] {
  const { normalLossRate: usual, normalLossBase } = trial.settings;
  const usualShare = usual === undefined ? undefined : normalLossBase === "good" ? usual / (1 + usual) : usual;
  return [
    ...missingTrays(trial),
    closedTrays,
    ...(contaminated === lost
      ? []
      : [
          [
            `Of ${lost} lost trays ${contaminated} were contaminated, the others failed or were discarded; all are counted as lost here.`,
          ],
        ]),
    ...(usualShare === undefined
      ? []
      : [
          [
            "The usual loss in settings.csv, ",
            { value: usualShare, unit: "share" },
            usualShare < share.low
              ? ", lies below this range: more is lost than usual."
              : usualShare > share.high
                ? ", lies above this range: less is lost than usual."
                : ", lies within this range: not shown to differ from usual.",
          ] satisfies Sentence,
        ]),
  ];
}
