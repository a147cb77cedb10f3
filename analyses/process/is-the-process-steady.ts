import type { Analysis, Excluded, Outcome, Trial } from "../../src/analysis.ts";
import { countedEnds } from "../../src/records/ended-cooks.ts";
import { hasEnded, isLost } from "../../src/records/tray.ts";
import { holmAdjustment } from "../../src/statistics/comparisons/p-value-adjustments.ts";
import { mean } from "../../src/statistics/descriptive/mean.ts";
import { permuteClustering } from "../../src/statistics/resampling/permute-clustering.ts";
import { cooksInOrder, type LotsInOrder } from "../comparison/cooks-in-order.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { changeLog } from "./cook-differences.ts";
import { periodShift } from "./period-shift.ts";
import { type ProcessMeasure, processMeasure, treatmentsWithinCooks, watchedResponses } from "./process-measures.ts";
import { type Steadiness, steadiness } from "./steadiness.ts";
import { firmFrom, type ProcessWatched, steadinessAnswer, type Watched } from "./steadiness-answer.ts";

/** With fewer cooks the limits say nothing. */
const fewestLots = 6;
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
      mean(part.map((one) => one.value)),
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

/** How often losses fallen at random would differ as much between cooks; undefined where too few are lost. @param order of trays that have ended */
function lossSteadiness(order: LotsInOrder, seed: number): { p: number; change: Watched["change"] } | undefined {
  const [event, group]: [boolean[], string[]] = [[], []];
  for (const { name, trays } of order.lots) {
    for (const tray of trays) {
      if (tray.traysInPool !== 1) continue;
      event.push(isLost(tray));
      group.push(name);
    }
  }
  const lost = event.filter((isOne) => isOne).length;
  if (Math.min(lost, event.length - lost) < 3 || new Set(group).size < fewestLots) return undefined;
  const clustering = permuteClustering({ event, group, seed });
  const [top] = clustering?.groups ?? [];
  if (clustering === undefined || top === undefined) return undefined;
  return {
    p: clustering.p,
    change: {
      lot: order.lots.find(({ name }) => name === top.level)!,
      text: [
        `${order.lotName} ${top.level} stands out in losses (${top.events} of ${top.rows} trays, against `,
        { value: lost / event.length, unit: "share" },
        " overall)",
      ],
    },
  };
}

type LossSteadiness = NonNullable<ReturnType<typeof lossSteadiness>>;

/** Every change looked for, measure by measure: cook by cook, by season or half, and losses. */
function changesFound(
  watched: ProcessWatched["watched"],
  long: ReadonlyArray<ProcessMeasure>,
  losses: LossSteadiness | undefined,
  lotName: string,
): Watched[] {
  const found = [
    ...watched.map(({ measure, watch }) => ({
      name: measure.response.label,
      p: watch.p,
      change: changeOf(measure, watch, lotName),
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
  return found.map((one, index) => ({ ...one, adjustedP: adjusted[index]! }));
}

function watchProcess(
  { settings, memo }: Trial,
  order: LotsInOrder,
  treatments: ProcessWatched["treatments"],
  long: ReadonlyArray<ProcessMeasure>,
  losses: LossSteadiness | undefined,
): ProcessWatched {
  const { seed, significanceLevel: alpha } = settings;
  const watched = long.flatMap((measure) => {
    const watch = steadiness(
      measure.lots.map(({ value }) => value),
      seed,
      memo,
    );
    return watch.kind === "flat" ? [] : [{ measure, watch }];
  });
  const results = changesFound(watched, long, losses, order.lotName);
  const standing = results.filter(({ adjustedP }) => adjustedP < alpha).sort((a, b) => a.p - b.p);
  return {
    order,
    treatments,
    watched,
    flat: long.filter((measure) => !watched.some((one) => one.measure === measure)),
    names: [...long.map(({ response }) => response.label), ...(losses === undefined ? [] : ["losses"])],
    lots: Math.max(...long.map((measure) => measure.lots.length), losses === undefined ? 0 : order.lots.length),
    results,
    standing,
    doubtful: standing.length > 0 ? [] : results.filter(({ p }) => p < alpha).sort((a, b) => a.p - b.p),
    changes: changeLog(order.lots),
  };
}

function excludedOf({ trays }: Trial, { without, lotName }: LotsInOrder): Excluded[] {
  const growing = trays.filter((tray) => !hasEnded(tray)).map(({ trayId }) => trayId);
  return [
    ...(growing.length === 0
      ? []
      : [{ trays: growing, reason: "still growing, so counted only in what they have already shown" }]),
    ...(without.length === 0
      ? []
      : [{ trays: without.map(({ trayId }) => trayId), reason: `${lotName} not recorded` }]),
  ];
}

function run(trial: Trial): Outcome {
  const { settings, trays } = trial;
  const order = cooksInOrder(trays);
  const treatments = treatmentsWithinCooks(trays);
  const measures = watchedResponses(trial).map((response) => processMeasure(order.lots, response, treatments));
  const long = measures.filter(({ lots }) => lots.length >= fewestLots);
  const losses = lossSteadiness(cooksInOrder(countedEnds(trays)), settings.seed);
  const excluded = excludedOf(trial, order);
  if (long.length > 0 || losses !== undefined) {
    return steadinessAnswer(trial, watchProcess(trial, order, treatments, long, losses), excluded);
  }
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

/** Whether the process is steady from cook to cook, and what was new when it changed. */
export const isTheProcessSteady: Analysis = {
  id: "is-the-process-steady",
  name: "Is the process steady?",
  question: "Is the process steady from cook to cook, and what was new when it changed?",
  needs: ["tray_id", "batch"],
  assumes: ["cooks follow each other in the order of their dates", "trays were weighed the same way throughout"],
  topic: "growing",
  headline: false,
  run,
};
