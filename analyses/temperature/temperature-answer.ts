import type { Answer, Chart, Estimate, Excluded, Sentence, Table, Trial } from "../../src/analysis.ts";
import { holmAdjustment } from "../../src/statistics/comparisons/p-value-adjustments.ts";
import type { ArmComparison, PairDifference } from "../comparison/arm-comparison.ts";
import { compareArms } from "../comparison/compare-arms.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { type ChamberRun, runObservations, type TemperatureLayout } from "./chamber-runs.ts";
import { tellSplitPlot } from "./split-plot.ts";
import { temperatureFront } from "./temperature-front.ts";
import { logCaveats, type TemperatureLogFacts } from "./temperature-log-facts.ts";
import { energyResponse, profitPerStartedTray } from "./temperature-money.ts";
import { runTable, type temperatureMoney } from "./temperature-tables.ts";

interface Compared {
  response: TrayResponse;
  comparison: ArmComparison;
  pair: PairDifference;
}

type JudgedLayout = Extract<TemperatureLayout, { kind: "judged" }>;

/** What the book says of temperature whether or not temperatures can be compared. */
export interface TemperatureFacts {
  responses: TrayResponse[];
  /** what the temperature log shows; undefined where there is none */
  log: TemperatureLogFacts | undefined;
  money: ReturnType<typeof temperatureMoney>;
  moneyTables: Table[];
  logTables: Table[];
  logMethod: Sentence[];
  excluded: Excluded[];
}

/** Temperatures compared on every measure, chamber runs as the observations. */
export interface TemperaturesCompared {
  layout: JudgedLayout;
  compared: Compared[];
  first: Compared;
  /** p of each of `compared`, allowing for all of them */
  adjusted: number[];
  clear: Compared[];
  /** one measure is beyond chance alone, none with all of them allowed for */
  leaning: boolean;
  energy: Compared | undefined;
  split: ReturnType<typeof tellSplitPlot>;
}

/**
 * Temperatures compared on one response, run means as the observations; undefined where fewer than two have two runs.
 * @param together measures looked at together: the difference's interval allows for them (Bonferroni)
 */
function compareRuns(
  trial: Trial,
  layout: JudgedLayout,
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

/** Compares the temperatures; undefined where no measure has two temperatures with two runs that differ. */
export function compareTemperatures(
  trial: Trial,
  layout: JudgedLayout,
  responses: ReadonlyArray<TrayResponse>,
): TemperaturesCompared | undefined {
  const { settings } = trial;
  const alpha = settings.significanceLevel;
  const compared = responses.flatMap((response) => compareRuns(trial, layout, response, responses.length) ?? []);
  const [first] = compared;
  if (first === undefined) return undefined;
  const adjusted = holmAdjustment(compared.map(({ comparison }) => comparison.overall.p));
  const clear = compared.filter((_, index) => adjusted[index]! < alpha);
  const energy = energyResponse(trial);
  return {
    layout,
    compared,
    first,
    adjusted,
    clear,
    leaning: clear.length === 0 && compared.some(({ comparison }) => comparison.overall.p < alpha),
    energy: energy === undefined ? undefined : compareRuns(trial, layout, energy, 1),
    split: tellSplitPlot(layout.runs, first.response, layout.sideBySide, settings),
  };
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

function temperatureSentence(
  { layout, compared, clear, leaning, energy, split }: TemperaturesCompared,
  money: TemperatureFacts["money"],
): Sentence {
  const told = compared.filter(({ response }) => !response.unit.endsWith("day"));
  return [
    clear.length > 0
      ? clearOpening(compared, clear)
      : `No effect of temperature is shown${leaning ? ", though one measure comes close" : ""}: `,
    ...(told.length === 0 ? compared : told).flatMap(
      (one, index): Sentence => [...(index === 0 ? [] : ["; "]), ...pairParts(one)],
    ),
    `; ${layout.runs.length} chamber runs.`,
    ...(energy !== undefined
      ? [" ", ...capital(pairParts(energy)), "."]
      : money === undefined
        ? []
        : [
            money.energyDiffers
              ? " Energy by temperature is in the table."
              : " The costs do not tell energy apart by temperature.",
          ]),
    ...split.sentence,
  ];
}

const temperatureEstimates = (
  { compared, clear, adjusted, energy }: TemperaturesCompared,
  level: number,
): Estimate[] => [
  ...[...clear, ...compared.filter((one) => !clear.includes(one))].map((one) =>
    estimateOf(one, level, adjusted[compared.indexOf(one)]!),
  ),
  ...(energy === undefined ? [] : [estimateOf(energy, level, energy.comparison.overall.p)]),
];

const temperatureMethod = ({ layout, compared, first, split }: TemperaturesCompared): Sentence[] => [
  [
    `A temperature is given to a chamber run, so the means of ${layout.runs.length} runs are compared, not their trays; ${layout.sideBySide ? "cooks that were split over temperatures are compared within themselves" : "runs of different cooks are compared with each other"}. p and ranges allow for ${compared.length} measures (Holm, Bonferroni).`,
  ],
  ...first.comparison.method,
  ...split.method,
];

const temperatureCaveats = ({ layout, compared, split }: TemperaturesCompared): Sentence[] => [
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
];

/** Whether temperature pays, told from the chamber runs. */
export function temperatureAnswer({ settings }: Trial, facts: TemperatureFacts, told: TemperaturesCompared): Answer {
  const { layout, compared, first, clear, leaning, split } = told;
  const front = clear[0] ?? first;
  return {
    kind: "answer",
    sentence: temperatureSentence(told, facts.money),
    certainty: clear.length > 0 ? "settled" : leaning ? "leaning" : "open",
    ...temperatureFront(front.pair, front.response, clear.length > 0, layout.runs.length),
    estimates: [...temperatureEstimates(told, settings.intervalLevel), ...(facts.log?.relations ?? [])],
    tables: [runTable(layout.runs, facts.responses), ...facts.moneyTables, ...split.tables, ...facts.logTables],
    charts: [...compared.map((one) => chartOf(one, layout.runs)), ...split.charts],
    excluded: facts.excluded,
    method: [...temperatureMethod(told), ...facts.logMethod],
    caveats: [...temperatureCaveats(told), ...logCaveats(facts.log)],
  };
}
