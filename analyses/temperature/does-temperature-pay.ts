import type { Analysis, Chart, Estimate, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { holmAdjustment } from "../../src/statistics/comparisons/p-value-adjustments.ts";
import type { ArmComparison, PairDifference } from "../comparison/arm-comparison.ts";
import { compareArms } from "../comparison/compare-arms.ts";
import { differenceFront } from "../comparison/difference-front.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { harvestDays } from "../comparison/tray-days.ts";
import {
  type TrayResponse,
  yieldPerGoodTray,
  yieldPerStartedTray,
  yieldWeightOf,
} from "../comparison/tray-response.ts";
import {
  type ChamberRun,
  chamberRuns,
  runObservations,
  type TemperatureLayout,
  temperatureLayout,
} from "./chamber-runs.ts";
import { tellSplitPlot } from "./split-plot.ts";
import { temperatureFront, temperatureMissing } from "./temperature-front.ts";
import { type TemperatureLogFacts, temperatureLogFacts } from "./temperature-log-facts.ts";
import { earningResponses, energyResponse, profitPerStartedTray } from "./temperature-money.ts";
import { runTable, temperatureMoney, traysByTemperature } from "./temperature-tables.ts";

interface Compared {
  response: TrayResponse;
  comparison: ArmComparison;
  pair: PairDifference;
}

const settle: Sentence = [
  "Swap the temperatures between the chambers from run to run, for at least three runs of each temperature, every run with trays of the same cooks: a chamber run is one trial, however many trays it holds, so few trays a run are enough. With one chamber, change its setting from run to run in a drawn order.",
];

/** Saleable weight of a started tray for each day from inoculation to harvest. */
const yieldPerDay = (perStarted: TrayResponse): TrayResponse => ({
  label: `${perStarted.label.replace("per started tray", "per started tray and day")}`,
  unit: "g/day",
  of: (tray) => {
    const [grams, days] = [perStarted.of(tray), harvestDays.of(tray)];
    return grams === undefined || days === undefined || days <= 0 ? undefined : grams / days;
  },
});

function responsesOf(trial: Trial): TrayResponse[] {
  const weight = yieldWeightOf(trial.trays);
  return [
    ...(weight === undefined ? [] : [yieldPerGoodTray(weight)]),
    harvestDays,
    ...(weight === undefined ? [] : [yieldPerDay(yieldPerStartedTray(weight))]),
    ...earningResponses(trial),
  ];
}

/**
 * Temperatures compared on one response, run means as the observations; undefined where fewer than two have two runs.
 * @param together measures looked at together: the difference's interval allows for them (Bonferroni)
 */
function compareRuns(
  trial: Trial,
  layout: Extract<TemperatureLayout, { kind: "judged" }>,
  response: TrayResponse,
  together: number,
): Compared | undefined {
  const observations = runObservations(layout.runs, response);
  const arms = layout.levels.map(String).filter((arm) => observations.filter((one) => one.arm === arm).length >= 2);
  const used = observations.filter(({ arm }) => arms.includes(arm));
  const varies = arms.some((arm) => new Set(used.flatMap((one) => (one.arm === arm ? [one.value] : []))).size > 1);
  if (arms.length < 2 || !varies) return undefined;
  const input = { observations: used, arms, groupNames: layout.sideBySide ? ["cook"] : [] };
  const { intervalLevel: level } = trial.settings;
  const comparison = compareArms({ ...input, level });
  const { pairs } = compareArms({ ...input, level: 1 - (1 - level) / together });
  const pair = [...pairs].sort((a, b) => Math.abs(b.difference) - Math.abs(a.difference))[0]!;
  return { response, comparison, pair };
}

const pairParts = ({ response, pair }: Compared): Sentence => [
  `${response.label} `,
  { value: pair.difference, unit: response.unit, signed: true },
  " (",
  { from: pair.low, to: pair.high, unit: response.unit, signed: true },
  ") at ",
  { value: Number(pair.second), unit: "°C" },
  " against ",
  { value: Number(pair.first), unit: "°C" },
];

const capital = ([start, ...rest]: Sentence): Sentence =>
  typeof start === "string" ? [start.replace(/^./, (letter) => letter.toUpperCase()), ...rest] : [start!, ...rest];

const estimateOf = ({ response, pair, comparison }: Compared, level: number, p: number): Estimate => ({
  label: `${pair.second} °C against ${pair.first} °C, ${response.label}`,
  value: pair.difference,
  low: pair.low,
  high: pair.high,
  level,
  unit: response.unit,
  n: comparison.observations,
  nUnit: "runs",
  p,
  method: `${comparison.model} of run means`,
});

/** How an answer starts where some measure differs clearly: by the money, where the book has prices. */
function clearOpening(compared: ReadonlyArray<Compared>, clear: ReadonlyArray<Compared>): string {
  const profit = compared.find(({ response }) => response.label === profitPerStartedTray);
  if (profit === undefined) return "Temperature makes a difference: ";
  if (!clear.includes(profit)) return "Temperature makes a difference, though none is shown in profit: ";
  const { first, second, difference } = profit.pair;
  return `${difference > 0 ? second : first} °C earns more: `;
}

function chartOf({ response, comparison }: Compared, runs: ReadonlyArray<ChamberRun>): Chart {
  return {
    kind: "trays-by-group",
    title: `${response.label.charAt(0).toUpperCase()}${response.label.slice(1)} by temperature, one point a chamber run`,
    description: comparison.arms
      .map(({ arm, adjustedMean, n }) => `${arm} °C: ${adjustedMean.toPrecision(3)} ${response.unit}, ${n} runs`)
      .join("; "),
    groupLabel: "Fruiting temperature",
    valueLabel: response.label,
    unit: response.unit,
    pointName: "chamber run",
    points: runObservations(runs, response).map(({ arm, value, tray }) => ({ group: `${arm} °C`, value, tray })),
    groups: comparison.arms.map(({ arm, adjustedMean, low, high, n }) => ({
      group: `${arm} °C`,
      mean: adjustedMean,
      low,
      high,
      n,
    })),
  };
}

function logCaveats(facts: TemperatureLogFacts | undefined): Sentence[] {
  if (facts === undefined) return [];
  return [
    ...(facts.unread === 0 ? [] : [[`${facts.unread} readings of the log have no usable time.`]]),
    ...(facts.noRelation === undefined ? [] : [[`The log cannot be set against yield or days: ${facts.noRelation}.`]]),
    ...(facts.relations.length === 0
      ? []
      : [
          [
            "What the log shows was not dealt to runs at random, so it can stand for something else that changed with it.",
          ],
        ]),
  ];
}

function run(trial: Trial): Outcome {
  const { settings, trays } = trial;
  const { intervalLevel: level, significanceLevel: alpha } = settings;
  const responses = responsesOf(trial);
  const facts = temperatureLogFacts(trial, responses);
  const layout = temperatureLayout(trays);
  const money = temperatureMoney(trial, traysByTemperature(trays));
  const logTables = facts === undefined || facts.exposures.size === 0 ? [] : [facts.table];
  const logMethod = facts === undefined ? [] : [facts.method];
  const unknown = trays.filter(({ fruitingCelsius }) => fruitingCelsius === undefined).map(({ trayId }) => trayId);
  const excluded = unknown.length === 0 ? [] : [{ trays: unknown, reason: "fruiting temperature not recorded" }];
  const moneyTables = money === undefined ? [] : [money.table];

  if (layout.kind === "not-judged") {
    const unvaried = layout.because === "not recorded" || layout.because === "one level";
    const [relation] = facts?.relations ?? [];
    const runs = chamberRuns(trays.filter(({ fruitingCelsius }) => fruitingCelsius !== undefined));
    if (!unvaried || relation === undefined) {
      return noAnswer(["Cannot tell whether temperature pays: ", ...layout.detail, "."], settle, {
        missing: temperatureMissing(layout),
        excluded,
        tables: [...(runs.length > 1 ? [runTable(runs, responses)] : []), ...moneyTables, ...logTables],
        estimates: facts?.relations ?? [],
        method: logMethod,
        caveats: logCaveats(facts),
      });
    }
    const shown = relation.adjustedP < alpha;
    return {
      kind: "answer",
      sentence: [
        "No two temperatures were compared (",
        ...layout.detail,
        `), but by the log ${shown ? "" : "nothing is shown to go with temperature; strongest is: "}${relation.label} is `,
        { value: relation.value, unit: relation.unit, signed: true },
        ...(relation.low === undefined || relation.high === undefined
          ? []
          : [" (", { from: relation.low, to: relation.high, unit: relation.unit, signed: true }, ")"]),
        `, over ${relation.n} chamber runs.`,
      ],
      certainty: shown ? "leaning" : "open",
      ...differenceFront(relation, "by the log", "no change", [
        shown
          ? "The log goes with temperature, though no two temperatures were compared."
          : "By the log, nothing is shown to go with temperature.",
      ]),
      estimates: facts!.relations,
      tables: [...logTables, ...moneyTables],
      charts: [],
      excluded: [],
      method: logMethod,
      caveats: logCaveats(facts),
    };
  }

  const compared = responses.flatMap((response) => compareRuns(trial, layout, response, responses.length) ?? []);
  if (compared.length === 0) {
    return noAnswer(
      [
        "Cannot tell whether temperature pays: fewer than two temperatures have two chamber runs with results that differ.",
      ],
      settle,
      {
        excluded,
        missing: { kind: "trays", need: "two chamber runs with results at each temperature" },
        tables: [runTable(layout.runs, responses), ...moneyTables, ...logTables],
        method: logMethod,
      },
    );
  }
  const adjusted = holmAdjustment(compared.map(({ comparison }) => comparison.overall.p));
  const clear = compared.filter((_, index) => adjusted[index]! < alpha);
  const leaning = clear.length === 0 && compared.some(({ comparison }) => comparison.overall.p < alpha);
  const told = compared.filter(({ response }) => !response.unit.endsWith("day"));
  const energy = energyResponse(trial);
  const energyCompared = energy === undefined ? undefined : compareRuns(trial, layout, energy, 1);
  const [first] = compared;
  const split = tellSplitPlot(layout.runs, first!.response, layout.sideBySide, settings);
  return {
    kind: "answer",
    sentence: [
      clear.length > 0
        ? clearOpening(compared, clear)
        : `No effect of temperature is shown${leaning ? ", though one measure comes close" : ""}: `,
      ...(told.length === 0 ? compared : told).flatMap(
        (one, index): Sentence => [...(index === 0 ? [] : ["; "]), ...pairParts(one)],
      ),
      `; ${layout.runs.length} chamber runs.`,
      ...(energyCompared !== undefined
        ? [" ", ...capital(pairParts(energyCompared)), "."]
        : money === undefined
          ? []
          : [
              money.energyDiffers
                ? " Energy by temperature is in the table."
                : " The costs do not tell energy apart by temperature.",
            ]),
      ...split.sentence,
    ],
    certainty: clear.length > 0 ? "settled" : leaning ? "leaning" : "open",
    ...temperatureFront((clear[0] ?? first!).pair, (clear[0] ?? first!).response, clear.length > 0, layout.runs.length),
    estimates: [
      ...[...clear, ...compared.filter((one) => !clear.includes(one))].map((one) =>
        estimateOf(one, level, adjusted[compared.indexOf(one)]!),
      ),
      ...(energyCompared === undefined ? [] : [estimateOf(energyCompared, level, energyCompared.comparison.overall.p)]),
      ...(facts?.relations ?? []),
    ],
    tables: [runTable(layout.runs, responses), ...moneyTables, ...split.tables, ...logTables],
    charts: [...compared.map((one) => chartOf(one, layout.runs)), ...split.charts],
    excluded,
    method: [
      [
        `A temperature is given to a chamber run, so the means of ${layout.runs.length} runs are compared, not their trays; ${layout.sideBySide ? "cooks that were split over temperatures are compared within themselves" : "runs of different cooks are compared with each other"}. p and ranges allow for ${compared.length} measures (Holm, Bonferroni).`,
      ],
      ...first!.comparison.method,
      ...split.method,
      ...logMethod,
    ],
    caveats: [
      ...(layout.chambersRecorded
        ? []
        : [
            [
              "Chambers are not recorded: trays of one cook at one temperature are taken as one run. If each temperature had a chamber of its own, chamber and temperature cannot be told apart.",
            ],
          ]),
      ...(layout.sideBySide
        ? []
        : [["No cook was split over temperatures, so what changed from cook to cook is in the comparison."]]),
      ...(Math.min(...layout.runsPerLevel) < 3
        ? [["With two runs of a temperature ranges are very wide: three or more of each are worth having."]]
        : []),
      ...compared.flatMap(({ comparison }) => comparison.caveats),
      ...split.caveats,
      ...logCaveats(facts),
    ],
  };
}

/** Whether a fruiting temperature pays in yield, days and energy, chamber runs as units. */
export const doesTemperaturePay: Analysis = {
  id: "does-temperature-pay",
  name: "Temperature",
  question: "Does temperature pay for its energy and time, and can these chambers tell?",
  needs: ["tray_id"],
  experimentalUnit: "chamber run",
  assumes: [
    "temperatures were given to chamber runs in a drawn order",
    "set points were held, unless the log says otherwise",
  ],
  topic: "money",
  headline: false,
  run,
};
