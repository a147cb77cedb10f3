import type { Answer, Chart, Outcome, Sentence, Table, Trial } from "../../src/analysis.ts";
import { rangesOfMeans } from "../../src/decisions/verdict/index.ts";
import { inSentence, levelLabel } from "../comparison/level-text.ts";
import { doseThing } from "../treatment/book-dose-decision.ts";
import { cannotTellWords } from "../treatment/cannot-tell-words.ts";
import { treatmentAnswer } from "../treatment/treatment-answer.ts";
import { differenceEstimate } from "../treatment/treatment-tables.ts";
import { endsOf, levelOf } from "../treatment/verdict-words.ts";
import { type ChamberRun, chamberRuns, runMean } from "./chamber-runs.ts";
import type { Measure } from "./temperature-measures.ts";

/** "Energy: 22 °C took ..."; the measure's difference in a sentence of its own, without a verdict. */
function energySentence({ of, words }: Measure): Sentence {
  const { difference } = of.decision;
  if (difference === undefined) return [];
  const { to, from, sign } = endsOf(difference, words);
  return [
    " Energy: ",
    levelOf(of.thing.factor, to),
    ` ${words.did} `,
    { value: Math.abs(difference.estimate), unit: of.response.unit },
    ` ${sign * difference.estimate < 0 ? words.less : words.more} ${words.of}`,
    ...(from === undefined ? [] : [" than ", levelOf(of.thing.factor, from)]),
    ".",
  ];
}

/** Every measure with the better temperature and how sure that is; the differences stand among the estimates. */
function measuresTable(measures: ReadonlyArray<Measure>): Table {
  return {
    caption: "Which temperature did better, measure by measure",
    columns: [{ label: "measure" }, { label: "better" }, { label: "how sure" }],
    rows: measures.map(({ of: { decision, response, thing }, words }) => [
      response.label,
      decision.difference === undefined ? "" : levelLabel(thing.factor, String(endsOf(decision.difference, words).to)),
      decision.verdict === "cannot-tell" ? "cannot tell" : decision.verdict,
    ]),
  };
}

/** Every chamber run as a mark, with each temperature's mean and its range. */
function runsChart({ of }: Measure, runs: ReadonlyArray<ChamberRun>): Chart {
  const { response, decision, settings } = of;
  const ranges = rangesOfMeans(decision, settings);
  const points = runs.flatMap((run) => {
    const value = runMean(run, response);
    return value === undefined || run.celsius === undefined
      ? []
      : [{ group: `${run.celsius} °C`, value, tray: run.name }];
  });
  const countOf = (group: string) => points.filter((point) => point.group === group).length;
  return {
    kind: "trays-by-group",
    title: `${response.label.charAt(0).toUpperCase()}${response.label.slice(1)} by temperature, one point a chamber run`,
    description: decision.levels
      .map(({ level, mean }) => `${level} °C: ${mean?.toPrecision(3) ?? "no result"}, ${countOf(`${level} °C`)} runs`)
      .join("; "),
    groupLabel: "Fruiting temperature",
    valueLabel: response.label,
    unit: response.unit,
    pointName: "chamber run",
    points,
    groups: ranges.map(({ level, mean, lower, upper }) => ({
      group: `${level} °C`,
      mean,
      low: lower,
      high: upper,
      n: countOf(`${level} °C`),
    })),
  };
}

/** What is to be kept in mind of chambers. */
function chamberNotes(trial: Trial): Sentence[] {
  const known = trial.trays.filter(({ fruitingCelsius }) => fruitingCelsius !== undefined);
  if (known.every(({ chamber }) => chamber !== undefined)) return [];
  return [
    [
      "Chambers are not written down for every tray. If each temperature had a chamber of its own, chamber and temperature cannot be separated.",
    ],
  ];
}

/** What to do once the money is settled, unless the answer about the dose, which then is of temperatures, says it. */
function nextOf(trial: Trial, { of, words, result }: Measure): Pick<Answer, "next"> {
  const { decision, thing, response } = of;
  if (result !== "profit" || decision.verdict !== "settled" || decision.difference === undefined) return {};
  if (doseThing(trial) === thing) return {};
  const { to, sign } = endsOf(decision.difference, words);
  return {
    next: [
      {
        rank: "dose",
        act: ["Fruit at ", levelOf(thing.factor, to), "."],
        because: [
          "It earned ",
          { value: sign * decision.difference.estimate, unit: response.unit },
          " more a started tray.",
        ],
      },
    ],
  };
}

/**
 * Whether temperature pays, by the verdict rules on the measure that comes first, with all other measures beside it.
 * @param energyNote what the costs say of energy, where no measure does
 */
export function temperatureAnswer(trial: Trial, measures: ReadonlyArray<Measure>, energyNote: Sentence): Outcome {
  const [lead, ...others] = measures;
  const { asked: _, ...outcome } = treatmentAnswer(trial, lead!.of, lead!.words, lead!.result);
  const runs = chamberRuns(trial.trays.filter(({ fruitingCelsius }) => fruitingCelsius !== undefined));
  const method: Sentence = [
    "A temperature is given to a chamber, so the trays of one cook at one temperature count as one value.",
  ];
  const shared = { charts: [runsChart(lead!, runs)], method: [method, ...outcome.method] };
  if (outcome.kind === "cannot-tell") {
    const { thing, decision, beside } = lead!.of;
    const { reason } = cannotTellWords(inSentence(thing.factor.label), decision, beside);
    return { ...outcome, ...shared, reason: [`Cannot tell whether temperature pays: ${reason}.`] };
  }
  const energy = others.find(({ result }) => result === "energy");
  const more = energy === undefined ? energyNote : energySentence(energy);
  const withOthers = <Said extends Pick<Answer, "sentence"> & Partial<Answer>>(said: Said): Said => ({
    ...said,
    sentence: [...said.sentence, ...more],
    estimates: [
      ...(said.estimates ?? []),
      ...others.flatMap(({ of }) => differenceEstimate(of, of.decision).map(({ p: _p, ...rest }) => rest)),
    ],
    tables: [measuresTable(measures), ...(said.tables ?? [])],
  });
  const { lowered } = outcome;
  return {
    ...withOthers(outcome),
    ...shared,
    ...nextOf(trial, lead!),
    ...(lowered === undefined ? {} : { lowered: { ...withOthers(lowered), charts: shared.charts } }),
    caveats: [...outcome.caveats, ...chamberNotes(trial)],
  } satisfies Answer;
}
