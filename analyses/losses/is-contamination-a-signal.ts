import type { Analysis, Estimate, Excluded, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { startedCount } from "../../src/design/arm.ts";
import type { Tray } from "../../src/records/tray.ts";
import { clusteredProportion } from "../../src/statistics/counts/clustered-proportion.ts";
import { exactInterval, wilsonInterval } from "../../src/statistics/counts/proportion-interval.ts";
import { cooksInOrder } from "../comparison/cooks-in-order.ts";
import { missingTrays } from "../comparison/missing-trays.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { isFinished, isLost } from "../comparison/tray-response.ts";
import { cookLossChart } from "./cook-loss-chart.ts";
import { lossGroupings } from "./loss-groupings.ts";
import { lossGroupTables, lossPatternTable, lossSignalParts } from "./loss-source-facts.ts";
import { lossSources } from "./loss-sources.ts";
import { lossOverDose, lossOverTime } from "./loss-trends.ts";
import { lossesFront } from "./losses-front.ts";

/** With fewer lost, or fewer kept, no pattern can be told from chance. */
const fewestOfEither = 3;
const fewestTrays = 10;

const closedTrays: Sentence = [
  "Keep contaminated trays closed, take them out of the grow room, and do not sell or eat from them; write them down, they are results.",
];

function excludedOf(trays: ReadonlyArray<Tray>): Excluded[] {
  const names = (wanted: (tray: Tray) => boolean) => trays.filter(wanted).map(({ trayId }) => trayId);
  return [
    { trays: names((tray) => !isFinished(tray)), reason: "still growing, so how they end is not known" },
    {
      trays: names((tray) => isFinished(tray) && tray.traysInPool > 1),
      reason: "recorded together with others: counted in the share lost, left out of the search for where losses sit",
    },
  ].filter(({ trays: some }) => some.length > 0);
}

function run(trial: Trial): Outcome {
  const { settings, trays } = trial;
  const { intervalLevel: level, significanceLevel: alpha, seed } = settings;
  const finished = trays.filter(isFinished);
  const total = startedCount(finished);
  const lostTrays = finished.filter(isLost);
  const lost = startedCount(lostTrays);
  const excluded = excludedOf(trays);
  if (total === 0) {
    return noAnswer(
      ["Cannot tell whether contamination is a signal: no tray is harvested or lost yet."],
      ["Write down how each tray ends: good, contaminated, failed or discarded."],
      { excluded },
    );
  }
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
  const order = cooksInOrder(trays);
  const perCook = order.lots
    .map((lot) => lot.trays.filter(isFinished))
    .filter((some) => some.length > 0)
    .map((some) => ({ lost: startedCount(some.filter(isLost)), trays: startedCount(some) }));
  const byCook =
    perCook.length < 2 || lost === 0
      ? undefined
      : clusteredProportion(
          perCook.map((one) => one.lost),
          perCook.map((one) => one.trays),
          level,
        );
  const estimates: Estimate[] = [
    share,
    ...(byCook === undefined
      ? []
      : [
          {
            label: `share lost, allowing for ${order.lotName}s`,
            value: byCook.proportion,
            low: byCook.lower,
            high: byCook.upper,
            level,
            unit: "share",
            n: byCook.clusters,
            nUnit: `${order.lotName}s`,
            method: "score interval on the effective number of trays",
          },
        ]),
  ];
  const chart = cookLossChart(order);
  const charts = chart === undefined ? [] : [chart];
  const range: Sentence = [
    `${lost} of ${total} finished trays lost (`,
    { value: share.value, unit: "share" },
    ", ",
    { from: interval.lower, to: interval.upper, unit: "share" },
    ")",
  ];
  const contaminated = startedCount(lostTrays.filter(({ outcome }) => outcome === "contaminated"));
  const usual = settings.normalLossRate;
  const usualShare = usual === undefined ? undefined : settings.normalLossBase === "good" ? usual / (1 + usual) : usual;
  const shared: Sentence[] = [
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
  const beside = { estimates, charts, excluded, caveats: shared };
  if (lost === 0 && total >= fewestTrays) {
    const upper = exactInterval(0, total, level).upper;
    return {
      ...beside,
      kind: "answer",
      sentence: [
        `None of ${total} finished trays was lost, so there is no signal; the true share could still be up to `,
        { value: upper, unit: "share" },
        ".",
      ],
      certainty: "open",
      tables: [],
      method: [["Upper end by the exact interval of Clopper and Pearson."]],
    };
  }
  const units = finished.filter(({ traysInPool }) => traysInPool === 1);
  const lostUnits = units.filter(isLost).length;
  const few = units.length < fewestTrays || Math.min(lostUnits, units.length - lostUnits) < fewestOfEither;
  const settle: Sentence = [
    "Write down jar, cooker load, place in the load, shelf and operator for every tray, and spread each jar over several cooks and each cook over several jars, so that they can be told apart.",
  ];
  if (few) {
    return noAnswer(
      [
        "Cannot tell whether losses are a signal or scatter: ",
        ...range,
        lostUnits === units.length && units.length > 0
          ? ", and where every tray is lost nothing is left to compare with."
          : `; at least ${fewestTrays} trays, ${fewestOfEither} of them lost and ${fewestOfEither} not, are needed.`,
      ],
      settle,
      beside,
    );
  }
  const groupings = lossGroupings(units, settings);
  const dose = lossOverDose(trial, units);
  const time = lossOverTime(order, seed);
  const others = [
    ...(dose.trend === undefined
      ? []
      : [
          { name: dose.trend.oddsRatio > 1 ? "rise with dose" : "fall with dose", p: dose.trend.p, key: "inoculum_ml" },
        ]),
    ...(time === undefined ? [] : [{ name: time.name, p: time.p }]),
  ];
  // a dose that is tied to something else is no explanation of its own
  const judged = groupings.filter(
    ({ keys }) => dose.trend !== undefined || keys.length > 1 || keys[0] !== "inoculum_ml",
  );
  const sources = lossSources(units.map(isLost), judged, others, alpha, seed);
  if (sources.patterns.length === 0) {
    return noAnswer(
      [
        "Cannot tell whether losses are a signal or scatter: ",
        ...range,
        ", and nothing is recorded that several trays share (jar, load, cook, place, shelf, operator, day).",
      ],
      settle,
      beside,
    );
  }
  const [first] = sources.patterns;
  const signal = sources.standing.length > 0;
  const leaning = !signal && first!.p < alpha;
  const checked = sources.patterns.length;
  return {
    ...beside,
    kind: "answer",
    sentence: [
      ...range,
      ": ",
      ...(signal
        ? lossSignalParts(sources, alpha)
        : [
            `no more than scatter is shown${leaning ? `, though ${first!.name} should be watched` : ""} (${checked} ${checked === 1 ? "pattern" : "patterns"} looked for).`,
          ]),
    ],
    certainty: signal ? "settled" : leaning ? "leaning" : "open",
    ...lossesFront(units, share, signal ? sources.standing[0]!.name : undefined, leaning ? first!.name : undefined),
    estimates: [
      { ...share, p: first!.adjustedP },
      ...estimates.slice(1),
      ...(dose.trend === undefined
        ? []
        : [
            {
              label: "odds of losing a tray, per mL more",
              value: dose.trend.oddsRatio,
              low: dose.trend.low,
              high: dose.trend.high,
              level,
              unit: "factor",
              n: dose.trend.trays,
              nUnit: "trays",
              p: dose.trend.p,
              method: dose.trend.method,
            },
          ]),
    ],
    tables: [lossPatternTable(sources), ...lossGroupTables(sources)],
    method: [
      [
        `For each thing that trays share, the sum over its groups of (lost less expected)² over its variance, and the largest of them, are compared with losses dealt to trays at random (seed ${seed}), p being twice the smaller; Holm's adjustment allows for all ${checked} patterns.`,
      ],
      ["Where two stand, losses are dealt again within the groups of the one, to see whether the other adds anything."],
      [
        "The chart of shares has limits three standard errors from the overall share; with few trays a cook they are rough.",
      ],
    ],
    caveats: [
      ...shared,
      ...sources.accountedFor.map(
        ({ name, by }): Sentence => [`Losses also differ by ${name}, but no more than ${by} accounts for.`],
      ),
      ...(signal ? [] : [["Not shown is not the same as not there: a weak tie needs more trays to be seen."]]),
      ...(signal && byCook !== undefined && byCook.designEffect > 1
        ? [
            [
              "Lost trays come in clumps, so the range that allows for them is the one to plan with: ",
              { from: byCook.lower, to: byCook.upper, unit: "share" },
              ".",
            ] satisfies Sentence,
          ]
        : []),
      ...sources.standing
        .filter(({ grouping }) => grouping === undefined && sources.tiedTo.length > 0)
        .map(
          ({ name }): Sentence => [
            `There is also a ${name} in the share lost; a few bad groups late or early can make one.`,
          ],
        ),
      ...dose.caveats,
    ],
  };
}

/** Whether losses are a signal or scatter, and what they are tied to. */
export const isContaminationASignal: Analysis = {
  id: "is-contamination-a-signal",
  name: "Losses",
  question: "Is contamination a signal or scatter, and what is it tied to?",
  needs: ["tray_id", "outcome"],
  experimentalUnit: "tray",
  assumes: ["every lost tray is written down", "without a cause in common, one tray's loss says nothing of the next"],
  topic: "growing",
  headline: true,
  run,
};
