import type { Answer, Estimate, Sentence, Trial } from "../../src/analysis.ts";
import { counted } from "../../src/records/counted.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { capital, inRow } from "../comparison/level-text.ts";
import { thingsOf } from "../treatment/treatment-decision.ts";
import { alarmSteps, alarmWords, watchedName } from "./alarm-words.ts";
import type { LossAlarm } from "./loss-alarm.ts";
import { lossGroupings } from "./loss-groupings.ts";
import { type LossShare, shareRange } from "./loss-share.ts";
import { lossGroupTables, lossPatternTable, lossSignalParts } from "./loss-source-facts.ts";
import { lossSources } from "./loss-sources.ts";
import { lossOverDose, lossOverTime } from "./loss-trends.ts";
import { lossesFront } from "./losses-front.ts";

/** What losses go with, and how sure that is. */
export interface LossTies {
  dose: ReturnType<typeof lossOverDose>;
  sources: ReturnType<typeof lossSources>;
  first: ReturnType<typeof lossSources>["patterns"][number];
  signal: boolean;
  /** the first pattern alone would be beyond chance */
  leaning: boolean;
}

/**
 * Looks for what lost trays have in common; undefined where nothing is recorded that several trays share.
 * @param units finished trays that are recorded one by one
 */
export function lossTies(trial: Trial, { order }: LossShare, units: ReadonlyArray<Tray>): LossTies | undefined {
  const { settings } = trial;
  const { significanceLevel: alpha, seed } = settings;
  const tried = thingsOf(trial).flatMap(({ kind, isPeriod, place, factor }) =>
    kind === "names" && !isPeriod && place === "inside cooks" ? [factor] : [],
  );
  const groupings = lossGroupings(units, settings, tried.slice(0, 1));
  const dose = lossOverDose(trial, units);
  const time = lossOverTime(order, seed);
  const others = [
    ...(dose.trend === undefined
      ? []
      : [
          { name: dose.trend.oddsRatio > 1 ? "rise with dose" : "fall with dose", p: dose.trend.p, key: "inoculum_ml" },
        ]),
    ...(time === undefined ? [] : [{ name: time.name, p: time.p }]),
  ];
  // a dose that is tied to something else is no explanation of its own
  const judged = groupings.filter(
    ({ keys }) => dose.trend !== undefined || keys.length > 1 || keys[0] !== "inoculum_ml",
  );
  const sources = lossSources(units.map(isLost), judged, others, alpha, seed);
  const [first] = sources.patterns;
  if (first === undefined) return undefined;
  const signal = sources.standing.length > 0;
  return { dose, sources, first, signal, leaning: !signal && first.p < alpha };
}

function tiesSentence(
  share: LossShare,
  { sources, first, signal, leaning }: LossTies,
  alarm: LossAlarm | undefined,
  alpha: number,
): Sentence {
  const checked = sources.patterns.length;
  const looked = `${counted(checked, "pattern")} looked for`;
  const latest = alarmWords(alarm);
  const watch = leaning ? `, though ${inRow(first.name.split(" and "))} should be watched` : "";
  const chance = `no more than chance is shown${watch} (${looked}).`;
  if (!signal) {
    const said = latest === undefined ? capital(chance) : `${capital(latest)}. Over the whole book ${chance}`;
    return [...shareRange(share), `. ${said}`];
  }
  const ties = lossSignalParts(sources, alpha);
  return [...shareRange(share), ": ", ...ties, ...(latest === undefined ? [] : [` Now ${latest}.`])];
}

/** How the alarm is made. */
export const alarmMethod: Sentence = [
  "The latest cooks: the chance of as many lost where losses are as in the finished cooks before (beta-binomial predictive distribution, Jeffreys' prior; cooks out of the usual left out); an alarm is what a grower with steady losses would see once a year or less over everything watched: cook, load, jar, age of culture, place, person, and the latest four cooks together.",
];

function trendEstimates({ dose: { trend } }: LossTies, level: number): Estimate[] {
  if (trend === undefined) return [];
  return [
    {
      label: "odds of losing a tray, per mL more",
      value: trend.oddsRatio,
      low: trend.low,
      high: trend.high,
      level,
      unit: "factor",
      n: trend.trays,
      nUnit: "trays",
      p: trend.p,
      method: trend.method,
    },
  ];
}

const tiesMethod = ({ sources: { patterns } }: LossTies, seed: number): Sentence[] => [
  [
    `For each thing that trays share, the sum over its groups of (lost less expected)² over its variance, and the largest of them, are compared with losses shuffled over the trays at random (seed ${seed}): where trays of a cook, load or jar may be struck together, within these, or whole ones where a thing is the same for all their trays; p being twice the smaller; Holm's adjustment allows for all ${patterns.length} patterns.`,
  ],
  ["Where two stand, losses are shuffled within the groups of the one, to see whether the other adds anything."],
  alarmMethod,
];

function tiesCaveats({ clumped }: LossShare, { sources, signal, dose }: LossTies): Sentence[] {
  return [
    ...sources.accountedFor.map(
      ({ name, by }): Sentence => [`Losses also differ by ${name}, but no more than ${by} accounts for.`],
    ),
    ...(signal ? [] : [["Not shown is not the same as not there: a weak tie needs more trays to be seen."]]),
    ...(clumped ? [["Lost trays come in clumps, and the range of their share allows for that."]] : []),
    ...sources.standing
      .filter(({ grouping }) => grouping === undefined && sources.tiedTo.length > 0)
      .map(
        ({ name }): Sentence => [
          `There is also a ${name} in the share lost; a few bad groups late or early can make one.`,
        ],
      ),
    ...dose.caveats,
  ];
}

/**
 * Whether losses are more than chance, as an answer.
 * @param beside what any answer to the question shows: its estimates and caveats start this one's
 */
export function lossAnswer(
  { settings }: Trial,
  lost: LossShare,
  { ties, alarm }: { ties: LossTies; alarm: LossAlarm | undefined },
  beside: Pick<Answer, "estimates" | "charts" | "excluded" | "caveats">,
): Answer {
  const { intervalLevel: level, significanceLevel: alpha, seed } = settings;
  const { sources, first, signal, leaning } = ties;
  const { share, finished } = lost;
  const saidOf = (word: LossTies) => ({
    sentence: tiesSentence(lost, word, alarm, alpha),
    ...lossesFront(finished, lost.lostAhead, share, {
      varied: settings.varied,
      ...(word.signal ? { tie: sources.standing[0]!.name } : {}),
      ...(alarm?.heard === true ? { alarm: watchedName(alarm.worst!) } : {}),
      ...(word.leaning ? { watch: first.name } : {}),
    }),
  });
  return {
    ...beside,
    kind: "answer",
    ...saidOf(ties),
    certainty: signal ? "settled" : leaning || alarm?.heard === true ? "leaning" : "open",
    ...(signal ? { lowered: saidOf({ ...ties, signal: false, leaning: true }) } : {}),
    next: alarmSteps(alarm),
    estimates: [{ ...share, p: first.adjustedP }, ...trendEstimates(ties, level)],
    tables: [lossPatternTable(sources), ...lossGroupTables(sources)],
    method: tiesMethod(ties, seed),
    caveats: [...beside.caveats, ...tiesCaveats(lost, ties)],
  };
}
