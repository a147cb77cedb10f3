import type { Estimate, Sentence, Table, Trial } from "../../src/analysis.ts";
import type { Tray } from "../../src/records/tray.ts";
import { holmAdjustment } from "../../src/statistics/comparisons/p-value-adjustments.ts";
import { linearModel } from "../../src/statistics/linear-models/linear-model.ts";
import { permuteSlope } from "../../src/statistics/resampling/stratified-permutation.ts";
import type { TrayResponse } from "../comparison/tray-response.ts";
import { type ChamberRun, chamberRuns, runMean } from "./chamber-runs.ts";
import {
  bandOf,
  setPointTolerance,
  type TemperatureExposure,
  temperatureIndex,
  temperatureOfTray,
} from "./temperature-join.ts";

/** What the temperature log says of the trays. */
export interface TemperatureLogFacts {
  exposures: ReadonlyMap<Tray, TemperatureExposure>;
  table: Table;
  /** how yield and days go with hours in the band, run by run */
  relations: (Estimate & { adjustedP: number })[];
  /** why there are none */
  noRelation?: string;
  method: Sentence;
  unread: number;
}

const fewestRuns = 6;
/** A tray whose stretch the log covers less is not used for relations. */
const leastCovered = 0.5;
const mostRuns = 1000;

const mean = (values: ReadonlyArray<number>): number => values.reduce((sum, value) => sum + value, 0) / values.length;

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

/** Change of a response with one measure of the log, runs as units, inside chambers where several are recorded. */
function relation(
  units: ReadonlyArray<RunExposure>,
  of: { label: string; unit: string; read(unit: RunExposure): number },
  response: TrayResponse,
  trial: Trial,
): Estimate | undefined {
  const rows = units.flatMap((unit) => {
    const value = runMean(unit.run, response);
    return value === undefined ? [] : [{ value, amount: of.read(unit), chamber: unit.run.chamber ?? "" }];
  });
  if (rows.length < fewestRuns || rows.length > mostRuns) return undefined;
  const chambers = new Set(rows.map(({ chamber }) => chamber)).size;
  const { intervalLevel: level, seed } = trial.settings;
  const response_ = rows.map(({ value }) => value);
  const amount = rows.map((row) => row.amount);
  try {
    const { observed, p } = permuteSlope(
      { response: response_, amount, ...(chambers > 1 ? { strata: rows.map(({ chamber }) => chamber) } : {}) },
      { seed, draws: 3999, exactUpTo: 50_000 },
    );
    const fit = linearModel({
      response: response_,
      terms: [
        ...(chambers > 1
          ? [{ kind: "factor" as const, name: "chamber", values: rows.map(({ chamber }) => chamber) }]
          : []),
        { kind: "number", name: "exposure", values: amount },
      ],
      level,
    });
    const slope = fit.coefficients.find(({ name }) => name === "exposure");
    return {
      label: `${response.label}, per ${of.label}`,
      value: slope?.estimate ?? observed,
      ...(slope === undefined ? {} : { low: slope.lower, high: slope.upper }),
      level,
      unit: `${response.unit}/${of.unit}`,
      n: rows.length,
      nUnit: "runs",
      p,
      method: `straight line over chamber runs${chambers > 1 ? ", inside chambers" : ""}; p by permutation`,
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return undefined;
  }
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
  const measures = [
    { label: "share of hours inside the band", unit: "whole share", read: (unit: RunExposure) => unit.shareInBand },
    { label: "degree-day a day", unit: "°C difference", read: (unit: RunExposure) => unit.degreeDaysPerDay },
  ];
  const found = measures.flatMap((of) => responses.flatMap((response) => relation(units, of, response, trial) ?? []));
  const adjusted = found.length === 0 ? [] : holmAdjustment(found.map(({ p }) => p!));
  const relations = found.map((one, at) => ({ ...one, adjustedP: adjusted[at]! })).sort((a, b) => a.p! - b.p!);
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
              : `only ${units.length} chamber ${units.length === 1 ? "run has" : "runs have"} readings for half of its time, or they hardly differ; ${fewestRuns} that differ are needed`,
        }),
    method: [
      `Log readings are joined to each tray from the day it was moved to fruiting (else colonised) to its harvest; a reading holds until the next, at most 6 hours. Inside the band: within ${setPointTolerance} °C of the tray's set point, or, without one, `,
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
      : [
          [
            "What the log shows was not dealt to runs at random, so it can stand for something else that changed with it.",
          ],
        ]),
  ];
}
