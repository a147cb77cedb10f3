import type { Chart, Estimate, Sentence, SentencePart, Table, Trial } from "../../src/analysis.ts";
import { armsOf, startedCount } from "../../src/design/arm.ts";
import type { ArmSummary } from "./arm-comparison.ts";
import { differenceBetween, type TreatmentComparison } from "./compare-treatment.ts";
import { inSentence, levelLabel, levelPart } from "./level-text.ts";
import { isFinished, isLost } from "./tray-response.ts";

/** Started, good, lost and growing trays of each level, with the mean and interval of one or two responses. */
export function levelTable(trial: Trial, compared: TreatmentComparison, alongside?: TreatmentComparison): Table {
  const { treatment } = compared.layout;
  const { arms } = armsOf(trial.trays, treatment);
  const perTray = compared.response.unit;
  const blockOf = ({ response }: TreatmentComparison) => [
    { label: `trays: ${response.label}`, unit: "trays" },
    { label: `mean ${response.label}`, unit: perTray },
    { label: "standard deviation", unit: perTray },
    { label: "from", unit: perTray },
    { label: "to", unit: perTray },
  ];
  const cellsOf = ({ comparison }: TreatmentComparison, level: string) => {
    const summary = comparison.arms.find(({ arm }) => arm === level);
    if (summary === undefined) return [null, null, null, null, null];
    const { n, adjustedMean, standardDeviation, low, high } = summary;
    return [n, adjustedMean, standardDeviation, low, high];
  };
  const both = alongside === undefined ? [compared] : [compared, alongside];
  return {
    caption: `Trays and results by ${inSentence(treatment.label)}`,
    columns: [
      { label: treatment.label, unit: treatment.unit || undefined },
      { label: "started", unit: "trays" },
      { label: "good", unit: "trays" },
      { label: "lost", unit: "trays" },
      { label: "growing", unit: "trays" },
      ...both.flatMap(blockOf),
    ],
    rows: arms.map(({ level, value, trays }) => [
      treatment.unit === "" ? level : (value ?? level),
      startedCount(trays),
      startedCount(trays.filter((tray) => isFinished(tray) && !isLost(tray))),
      startedCount(trays.filter(isLost)),
      startedCount(trays.filter(({ outcome }) => outcome === "growing")),
      ...both.flatMap((one) => cellsOf(one, level)),
    ]),
    note: `Means and their ${Math.round(trial.settings.intervalLevel * 100)}% intervals are those of the model (balanced over groups); the standard deviation is of the trays as they came.`,
  };
}

/** Every pair of levels with its difference. */
export function pairTable(compared: TreatmentComparison): Table {
  const { treatment } = compared.layout;
  const { unit } = compared.response;
  return {
    caption: `Every two levels of ${inSentence(treatment.label)}: difference in ${compared.response.label}`,
    columns: [
      { label: "from level" },
      { label: "to level" },
      { label: "difference", unit },
      { label: "from", unit },
      { label: "to", unit },
      { label: "p", unit: "p" },
    ],
    rows: compared.comparison.pairs.map(({ first, second, difference, low, high, p }) => [
      levelLabel(treatment, first),
      levelLabel(treatment, second),
      difference,
      low,
      high,
      p,
    ]),
    note: "Intervals and p allow for looking at all pairs at once.",
  };
}

/** Every tray as a point, with the level's mean and interval. */
export function levelChart(compared: TreatmentComparison): Chart {
  const { treatment } = compared.layout;
  const { response, comparison, observations } = compared;
  const grouped = observations.some(({ groups }) => groups.length > 0);
  return {
    kind: "trays-by-group",
    title: `${response.label.charAt(0).toUpperCase()}${response.label.slice(1)} by ${inSentence(treatment.label)}`,
    description: `Each point is one tray; the bar is the mean with its interval. ${comparison.arms
      .map(
        ({ arm, adjustedMean, n }) =>
          `${levelLabel(treatment, arm)}: ${adjustedMean.toPrecision(3)} ${response.unit}, ${n} trays`,
      )
      .join("; ")}.`,
    groupLabel: treatment.label,
    valueLabel: response.label,
    unit: response.unit,
    points: observations.map(({ arm, value, tray, groups }) => ({
      group: levelLabel(treatment, arm),
      value,
      tray,
      ...(grouped ? { series: groups[0]! } : {}),
    })),
    groups: comparison.arms.map(({ arm, adjustedMean, low, high, n }) => ({
      group: levelLabel(treatment, arm),
      mean: adjustedMean,
      low,
      high,
      n,
    })),
    ...(grouped ? { seriesLabel: "Cook" } : {}),
  };
}

/** The headline difference as an estimate. */
export function headlineEstimate(trial: Trial, compared: TreatmentComparison): Estimate {
  const { headline, response, comparison, layout } = compared;
  return {
    label: `${levelLabel(layout.treatment, headline.to.arm)} against ${levelLabel(layout.treatment, headline.from.arm)}, ${response.label}`,
    value: headline.difference,
    low: headline.low,
    high: headline.high,
    level: trial.settings.intervalLevel,
    unit: response.unit,
    n: comparison.observations,
    nUnit: "trays",
    p: headline.p,
    method: comparison.model,
  };
}

interface Ratio {
  value: number;
  low: number;
  high: number;
}

/** The headline's two levels as a ratio, where logarithms decided; undefined where they did not. */
function ratioOf({ decision, headline }: TreatmentComparison): (Ratio & { p: number }) | undefined {
  if (decision.logged === undefined) return undefined;
  const { difference, low, high, p } = differenceBetween(decision.logged, headline.from.arm, headline.to.arm);
  return { value: Math.exp(difference), low: Math.exp(low), high: Math.exp(high), p };
}

/** ", 1.24 times as much (1.10 to 1.40 times)"; empty where logarithms did not decide. */
export function timesAsMuch(compared: TreatmentComparison, asMuch = "as much"): Sentence {
  const ratio = ratioOf(compared);
  if (ratio === undefined) return [];
  return [
    ", ",
    { value: ratio.value, unit: "factor", digits: 3 },
    ` times ${asMuch} (`,
    { from: ratio.low, to: ratio.high, unit: "factor", digits: 3 },
    " times)",
  ];
}

/** The headline's two levels as a ratio; none where logarithms did not decide. */
export function ratioEstimates(trial: Trial, compared: TreatmentComparison): Estimate[] {
  const ratio = ratioOf(compared);
  if (ratio === undefined) return [];
  const plain = headlineEstimate(trial, compared);
  return [
    {
      ...plain,
      ...ratio,
      label: `${plain.label}, as a ratio`,
      unit: "factor",
      method: `${compared.decision.logged!.model} of logarithms`,
    },
  ];
}

/** A difference in words: "7.3 g more" and the range it may lie in, "(4.5 to 10.2 g more)". */
export function moreOrLess({ headline, response }: TreatmentComparison): { amount: Sentence; range: Sentence } {
  const { difference, low, high } = headline;
  const { unit } = response;
  const word = difference < 0 ? " less" : " more";
  const ends = [Math.abs(low), Math.abs(high)];
  return {
    amount: [{ value: Math.abs(difference), unit, digits: 2 }, word],
    range:
      low < 0 && high > 0
        ? [
            " (anything from ",
            { value: -low, unit, digits: 2 },
            " less to ",
            { value: high, unit, digits: 2 },
            " more)",
          ]
        : [" (", { from: Math.min(...ends), to: Math.max(...ends), unit }, `${word})`],
  };
}

/** The two levels a comparison is told of. */
export function levelsTold({ headline, layout }: TreatmentComparison): { to: SentencePart; from: SentencePart } {
  const part = ({ arm, dose }: ArmSummary) => levelPart(layout.treatment, arm, dose);
  return { to: part(headline.to), from: part(headline.from) };
}
