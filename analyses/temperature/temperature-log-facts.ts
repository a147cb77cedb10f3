import type { Estimate, Sentence, Table, Trial } from "../../src/analysis.ts";
import { decideComparison, type Level } from "../../src/decisions/verdict/index.ts";
import type { Factor } from "../../src/design/factor.ts";
import { counted } from "../../src/records/counted.ts";
import type { Tray } from "../../src/records/tray.ts";
import { holmAdjustment } from "../../src/statistics/comparisons/p-value-adjustments.ts";
import { mean } from "../../src/statistics/descriptive/mean.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { cannotTellWords } from "../treatment/cannot-tell-words.ts";
import { gatherTrays } from "../treatment/compared-trays.ts";
import { type ChamberRun, chamberRuns } from "./chamber-runs.ts";
import {
  bandOf,
  setPointTolerance,
  type TemperatureExposure,
  temperatureIndex,
  temperatureOfTray,
} from "./temperature-join.ts";

/** How a response goes with the log, with the p that decides it. */
type Relation = Estimate & { p: number };

/** What the temperature log says of the trays. */
export interface TemperatureLogFacts {
  exposures: ReadonlyMap<Tray, TemperatureExposure>;
  table: Table;
  /** how yield and days go with hours in the band, run by run */
  relations: (Relation & { adjustedP: number })[];
  /** why there are none */
  noRelation?: string;
  method: Sentence;
  unread: number;
}

/** A tray whose stretch the log covers less is not used for relations. */
const leastCovered = 0.5;

interface RunExposure {
  run: ChamberRun;
  shareInBand: number;
  degreeDaysPerDay: number;
}

function runExposures(
  runs: ReadonlyArray<ChamberRun>,
  exposures: ReadonlyMap<Tray, TemperatureExposure>,
): RunExposure[] {
  return runs.flatMap((run) => {
    const own = run.trays.flatMap((tray) => {
      const exposure = exposures.get(tray);
      return exposure === undefined || exposure.covered < leastCovered ? [] : [exposure];
    });
    if (own.length === 0) return [];
    return [
      {
        run,
        shareInBand: mean(own.map(({ hoursInBand, hours }) => hoursInBand / hours)),
        degreeDaysPerDay: mean(own.map(({ degreeDays, hours }) => (degreeDays * 24) / hours)),
      },
    ];
  });
}

/** A measure of the log, one value a run. */
interface LogMeasure {
  label: string;
  unit: string;
  /** rounded to half a degree or a twentieth, so that runs at one setting count as alike */
  read(unit: RunExposure): number;
}

const measures: ReadonlyArray<LogMeasure> = [
  {
    label: "time inside the band",
    unit: "share",
    read: ({ shareInBand }) => Math.round(shareInBand * 20) / 20,
  },
  {
    label: "degree-days a day",
    unit: "°C difference",
    read: ({ degreeDaysPerDay }) => Math.round(degreeDaysPerDay * 2) / 2,
  },
];

/** A measure of the log as something that differed between trays. */
function asFactor({ label, unit, read }: LogMeasure, units: ReadonlyArray<RunExposure>): Factor {
  const values = new Map(units.flatMap((one) => one.run.trays.map((tray) => [tray, read(one)] as const)));
  const value = (tray: Tray) => values.get(tray);
  return { key: `log: ${label}`, label, unit, value, level: (tray) => value(tray)?.toString() };
}

/** How a response goes with a measure of the log, most less least of it, by the verdict rules; why not where there is no test. */
function relation(factor: Factor, response: TrayResponse, trial: Trial): Relation | string {
  const { trays } = gatherTrays(trial.trays, factor, response, false);
  if (trays.length === 0) return "no tray has both";
  const decision = decideComparison(trays, { alpha: trial.settings.significanceLevel });
  const { difference, p, cooks } = decision;
  if (difference?.from === undefined || p === undefined) return cannotTellWords("temperature", decision).reason;
  const written = (level: Level) => (factor.unit === "share" ? `${Math.round(Number(level) * 100)}%` : `${level} °C`);
  return {
    label: `${response.label}, ${factor.label} ${written(difference.to)} against ${written(difference.from)}`,
    value: difference.estimate,
    ...(difference.interval === undefined ? {} : { low: difference.interval.lower, high: difference.interval.upper }),
    level: 0.95,
    unit: response.unit,
    n: cooks,
    nUnit: "cooks",
    p,
    method: "change over cooks, by the verdict rules",
  };
}

function exposureTable(units: ReadonlyArray<ChamberRun>, exposures: ReadonlyMap<Tray, TemperatureExposure>): Table {
  const rows = units.flatMap((run) => {
    const own = run.trays.flatMap((tray) => exposures.get(tray) ?? []);
    if (own.length === 0) return [];
    return [
      [
        run.name,
        own.length,
        mean(own.map(({ covered }) => covered)),
        mean(own.map(({ meanCelsius }) => meanCelsius)),
        mean(own.map(({ hoursInBand }) => hoursInBand)),
        mean(own.map(({ hoursInBand, hours }) => hoursInBand / hours)),
        mean(own.map(({ degreeDays }) => degreeDays)),
        mean(own.map(({ excursions }) => excursions)),
      ],
    ];
  });
  return {
    caption: "What trays went through while fruiting, by chamber run, from the temperature log",
    columns: [
      { label: "Chamber run" },
      { label: "trays", unit: "trays" },
      { label: "stretch covered by readings", unit: "share" },
      { label: "mean temperature", unit: "°C" },
      { label: "inside the band", unit: "hours" },
      { label: "inside the band, of hours read", unit: "share" },
      { label: "degree-days above its low end", unit: "°C difference days" },
      { label: "stretches outside", unit: "stretches", digits: 2 },
    ],
    rows: rows.slice(0, 60),
    ...(rows.length > 60 ? { note: `The first 60 of ${rows.length} runs.` } : {}),
  };
}

/** Joins the temperature log to the trays; undefined where there is no log. */
export function temperatureLogFacts(
  trial: Trial,
  responses: ReadonlyArray<TrayResponse>,
): TemperatureLogFacts | undefined {
  if (trial.temperatureLog.length === 0) return undefined;
  const { fruitingLowCelsius: low, fruitingHighCelsius: high } = trial.settings;
  const index = temperatureIndex(trial.temperatureLog);
  const exposures = new Map<Tray, TemperatureExposure>();
  for (const tray of trial.trays) {
    const exposure = temperatureOfTray(index, tray, bandOf(tray, low, high));
    if (exposure !== undefined) exposures.set(tray, exposure);
  }
  const runs = chamberRuns(trial.trays.filter((tray) => exposures.has(tray)));
  const units = runExposures(runs, exposures);
  const looked = measures.flatMap((of) => {
    const factor = asFactor(of, units);
    return responses.map((response) => relation(factor, response, trial));
  });
  const found = looked.filter((one) => typeof one !== "string");
  const why = looked.filter((one) => typeof one === "string");
  const adjusted = found.length === 0 ? [] : holmAdjustment(found.map(({ p }) => p));
  const relations = found.map((one, at) => ({ ...one, adjustedP: adjusted[at]! })).sort((a, b) => a.p - b.p);
  return {
    exposures,
    table: exposureTable(runs, exposures),
    relations,
    ...(relations.length > 0
      ? {}
      : {
          noRelation:
            exposures.size === 0
              ? "no tray has a fruiting (or colonised) date, a harvest date and readings of its chamber between them"
              : `${counted(units.length, "chamber run has", "chamber runs have")} readings for half of their time, and ${why.at(-1) ?? "no tray has a weight or days"}`,
        }),
    method: [
      `Log readings are joined to each tray from the day it was moved to fruiting (else colonised) to its harvest; a reading holds until the next, at most 6 hours, or as long as readings usually lie apart, a day at most. Inside the band: within ${setPointTolerance} °C of the tray's set point, or, without one, `,
      { from: low, to: high, unit: "°C" },
      ".",
    ],
    unread: index.unread,
  };
}

/** What is to be kept in mind of the log. */
export function logCaveats(facts: TemperatureLogFacts | undefined): Sentence[] {
  if (facts === undefined) return [];
  return [
    ...(facts.unread === 0 ? [] : [[`${facts.unread} readings of the log have no usable time.`]]),
    ...(facts.noRelation === undefined ? [] : [[`The log cannot be set against yield or days: ${facts.noRelation}.`]]),
    ...(facts.relations.length === 0
      ? []
      : [["What the log shows was not set at random, so it can stand for something else that changed with it."]]),
  ];
}
