import type { Analysis, Answer, Outcome, Sentence, Trial } from "../../src/analysis.ts";
import { differenceFront } from "../comparison/difference-front.ts";
import { noAnswer } from "../comparison/no-answer.ts";
import { harvestDays } from "../comparison/tray-days.ts";
import {
  type TrayResponse,
  yieldPerGoodTray,
  yieldPerStartedTray,
  yieldWeightOf,
} from "../comparison/tray-response.ts";
import { chamberRuns, type TemperatureLayout, temperatureLayout } from "./chamber-runs.ts";
import { compareTemperatures, type TemperatureFacts, temperatureAnswer } from "./temperature-answer.ts";
import { temperatureMissing } from "./temperature-front.ts";
import { logCaveats, type TemperatureLogFacts, temperatureLogFacts } from "./temperature-log-facts.ts";
import { earningResponses } from "./temperature-money.ts";
import { runTable, temperatureMoney, traysByTemperature } from "./temperature-tables.ts";

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

function temperatureFacts(trial: Trial): TemperatureFacts {
  const { trays } = trial;
  const responses = responsesOf(trial);
  const log = temperatureLogFacts(trial, responses);
  const money = temperatureMoney(trial, traysByTemperature(trays));
  const unknown = trays.filter(({ fruitingCelsius }) => fruitingCelsius === undefined).map(({ trayId }) => trayId);
  return {
    responses,
    log,
    money,
    moneyTables: money === undefined ? [] : [money.table],
    logTables: log === undefined || log.exposures.size === 0 ? [] : [log.table],
    logMethod: log === undefined ? [] : [log.method],
    excluded: unknown.length === 0 ? [] : [{ trays: unknown, reason: "fruiting temperature not recorded" }],
  };
}

type NotJudged = Extract<TemperatureLayout, { kind: "not-judged" }>;

/** What the log alone shows, where no two temperatures were compared. */
function answerByLog(trial: Trial, layout: NotJudged, facts: TemperatureFacts, log: TemperatureLogFacts): Answer {
  const relation = log.relations[0]!;
  const shown = relation.adjustedP < trial.settings.significanceLevel;
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
    estimates: log.relations,
    tables: [...facts.logTables, ...facts.moneyTables],
    charts: [],
    excluded: [],
    method: facts.logMethod,
    caveats: logCaveats(log),
  };
}

/** Where the layout cannot judge temperature: the log, if nothing was varied, or what is wanting. */
function tellNotJudged(trial: Trial, layout: NotJudged, facts: TemperatureFacts): Outcome {
  const { log, responses } = facts;
  const unvaried = layout.because === "not recorded" || layout.because === "one level";
  if (unvaried && log !== undefined && log.relations.length > 0) return answerByLog(trial, layout, facts, log);
  const runs = chamberRuns(trial.trays.filter(({ fruitingCelsius }) => fruitingCelsius !== undefined));
  return noAnswer(["Cannot tell whether temperature pays: ", ...layout.detail, "."], settle, {
    missing: temperatureMissing(layout),
    excluded: facts.excluded,
    tables: [...(runs.length > 1 ? [runTable(runs, responses)] : []), ...facts.moneyTables, ...facts.logTables],
    estimates: log?.relations ?? [],
    method: facts.logMethod,
    caveats: logCaveats(log),
  });
}

function run(trial: Trial): Outcome {
  const facts = temperatureFacts(trial);
  const layout = temperatureLayout(trial.trays);
  if (layout.kind === "not-judged") return tellNotJudged(trial, layout, facts);
  const compared = compareTemperatures(trial, layout, facts.responses);
  if (compared !== undefined) return temperatureAnswer(trial, facts, compared);
  return noAnswer(
    [
      "Cannot tell whether temperature pays: fewer than two temperatures have two chamber runs with results that differ.",
    ],
    settle,
    {
      excluded: facts.excluded,
      missing: { kind: "trays", need: "two chamber runs with results at each temperature" },
      tables: [runTable(layout.runs, facts.responses), ...facts.moneyTables, ...facts.logTables],
      method: facts.logMethod,
    },
  );
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
