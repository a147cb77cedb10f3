import type { Analysis, Answer, Excluded, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { fruitingFactor } from "../../src/design/factor.ts";
import { differenceFront } from "../comparison/difference-front.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { thingsOf } from "../treatment/treatment-decision.ts";
import { chamberRuns } from "./chamber-runs.ts";
import { temperatureAnswer } from "./temperature-answer.ts";
import { logCaveats, type TemperatureLogFacts, temperatureLogFacts } from "./temperature-log-facts.ts";
import { responsesOf, temperatureMeasures } from "./temperature-measures.ts";
import { runTable, temperatureMoney, traysByTemperature } from "./temperature-tables.ts";

const settle: Sentence = [
  "Swap the temperatures between the chambers from cook to cook, for at least three cooks, each with some trays at every temperature: the trays of one cook in one chamber count as one, so few are enough. With one chamber, let chance draw its setting for each cook.",
];

/** What the book says of temperature whether or not temperatures can be compared. */
interface Facts {
  log: TemperatureLogFacts | undefined;
  tables: Table[];
  method: Sentence[];
  excluded: Excluded[];
  energyNote: Sentence;
}

function factsOf(trial: Trial): Facts {
  const { trays } = trial;
  const responses = responsesOf(trial);
  const log = temperatureLogFacts(trial, responses);
  const money = temperatureMoney(trial, traysByTemperature(trays));
  const known = trays.filter(({ fruitingCelsius }) => fruitingCelsius !== undefined);
  const runs = chamberRuns(known);
  const unknown = trays.filter(({ fruitingCelsius }) => fruitingCelsius === undefined).map(({ trayId }) => trayId);
  return {
    log,
    tables: [
      ...(runs.length > 1 ? [runTable(runs, responses)] : []),
      ...(money === undefined ? [] : [money]),
      ...(log === undefined || log.exposures.size === 0 ? [] : [log.table]),
    ],
    method: log === undefined ? [] : [log.method],
    excluded:
      unknown.length === 0 || known.length === 0
        ? []
        : [{ trays: unknown, reason: `${fruitingFactor.label.toLowerCase()} not recorded or not readable` }],
    energyNote: money === undefined ? [] : [" The costs do not tell energy apart by temperature."],
  };
}

/** What the log alone shows, where no two temperatures were compared. */
function answerByLog(trial: Trial, why: string, { tables, method }: Facts, log: TemperatureLogFacts): Answer {
  const relation = log.relations[0]!;
  const shown = relation.adjustedP < trial.settings.significanceLevel;
  return {
    kind: "answer",
    sentence: [
      `No two temperatures were compared (${why}), but by the log ${shown ? "" : "nothing is shown to go with temperature; strongest is: "}${relation.label} is `,
      { value: relation.value, unit: relation.unit, signed: true },
      ...(relation.low === undefined || relation.high === undefined
        ? []
        : [" (", { from: relation.low, to: relation.high, unit: relation.unit, signed: true } as const, ")"]),
      `, over ${relation.n} cooks.`,
    ],
    certainty: shown ? "leaning" : "open",
    ...differenceFront(relation, "by the log", "no change", [
      shown
        ? "The log goes with temperature, though no two temperatures were compared."
        : "By the log, nothing is shown to go with temperature.",
    ]),
    test: { p: relation.adjustedP, settleable: false },
    estimates: log.relations.map(({ adjustedP: _, ...estimate }) => estimate),
    tables,
    charts: [],
    excluded: [],
    method,
    caveats: logCaveats(log),
  };
}

/** Where no tray, or every tray alike, has a temperature: the log, or what is wanting. */
function nothingVaried(trial: Trial, facts: Facts): Outcome {
  const levels = new Set(trial.trays.flatMap(({ fruitingCelsius }) => fruitingCelsius ?? []));
  const why =
    levels.size === 0
      ? "no tray has its fruiting temperature written down"
      : levels.size === 1
        ? `every tray was fruited at ${[...levels][0]} °C`
        : "no two temperatures have finished trays";
  const { log } = facts;
  if (log !== undefined && log.relations.length > 0) return answerByLog(trial, why, facts, log);
  return noAnswer([`Cannot tell whether temperature pays: ${why}.`], settle, {
    missing:
      levels.size === 0
        ? { kind: "record", need: "the fruiting temperature of each tray" }
        : { kind: "vary", need: "a second fruiting temperature in the same cooks" },
    excluded: facts.excluded,
    tables: facts.tables,
    method: facts.method,
    caveats: logCaveats(log),
  });
}

function run(trial: Trial): Outcome {
  const facts = factsOf(trial);
  const thing = thingsOf(trial).find(({ factor }) => factor.key === fruitingFactor.key);
  const measures = thing === undefined ? [] : temperatureMeasures(trial, thing);
  if (measures.length === 0) return nothingVaried(trial, facts);
  const outcome = temperatureAnswer(trial, measures, facts.energyNote);
  const relations = (facts.log?.relations ?? []).map(({ adjustedP: _, p: _p, ...estimate }) => estimate);
  return {
    ...outcome,
    ...(outcome.kind === "cannot-tell" ? { wouldSettle: settle } : {}),
    estimates: [...outcome.estimates, ...relations],
    tables: [...outcome.tables, ...facts.tables],
    method: [...outcome.method, ...facts.method],
    caveats: [...outcome.caveats, ...logCaveats(facts.log)],
  };
}

/** Whether a fruiting temperature pays in yield, days and energy, judged over cooks and their chambers. */
export const doesTemperaturePay: Analysis = {
  id: "does-temperature-pay",
  name: "Temperature",
  question: "Does temperature pay for its energy and time, and can these chambers tell?",
  needs: ["tray_id"],
  assumes: [
    "temperatures were given to chamber runs in a drawn order",
    "set points were held, unless the log says otherwise",
  ],
  topic: "money",
  headline: false,
  run,
};
