import type { Estimate, Sentence, Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import { countedEnds, lostAhead } from "../../src/records/ended-cooks.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { clusteredProportion } from "../../src/statistics/counts/clustered-proportion.ts";
import { wilsonInterval } from "../../src/statistics/counts/proportion-interval.ts";
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
  interval: ReturnType<typeof wilsonInterval>;
  share: Estimate;
  order: LotsInOrder;
  /** the share with its interval over cooks; undefined with one cook, or where nothing is lost */
  byCook: ReturnType<typeof clusteredProportion> | undefined;
}

function shareByCook({ lots }: LotsInOrder, lost: number, level: number): LossShare["byCook"] {
  const perCook = lots.map(({ trays }) => ({ lost: startedCount(trays.filter(isLost)), trays: startedCount(trays) }));
  if (perCook.length < 2 || lost === 0) return undefined;
  return clusteredProportion(
    perCook.map((one) => one.lost),
    perCook.map((one) => one.trays),
    level,
  );
}

/** The share of finished trays lost; undefined while none is finished. */
export function lossShare({ trays, settings: { intervalLevel: level } }: Trial): LossShare | undefined {
  const finished = countedEnds(trays);
  const total = startedCount(finished);
  if (total === 0) return undefined;
  const lostTrays = finished.filter(isLost);
  const lost = startedCount(lostTrays);
  const interval = wilsonInterval(lost, total, level);
  const share: Estimate = {
    label: "share of finished trays lost",
    value: interval.proportion,
    low: interval.lower,
    high: interval.upper,
    level,
    unit: "share",
    n: total,
    nUnit: "trays",
    method: "Wilson's score interval, trays taken one by one",
  };
  const order = cooksInOrder(finished);
  const ahead = startedCount([...lostAhead(trays)]);
  const contaminated = startedCount(lostTrays.filter(({ outcome }) => outcome === "contaminated"));
  return {
    ...{ finished, total, lost, lostAhead: ahead, contaminated, interval, share, order },
    byCook: shareByCook(order, lost, level),
  };
}

/** The share with its interval tray by tray, and over cooks where that can be had. */
export function shareEstimates({ share, byCook, order: { lotName } }: LossShare, level: number): Estimate[] {
  if (byCook === undefined) return [share];
  return [
    share,
    {
      label: `share lost, allowing for ${lotName}s`,
      value: byCook.proportion,
      low: byCook.lower,
      high: byCook.upper,
      level,
      unit: "share",
      n: byCook.clusters,
      nUnit: `${lotName}s`,
      method: "score interval on the effective number of trays",
    },
  ];
}

/** The share lost with its range, as an answer starts. */
export const shareRange = ({ lost, total, lostAhead: ahead, share, interval }: LossShare): Sentence => [
  `${lost} of ${total} finished trays lost (`,
  { value: share.value, unit: "share", digits: 2 },
  ", ",
  { from: interval.lower, to: interval.upper, unit: "share" },
  ahead === 0 ? ")" : `), and ${ahead} so far in cooks that still grow`,
];

const closedTrays: Sentence = [
  "Keep contaminated trays closed, take them out of the grow room, and do not sell or eat from them; write them down, they are results.",
];

/** What is to be kept in mind of the share, whatever the losses are tied to. */
export function shareCaveats(trial: Trial, { lost, contaminated, interval }: LossShare): Sentence[] {
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
            usualShare < interval.lower
              ? ", lies below this range: more is lost than usual."
              : usualShare > interval.upper
                ? ", lies above this range: less is lost than usual."
                : ", lies within this range: not shown to differ from usual.",
          ] satisfies Sentence,
        ]),
  ];
}
