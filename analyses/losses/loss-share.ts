import type { Estimate, Sentence, Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { countedEnds, lostAhead } from "../../src/records/ended-cooks.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import {
  type ShareOverClusters,
  shareOverClusters,
  supposedTogether,
} from "../../src/statistics/counts/share-over-clusters.ts";
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
  /** whether the trays make it likelier that those of a cook are lost together */
  clumped: boolean;
}

/** Trays that are supposed to be of one cook where none is written: a load. Common practice, no source. */
const supposedCook = 6;

/** What the cooks of trays that have ended tell of the share lost. @param order of at least one tray */
export function lossesOver({ lots, without }: LotsInOrder): ShareOverClusters {
  const cooks = lots.map(({ trays }) => trays);
  for (let at = 0; at < without.length; at += supposedCook) cooks.push(without.slice(at, at + supposedCook));
  return shareOverClusters(
    cooks.map((trays) => startedCount(trays.filter(isLost))),
    cooks.map((trays) => startedCount(trays)),
  );
}

/** The share of finished trays lost; undefined while none is finished. */
export function lossShare({ trays, settings: { intervalLevel: level } }: Trial): LossShare | undefined {
  const finished = countedEnds(trays);
  const total = startedCount(finished);
  if (total === 0) return undefined;
  const lostTrays = finished.filter(isLost);
  const lost = startedCount(lostTrays);
  const order = cooksInOrder(finished);
  const losses = lossesOver(order);
  const { lower: low, upper: high } = losses.limits(level);
  const share = {
    ...{ label: "share of finished trays lost", value: lost / total, low, high, level, unit: "share" },
    ...{ n: total, nUnit: "trays" },
    method: `beta-binomial over ${order.lotName}s, in which trays may be lost together`,
  };
  const ahead = startedCount([...lostAhead(trays)]);
  const contaminated = startedCount(lostTrays.filter(({ outcome }) => outcome === "contaminated"));
  return {
    finished,
    total,
    lost,
    lostAhead: ahead,
    contaminated,
    share,
    order,
    clumped: losses.together > supposedTogether,
  };
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
