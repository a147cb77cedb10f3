import type { Chart, Estimate, Table } from "../../src/analysis.ts";
import {
  againstUsual,
  type Decision,
  type Level,
  type LevelFacts,
  rangesOfMeans,
} from "../../src/decisions/verdict/index.ts";
import type { Factor } from "../../src/design/factor.ts";
import { isLost, type Tray } from "../../src/records/tray.ts";
import { inSentence, levelLabel, levelName } from "../comparison/level-text.ts";
import { usualOf } from "../comparison/usual-level.ts";
import { traysByLevel } from "./compared-trays.ts";
import { isTrend, type TreatmentDecision } from "./treatment-decision.ts";

const labelOf = (thing: Factor, level: Level): string => levelLabel(thing, String(level));

/** Trays, losses and mean of each level; a mean is over the good trays as they came. */
export function levelsTable(of: TreatmentDecision, decision: Decision): Table {
  const { thing, response, settings, gathered } = of;
  const { factor } = thing;
  const { levels } = decision;
  // of money and started trays a lost one has a value, too
  const lostOf = ({ lost, values }: LevelFacts): number =>
    values.reduce((sum, { row, pooled }) => sum + (isLost(gathered.byRow[row]!) ? pooled : 0), lost);
  const withLost = of.withLost || levels.some((facts) => lostOf(facts) > 0);
  const ranges = new Map(rangesOfMeans(decision, settings).map((one) => [one.level, one]));
  return {
    caption: `Trays and results by ${inSentence(factor.label)}`,
    columns: [
      { label: factor.label, unit: factor.unit || undefined },
      ...(withLost
        ? [
            { label: "compared", unit: "trays" },
            { label: "lost", unit: "trays" },
          ]
        : [{ label: "trays", unit: "trays" }]),
      { label: `mean ${response.label}`, unit: response.unit },
      { label: "mean over the same cooks", unit: response.unit },
      { label: "from", unit: response.unit },
      { label: "to", unit: response.unit },
    ],
    rows: levels.map((facts) => [
      facts.level,
      facts.started,
      ...(withLost ? [lostOf(facts)] : []),
      facts.mean ?? null,
      facts.adjusted ?? null,
      ranges.get(facts.level)?.lower ?? null,
      ranges.get(facts.level)?.upper ?? null,
    ]),
    note: "The mean is of the trays as they came; over the same cooks is as if every level had stood in every cook, with its range. Ranges compare levels: what a whole cook has in common is not in them.",
  };
}

/** The pairs in the order in which they were tested; undefined where there are none, or the levels are not settled to differ. */
export function pairsTable({ thing: { factor }, response }: TreatmentDecision, decision: Decision): Table | undefined {
  if (decision.verdict !== "settled" || decision.pairs.length === 0) return undefined;
  const { unit } = response;
  return {
    caption: `Which levels of ${inSentence(factor.label)} differ`,
    columns: [
      { label: "from" },
      { label: "to" },
      { label: "difference", unit },
      { label: "from", unit },
      { label: "to", unit },
      { label: "p", unit: "p" },
      { label: "differ" },
    ],
    rows: decision.pairs.map(({ from, to, estimate, interval, p, settled }) => [
      labelOf(factor, from),
      labelOf(factor, to),
      estimate,
      interval.lower,
      interval.upper,
      p,
      settled ? "yes" : "not shown",
    ]),
    ...(decision.pairsInOrder
      ? { note: "Highest against lowest first; testing stops at the first pair that is not shown." }
      : {}),
  };
}

/**
 * Every level against the usual one, which is one for all responses; undefined where nothing is compared.
 * @param trays of the book
 */
export function usualTable(
  { thing: { factor }, response, settings }: TreatmentDecision,
  decision: Decision,
  trays: ReadonlyArray<Tray>,
): Table | undefined {
  const counts = traysByLevel(trays, factor);
  const used = decision.levels.flatMap(({ mean, level }) =>
    mean === undefined ? [] : [{ level, started: counts.get(level) ?? 0 }],
  );
  if (used.length < 3) return undefined;
  const { one, by } = usualOf(used, settings.usual);
  const usual = one.level;
  const rows = againstUsual(decision, usual, settings);
  if (rows.length === 0) return undefined;
  const { unit } = response;
  return {
    caption: `Against ${labelOf(factor, usual)}${by === "named" ? ", your usual one" : by === "most used" ? ", the one used most" : ""}`,
    columns: [
      { label: factor.label, unit: factor.unit || undefined },
      { label: "difference", unit },
      { label: "from", unit },
      { label: "to", unit },
    ],
    rows: rows.map(({ level, estimate, lower, upper }) => [level, estimate, lower, upper]),
    note: "Ranges hold for all of them at once. They measure; the verdict above decides. usual_dose in settings.csv names another.",
  };
}

/** What each recorded reading says; undefined where there are not two. */
export function readingsTable({ readings, response }: TreatmentDecision): Table | undefined {
  if (readings.length < 2) return undefined;
  const { unit } = response;
  return {
    caption: "What was known at each reading",
    columns: [
      { label: "finished cooks", unit: "cooks" },
      { label: "difference", unit },
      { label: "from", unit },
      { label: "to", unit },
      { label: "word" },
    ],
    rows: readings.map(({ cooks, decision: { difference, verdict } }) => [
      cooks,
      difference?.estimate ?? null,
      difference?.interval?.lower ?? null,
      difference?.interval?.upper ?? null,
      verdict === "cannot-tell" ? "cannot tell" : verdict,
    ]),
    note: "Worked out from the cells as they are today, each at the level of its reading.",
  };
}

/** Every tray as a mark, with each level's mean and its range. */
export function levelsChart(
  { thing, response, withLost, gathered, settings }: TreatmentDecision,
  decision: Decision,
): Chart {
  const { factor } = thing;
  const title = `${response.label.charAt(0).toUpperCase()}${response.label.slice(1)} by ${inSentence(factor.label)}`;
  const shown = decision.levels.filter(({ mean }) => mean !== undefined);
  const description = `Each mark is one tray. ${shown
    .map(
      ({ level, mean, values }) =>
        `${labelOf(factor, level)}: mean ${mean!.toPrecision(3)} ${response.unit}, ${values.length} trays`,
    )
    .join("; ")}.`;
  const pointOf = ({ row, value }: { row: number; value: number }) => {
    const { trayId: tray, batch: cook } = gathered.byRow[row]!;
    return cook === undefined ? { value, tray } : { value, tray, cook };
  };
  const ranges = new Map(rangesOfMeans(decision, settings).map((one) => [one.level, one]));
  if (thing.kind === "amount" && !isTrend(thing)) {
    return {
      kind: "doses",
      title,
      description,
      valueLabel: response.label,
      unit: response.unit,
      doseUnit: factor.unit,
      doses: decision.levels.map(({ level, started, lost, mean, values }) => {
        const range = ranges.get(level);
        const shownMean = range?.mean ?? mean;
        return {
          dose: Number(level),
          trays: started,
          ...(withLost ? { lost } : {}),
          ...(shownMean === undefined ? {} : { mean: shownMean }),
          ...(range === undefined ? {} : { low: range.lower, high: range.upper }),
          points: values.map(pointOf),
        };
      }),
    };
  }
  return {
    kind: "trays-by-group",
    title,
    description,
    groupLabel: factor.label,
    valueLabel: response.label,
    unit: response.unit,
    points: decision.levels.flatMap(({ level, values }) =>
      values.map((one) => {
        const { cook, ...point } = { cook: undefined, ...pointOf(one) };
        return { group: labelOf(factor, level), ...point, ...(cook === undefined ? {} : { series: cook }) };
      }),
    ),
    groups: isTrend(thing)
      ? []
      : shown.map(({ level, mean, values }) => {
          const range = ranges.get(level);
          const ends = range === undefined ? {} : { low: range.lower, high: range.upper };
          return { group: labelOf(factor, level), mean: range?.mean ?? mean!, ...ends, n: values.length };
        }),
    ...(decision.grouping.by === "cook" ? { seriesLabel: "Cook" } : {}),
  };
}

/** The difference as an estimate, for the file of answers and the fold. */
export function differenceEstimate(
  { thing: { factor }, response }: TreatmentDecision,
  decision: Decision,
  label = response.label,
): Estimate[] {
  const { difference, p } = decision;
  if (difference === undefined) return [];
  const { to, from, estimate, interval } = difference;
  const rest = from === undefined ? "the others" : levelLabel(factor, String(from));
  return [
    {
      label: `${levelName(factor, String(to))} against ${rest}, ${label}`,
      value: estimate,
      ...(interval === undefined ? {} : { low: interval.lower, high: interval.upper }),
      level: 0.95,
      unit: response.unit,
      n: decision.levels.reduce((sum, { values }) => sum + values.length, 0),
      nUnit: "trays",
      ...(p === undefined ? {} : { p }),
      method: methodWords[decision.method],
    },
  ];
}

const methodWords: Readonly<Record<Decision["method"], string>> = {
  "inside-cooks": "each cook's own slope over the levels, put together with errors robust to cooks that differ",
  "whole-cooks": "one mean a cook, linear regression and one-way analysis of variance over cooks",
  "one-cook": "trays of one cook, with a supposition of how far trays differ",
  "means-only": "means alone",
};
