import type { Analysis, Estimate, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { holmAdjustment } from "../../src/statistics/comparisons/p-value-adjustments.ts";
import { meanInterval } from "../../src/statistics/descriptive/mean-interval.ts";
import { cooksInOrder, type Lot, type LotsInOrder } from "../comparison/cooks-in-order.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { isFinished, isLost } from "../comparison/tray-response.ts";
import { cookLossChart } from "../losses/cook-loss-chart.ts";
import { lossClustering } from "../losses/loss-clustering.ts";
import { changeLog, changeText } from "./cook-differences.ts";
import { periodShift } from "./period-shift.ts";
import { measureCharts, signalTable } from "./process-charts.ts";
import { steadyFront } from "./process-fronts.ts";
import { type ProcessMeasure, processMeasure, treatmentsWithinCooks, watchedResponses } from "./process-measures.ts";
import { type Steadiness, steadiness } from "./steadiness.ts";

/** With fewer cooks the limits say nothing. */
const fewestLots = 6;
/** Limits set from fewer are rough. */
const firmFrom = 20;

interface Watched {
  name: string;
  p: number;
  adjustedP: number;
  /** the cook where the change begins */
  change: { lot: Lot; text: Sentence };
}

const meanOf = (values: ReadonlyArray<number>): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Where a measure changed, and by how much. */
function changeOf(
  { response, lots }: ProcessMeasure,
  { change, chart }: Steadiness,
  lotName: string,
): Watched["change"] {
  const { lot, value } = lots[change.at]!;
  const { unit, label } = response;
  if (change.kind === "lasting") {
    const [before, after] = [lots.slice(0, change.at), lots.slice(change.at)].map((part) =>
      meanOf(part.map((one) => one.value)),
    ) as [number, number];
    return {
      lot,
      text: [
        `${label} went ${after > before ? "up" : "down"} from ${lotName} ${lot.name} on (`,
        { value: before, unit },
        " before, ",
        { value: after, unit },
        " from then on)",
      ],
    };
  }
  return {
    lot,
    text: [
      `${lotName} ${lot.name} stands out in ${label} (`,
      { value, unit },
      " against ",
      { value: chart.centre, unit },
      " on average)",
    ],
  };
}

/** How often losses fallen at random would differ as much between cooks; undefined where too few are lost. */
function lossSteadiness(order: LotsInOrder, seed: number): { p: number; change: Watched["change"] } | undefined {
  const rows = order.lots.flatMap((lot) =>
    lot.trays.filter((tray) => isFinished(tray) && tray.traysInPool === 1).map((tray) => ({ lot, lost: isLost(tray) })),
  );
  const lost = rows.filter((row) => row.lost).length;
  if (Math.min(lost, rows.length - lost) < 3 || new Set(rows.map(({ lot }) => lot)).size < fewestLots) return undefined;
  const clustering = lossClustering({
    lost: rows.map((row) => row.lost),
    group: rows.map(({ lot }) => lot.name),
    seed,
  });
  const [top] = clustering?.groups ?? [];
  if (clustering === undefined || top === undefined) return undefined;
  return {
    p: clustering.p,
    change: {
      lot: order.lots.find(({ name }) => name === top.level)!,
      text: [
        `${order.lotName} ${top.level} stands out in losses (${top.lost} of ${top.trays} trays, against `,
        { value: lost / rows.length, unit: "share" },
        " overall)",
      ],
    },
  };
}

function run(trial: Trial): Outcome {
  const { settings, trays } = trial;
  const { seed, significanceLevel: alpha, intervalLevel: level } = settings;
  const order = cooksInOrder(trays);
  const treatments = treatmentsWithinCooks(trays);
  const measures = watchedResponses(trays).map((response) => processMeasure(order.lots, response, treatments));
  const long = measures.filter(({ lots }) => lots.length >= fewestLots);
  const losses = lossSteadiness(order, seed);
  const growing = trays.filter((tray) => !isFinished(tray)).map(({ trayId }) => trayId);
  const excluded = [
    ...(growing.length === 0
      ? []
      : [{ trays: growing, reason: "still growing, so counted only in what they have already shown" }]),
    ...(order.without.length === 0
      ? []
      : [{ trays: order.without.map(({ trayId }) => trayId), reason: `${order.lotName} not recorded` }]),
  ];
  if (long.length === 0 && losses === undefined) {
    const most = Math.max(0, ...measures.map(({ lots }) => lots.length));
    return noAnswer(
      [
        `Cannot tell whether the process is steady: ${most === 0 ? "no cook (or inoculation date) has a result" : `only ${most} ${most === 1 ? `${order.lotName} has` : `${order.lotName}s have`} a result`}, and ${fewestLots} are needed to know how much one differs from the next.`,
      ],
      [
        `Go on writing down the cook and the inoculation date of every tray; from ${fewestLots} cooks on the charts say something, from ${firmFrom} on their limits are firm.`,
      ],
      { excluded, missing: { kind: "trays", need: `${fewestLots} cooks with results` } },
    );
  }
  const watched = long.flatMap((measure) => {
    const watch = steadiness(
      measure.lots.map(({ value }) => value),
      seed,
      trial.memo,
    );
    return watch.kind === "flat" ? [] : [{ measure, watch }];
  });
  const flat = long.filter((measure) => !watched.some((one) => one.measure === measure));
  const found = [
    ...watched.map(({ measure, watch }) => ({
      name: measure.response.label,
      p: watch.p,
      change: changeOf(measure, watch, order.lotName),
    })),
    ...long.flatMap((measure) => {
      const shift = periodShift(measure);
      if (shift === undefined) return [];
      const { p, lot, text } = shift;
      return [{ name: `${measure.response.label}, by season or half`, p, change: { lot, text } }];
    }),
    ...(losses === undefined ? [] : [{ name: "losses", ...losses }]),
  ];
  const adjusted = found.length === 0 ? [] : holmAdjustment(found.map(({ p }) => p));
  const results: Watched[] = found.map((one, index) => ({ ...one, adjustedP: adjusted[index]! }));
  const standing = results.filter(({ adjustedP }) => adjustedP < alpha).sort((a, b) => a.p - b.p);
  const doubtful = standing.length > 0 ? [] : results.filter(({ p }) => p < alpha).sort((a, b) => a.p - b.p);
  const changes = changeLog(order.lots);
  const lossChart = cookLossChart(order);
  const names = [...long.map(({ response }) => response.label), ...(losses === undefined ? [] : ["losses"])];
  const lots = Math.max(...long.map((measure) => measure.lots.length), losses === undefined ? 0 : order.lots.length);
  const news = standing.map(({ change }) => {
    const { lot, text } = change;
    const told = changes.at(order.lots.indexOf(lot)).map(changeText);
    return [
      ...text,
      told.length === 0 ? "; nothing else recorded was new then" : `; new then: ${told.join("; ")}`,
    ] as Sentence;
  });
  return {
    kind: "answer",
    sentence:
      doubtful.length > 0
        ? [
            `Perhaps not steady over ${lots} ${order.lotName}s: `,
            ...doubtful[0]!.change.text,
            `. Alone that would be beyond chance (p `,
            { value: doubtful[0]!.p, unit: "p" },
            `), among the ${results.length} things looked at it is not.`,
          ]
        : standing.length === 0
          ? [
              `The process looks steady over ${lots} ${order.lotName}s: ${names.join(", ")} ${names.length === 1 ? "shows" : "show"} no change beyond what cooks differ by.`,
            ]
          : [
              "The process changed: ",
              ...news.flatMap((part, index) => (index === 0 ? part : [". Also, ", ...part])),
              ".",
            ],
    certainty: standing.length > 0 ? "settled" : doubtful.length > 0 ? "leaning" : "open",
    ...(results.length === 0 ? {} : { test: { p: Math.min(...results.map(({ adjustedP }) => adjustedP)) } }),
    ...steadyFront(
      names,
      standing.map(({ name }) => name.replace(", by season or half", "")),
      lots,
      order.lotName,
    ),
    estimates: watched.map(({ measure, watch }): Estimate => {
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
    }),
    tables: [
      {
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
            one?.watch.furthest.single.share ?? null,
            one?.watch.furthest.average.share ?? null,
            p,
            adjustedP,
          ];
        }),
        note: "p: how often a steady process of as many cooks strays as far on either chart. By season or half: the means of seasons with three cooks or more, else of the two halves of the record, one value a cook. Losses: how often losses dealt at random differ as much between cooks.",
      },
      ...(watched.some(({ watch }) => watch.signals.size > 0) ? [signalTable(watched, changes, order.lots)] : []),
    ],
    charts: [
      ...watched.flatMap(({ measure, watch }) =>
        measureCharts(
          measure,
          watch,
          order,
          standing.some(({ name }) => name === measure.response.label),
        ),
      ),
      ...(lossChart === undefined ? [] : [lossChart]),
    ],
    excluded,
    method: [
      [
        "Chart of single cook means with limits from the moving range, and of their exponentially weighted moving average (weight 0.2); losses on a chart of proportions. Run rules: one beyond three sigma, nine in a row on one side, six in a row rising or falling.",
      ],
      [
        `Limits from few cooks are crossed often by chance, so each measure is compared with simulated steady processes of as many cooks (seed ${seed}); Holm's adjustment allows for ${results.length} measures.`,
      ],
      ...(treatments.length === 0
        ? []
        : [
            [
              `Differences between ${treatments.map(({ label }) => label.toLowerCase()).join(", ")} levels, which were tried inside cooks, are taken out first.`,
            ],
          ]),
    ],
    caveats: [
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
        ({ response }): Sentence => [
          `${response.label} hardly changes from cook to cook, so no limits can be set for it.`,
        ],
      ),
    ],
  };
}

/** Whether the process is steady from cook to cook, and what was new when it changed. */
export const isTheProcessSteady: Analysis = {
  id: "is-the-process-steady",
  name: "Is the process steady?",
  question: "Is the process steady from cook to cook, and what was new when it changed?",
  needs: ["tray_id", "batch"],
  experimentalUnit: "cook",
  assumes: ["cooks follow each other in the order of their dates", "trays were weighed the same way throughout"],
  topic: "growing",
  headline: false,
  run,
};
