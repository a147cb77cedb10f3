import type { Answer, Chart, Estimate, Excluded, Sentence, Table, Trial } from "../../src/analysis.ts";
import { meanInterval } from "../../src/statistics/descriptive/mean-interval.ts";
import type { Lot, LotsInOrder } from "../comparison/cooks-in-order.ts";
import { inSentence } from "../comparison/level-text.ts";
import { thingsOf } from "../treatment/treatment-decision.ts";
import { yieldDecision } from "../treatment/what-changed-the-yield.ts";
import { type changeLog, changeText } from "./cook-differences.ts";
import { measureCharts, signalTable } from "./process-charts.ts";
import { steadyFront } from "./process-fronts.ts";
import type { ProcessMeasure, treatmentsWithinCooks } from "./process-measures.ts";
import type { Steadiness } from "./steadiness.ts";

/** Limits set from fewer cooks are rough. */
export const firmFrom = 20;

/** One thing looked at, how often a steady process strays as far, and where it changed. */
export interface Watched {
  name: string;
  p: number;
  adjustedP: number;
  /** the cook where the change begins */
  change: { lot: Lot; text: Sentence };
}

/** All that was looked at from cook to cook. */
export interface ProcessWatched {
  order: LotsInOrder;
  treatments: ReturnType<typeof treatmentsWithinCooks>;
  /** measures whose cooks differ, so that limits can be set */
  watched: { measure: ProcessMeasure; watch: Exclude<Steadiness, { kind: "flat" }> }[];
  flat: ProcessMeasure[];
  /** what was looked at, by name */
  names: string[];
  /** cooks of the longest measure */
  lots: number;
  results: Watched[];
  /** beyond chance, allowing for all that was looked at; the surest first */
  standing: Watched[];
  /** beyond chance alone, where nothing is in `standing` */
  doubtful: Watched[];
  changes: ReturnType<typeof changeLog>;
}

function changeNews({ standing, changes, order }: ProcessWatched): Sentence[] {
  return standing.map(({ change: { lot, text } }) => {
    const news = changes.at(order.lots.indexOf(lot)).map(changeText);
    return [
      ...text,
      news.length === 0 ? "; nothing else recorded was new then" : `; new then: ${news.join("; ")}`,
    ] as Sentence;
  });
}

/** @param among what it does not stand among */
const perhapsSentence = ({ order, lots }: ProcessWatched, { change, p }: Watched, among: string): Sentence => [
  `Perhaps not steady over ${lots} ${order.lotName}s: `,
  ...change.text,
  `. Alone that would be beyond chance (p `,
  { value: p, unit: "p" },
  `), among ${among} it is not.`,
];

const withoutPeriod = ({ name }: Watched): string => name.replace(", by season or half", "");

/** "yield may go with the season": where that is settled or leant to, no process is called steady. */
function yieldByPeriod(trial: Trial): string | undefined {
  const period = thingsOf(trial).find(({ isPeriod }) => isPeriod);
  const verdict = period === undefined ? undefined : yieldDecision(trial, period)?.decision.verdict;
  if (verdict !== "settled" && verdict !== "leaning") return undefined;
  return `yield ${verdict === "settled" ? "goes" : "may go"} with the ${inSentence(period!.factor.label)}`;
}

function steadinessSentence(process: ProcessWatched, byPeriod: string | undefined): Sentence {
  const { order, names, lots, results, standing, doubtful } = process;
  if (byPeriod !== undefined) {
    return [
      `Perhaps not steady over ${lots} ${order.lotName}s: ${byPeriod}, though no cook stands out from the others.`,
    ];
  }
  if (doubtful.length > 0) return perhapsSentence(process, doubtful[0]!, `the ${results.length} things looked at`);
  if (standing.length === 0) {
    return [
      `The process looks steady over ${lots} ${order.lotName}s: ${names.join(", ")} ${names.length === 1 ? "shows" : "show"} no change beyond what cooks differ by.`,
    ];
  }
  return [
    "The process changed: ",
    ...changeNews(process).flatMap((part, index) => (index === 0 ? part : [". Also, ", ...part])),
    ".",
  ];
}

const steadinessEstimates = ({ watched, order }: ProcessWatched, level: number): Estimate[] =>
  watched.map(({ measure, watch }): Estimate => {
    const mean = meanInterval(
      measure.lots.map(({ value }) => value),
      level,
    );
    return {
      label: `${measure.response.label}, mean of cooks`,
      value: mean.mean,
      low: mean.lower,
      high: mean.upper,
      level,
      unit: measure.response.unit,
      n: measure.lots.length,
      nUnit: `${order.lotName}s`,
      p: watch.p,
      method: "mean of cooks, t interval; p that a steady process strays as far, by simulation",
    };
  });

const strayTable = ({ results, watched, order }: ProcessWatched): Table => ({
  caption: "How far each measure strays from its centre",
  columns: [
    { label: "Measure" },
    { label: "cooks", unit: "cooks" },
    { label: "furthest cook, as a share of its limit", unit: "share" },
    { label: "furthest moving average, as a share of its limit", unit: "share" },
    { label: "p", unit: "p" },
    { label: "p, allowing for all measures", unit: "p" },
  ],
  rows: results.map(({ name, p, adjustedP }) => {
    const one = watched.find(({ measure }) => measure.response.label === name);
    return [
      name,
      one?.measure.lots.length ?? order.lots.length,
      one?.watch.furthest.single ?? null,
      one?.watch.furthest.average ?? null,
      p,
      adjustedP,
    ];
  }),
  note: "p: how often a steady process of as many cooks strays as far on either chart. By season or half: the means of seasons with three cooks or more, else of the two halves of the record, one value a cook. Losses: how often losses shuffled at random differ as much between cooks.",
});

const steadinessCharts = ({ watched, order, standing }: ProcessWatched): Chart[] =>
  watched.flatMap(({ measure, watch }) =>
    measureCharts(
      measure,
      watch,
      order,
      standing.some(({ name }) => name === measure.response.label),
    ),
  );

const steadinessMethod = ({ results, treatments }: ProcessWatched, seed: number): Sentence[] => [
  [
    "Chart of single cook means with limits from the moving range, and of their exponentially weighted moving average (weight 0.2). Run rules: one beyond three sigma, nine in a row on one side, six in a row rising or falling.",
  ],
  [
    `Limits from few cooks are crossed often by chance, so each measure is compared with simulated steady processes of as many cooks (seed ${seed}); Holm's adjustment allows for ${results.length} measures.`,
  ],
  ...(treatments.length === 0
    ? []
    : [
        [
          `Differences between ${treatments.map(({ label }) => inSentence(label)).join(", ")} levels, which were tried inside cooks, are taken out first.`,
        ],
      ]),
];

const steadinessCaveats = ({ lots, order, changes, standing, flat }: ProcessWatched): Sentence[] => [
  ...(lots < firmFrom
    ? [[`With ${lots} ${order.lotName}s the limits are rough; from ${firmFrom} on they are firm.`]]
    : []),
  ...(order.dated
    ? []
    : [["Not every cook has an inoculation date, so the order of the sheets is taken as the order in time."]]),
  ...(changes.always.length === 0
    ? []
    : [[`New at most cooks, so no explanation by itself: ${changes.always.join(", ")}.`]]),
  ...(standing.length === 0
    ? []
    : [["What was new in the same cook need not be the cause: change it back in one cook to see."]]),
  ...flat.map(
    ({ response }): Sentence => [`${response.label} hardly changes from cook to cook, so no limits can be set for it.`],
  ),
];

/** Whether the process is steady, as an answer with its charts. */
export function steadinessAnswer(trial: Trial, process: ProcessWatched, excluded: Excluded[]): Answer {
  const { settings } = trial;
  const { order, watched, names, lots, results, standing, doubtful, changes } = process;
  const byPeriod = standing.length + doubtful.length === 0 ? yieldByPeriod(trial) : undefined;
  const perhaps = doubtful.length === 0 ? byPeriod : withoutPeriod(doubtful[0]!);
  return {
    kind: "answer",
    sentence: steadinessSentence(process, byPeriod),
    certainty: standing.length > 0 ? "settled" : perhaps !== undefined ? "leaning" : "open",
    ...(results.length === 0 ? {} : { test: { p: Math.min(...results.map(({ adjustedP }) => adjustedP)) } }),
    ...steadyFront(names, standing.map(withoutPeriod), lots, order.lotName, perhaps),
    ...(standing.length === 0
      ? {}
      : {
          lowered: {
            sentence: perhapsSentence(process, standing[0]!, "all that this report looks at"),
            ...steadyFront(names, [], lots, order.lotName, withoutPeriod(standing[0]!)),
          },
        }),
    estimates: steadinessEstimates(process, settings.intervalLevel),
    tables: [
      strayTable(process),
      ...(watched.some(({ watch }) => watch.signals.size > 0) ? [signalTable(watched, changes, order.lots)] : []),
    ],
    charts: steadinessCharts(process),
    excluded,
    method: steadinessMethod(process, settings.seed),
    caveats: steadinessCaveats(process),
  };
}
