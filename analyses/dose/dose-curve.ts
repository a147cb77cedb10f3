import type { Chart, Sentence, Table, Trial } from "../../src/analysis.ts";
import type { Memo } from "../../src/records/memo.ts";
import type { CurveColumns } from "../../src/statistics/curves/curve-data.ts";
import { type FittedCurve, fitCurve } from "../../src/statistics/curves/fit-curve.ts";
import { type ComparedCurves, fitCurves } from "../../src/statistics/curves/fit-curves.ts";
import type { Observation, TrayResponse } from "../comparison/tray-response.ts";

/** Curves of a response over an amount. */
export interface DoseCurve {
  /** response per unit of dose along a straight line; undefined where no line could be fitted */
  line: FittedCurve | undefined;
  /** the form the data support best by AICc */
  best: FittedCurve | undefined;
  compared: ComparedCurves;
  /** what the curves were fitted to */
  columns: CurveColumns;
  points: { x: number; y: number; tray: string; series?: string }[];
}

/** Above this many blocks an offset for each costs too much; block means are then taken out before the fit. */
const mostBlocks = 60;

/** Values moved so that every block has the same mean: the same as block offsets where every block holds every dose equally. */
function withoutBlockMeans(values: ReadonlyArray<number>, blocks: ReadonlyArray<string>): number[] {
  const sums = new Map<string, { sum: number; count: number }>();
  values.forEach((value, index) => {
    const entry = sums.get(blocks[index]!) ?? { sum: 0, count: 0 };
    sums.set(blocks[index]!, entry);
    entry.sum += value;
    entry.count++;
  });
  const grand = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value, index) => {
    const { sum, count } = sums.get(blocks[index]!)!;
    return value - sum / count + grand;
  });
}

/** Above this many trays the curves are fitted to means of trays of one dose, weighed by their number. */
const mostTrays = 3000;

/** Means of as many trays of one dose, in the order of the sheet, as leaves about half as many values as `mostTrays`. */
function groupMeansByDose(
  doses: ReadonlyArray<number>,
  values: ReadonlyArray<number>,
): { doses: number[]; responses: number[]; weights: number[] } {
  const size = Math.ceil((2 * values.length) / mostTrays);
  const open = new Map<number, { sum: number; count: number }>();
  const means = { doses: [] as number[], responses: [] as number[], weights: [] as number[] };
  const close = (dose: number, { sum, count }: { sum: number; count: number }): void => {
    means.doses.push(dose);
    means.responses.push(sum / count);
    means.weights.push(count);
  };
  values.forEach((value, index) => {
    const dose = doses[index]!;
    const group = open.get(dose) ?? { sum: 0, count: 0 };
    open.set(dose, group);
    group.sum += value;
    group.count++;
    if (group.count < size) return;
    close(dose, group);
    open.delete(dose);
  });
  for (const [dose, group] of open) close(dose, group);
  return means;
}

/** What curves over dose are fitted to, each cook (outer group) with an offset of its own; undefined for fewer than two doses. */
function curveColumns(observations: ReadonlyArray<Observation>, level: number) {
  const measured = observations.filter((one): one is Observation & { dose: number } => one.dose !== undefined);
  if (new Set(measured.map(({ dose }) => dose)).size < 2) return undefined;
  const grouped = measured.every(({ groups }) => groups.length > 0);
  const blocks = grouped ? measured.map(({ groups }) => groups[0]!) : [];
  const own = measured.map(({ value }) => value);
  const manyBlocks = new Set(blocks).size > mostBlocks;
  const levelled = manyBlocks ? withoutBlockMeans(own, blocks) : own;
  const doses = measured.map(({ dose }) => dose);
  const columns = {
    ...(measured.length > mostTrays && (manyBlocks || !grouped)
      ? groupMeansByDose(doses, levelled)
      : { doses, responses: levelled, ...(grouped && !manyBlocks ? { blocks } : {}) }),
    level,
    profile: false,
  };
  return { measured, grouped, columns };
}

function straightLine(columns: DoseCurve["columns"]): FittedCurve | undefined {
  const line = fitCurve({ ...columns, form: "straight-line" });
  return line.kind === "fitted" ? line : undefined;
}

/** The straight line over dose; undefined where none can be fitted. */
export function doseLine(observations: ReadonlyArray<Observation>, level: number): FittedCurve | undefined {
  const given = curveColumns(observations, level);
  return given && straightLine(given.columns);
}

/** Fits every curve form to the trays, each cook (outer group) with an offset of its own; once for the very same trays. */
export const doseCurve = (observations: ReadonlyArray<Observation>, level: number, memo: Memo): DoseCurve | undefined =>
  memo.once([observations], `dose curve at ${level}`, () => fitEveryForm(observations, level));

function fitEveryForm(observations: ReadonlyArray<Observation>, level: number): DoseCurve | undefined {
  const given = curveColumns(observations, level);
  if (given === undefined) return undefined;
  const { measured, grouped, columns } = given;
  const compared = fitCurves(columns);
  return {
    line: straightLine(columns),
    best: compared.ranked[0]?.fit,
    compared,
    columns,
    points: measured.map(({ dose, value, tray, groups }) => ({
      x: dose,
      y: value,
      tray,
      ...(grouped ? { series: groups[0]! } : {}),
    })),
  };
}

const steps = 48;

/** A fitted curve sampled over the tested doses, with its band. */
export function sampled(fit: FittedCurve, name: string) {
  const span = fit.highestDose - fit.lowestDose;
  const means = Array.from({ length: steps + 1 }, (_, step) => fit.meanAt(fit.lowestDose + (span * step) / steps));
  return {
    name,
    x: means.map(({ dose }) => dose),
    y: means.map(({ mean }) => mean),
    low: means.map(({ low }) => low),
    high: means.map(({ high }) => high),
  };
}

/** The trays, the straight line and the best-supported curve with its band. */
export function curveChart(curve: DoseCurve, response: TrayResponse, xLabel: string, xUnit: string): Chart | undefined {
  const { best, line } = curve;
  if (best === undefined) return undefined;
  const bend =
    best.name === "straight-line" || line === undefined
      ? []
      : [{ ...sampled(line, line.label), low: undefined, high: undefined }];
  const curves = [sampled(best, best.label), ...bend.map(({ name, x, y }) => ({ name, x, y }))];
  return {
    kind: "curve",
    title: `${response.label.charAt(0).toUpperCase()}${response.label.slice(1)} over ${xLabel.toLowerCase()}`,
    description: `The ${best.label} rises or falls from ${best.meanAt(best.lowestDose).mean.toPrecision(3)} ${response.unit} at ${best.lowestDose} ${xUnit} to ${best.meanAt(best.highestDose).mean.toPrecision(3)} ${response.unit} at ${best.highestDose} ${xUnit}; the band is the interval of its mean.`,
    xLabel,
    xUnit,
    yLabel: response.label,
    yUnit: response.unit,
    points: curve.points,
    curves,
  };
}

/** How the forms of curve compare, and which could not be fitted. */
export function curveTable({ compared }: DoseCurve, response: TrayResponse): Table {
  return {
    caption: `Forms of curve for ${response.label}, best supported first`,
    columns: [
      { label: "form" },
      { label: "AICc", unit: "factor" },
      { label: "weight", unit: "share" },
      { label: "spread left", unit: response.unit },
      { label: "lack of fit, p", unit: "p" },
      { label: "remark" },
    ],
    rows: [
      ...compared.ranked.map(({ fit, aicc, weight }) => [
        fit.label,
        Number.isFinite(aicc) ? aicc : null,
        weight,
        fit.sigma,
        fit.lackOfFit.kind === "tested" ? fit.lackOfFit.p : null,
        fit.remarks.join("; "),
      ]),
      ...compared.notFitted.map(({ label, reason }) => [label, null, null, null, null, reason]),
    ],
    note: "AICc weighs fit against the number of parameters (smaller is better); the weight is the share of support among these forms.",
  };
}

/** The slope of the straight line as a sentence: what one more unit of dose does. */
export function slopeSentence(trial: Trial, line: FittedCurve, response: TrayResponse, doseUnit: string): Sentence {
  const slope = line.parameters[1]!;
  const unit = `${response.unit}/${doseUnit}`;
  return [
    "Along a straight line each further ",
    doseUnit,
    " changes it by ",
    { value: slope.estimate, unit, signed: true },
    ` (${Math.round(trial.settings.intervalLevel * 100)}% interval `,
    { from: slope.interval.low, to: slope.interval.high, unit, signed: true },
    ").",
  ];
}
