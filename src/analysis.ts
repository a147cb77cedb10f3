import type { AnswerFront, Missing } from "./answer-front.ts";
import type { CostLine } from "./records/cost-line.ts";
import type { HarvestFieldKey } from "./records/harvest-field.ts";
import type { Issue } from "./records/issue.ts";
import type { Memo } from "./records/memo.ts";
import type { Product } from "./records/product.ts";
import type { Settings } from "./records/setting.ts";
import type { TemperatureReading } from "./records/sheet.ts";
import type { Tray } from "./records/tray.ts";
import type { Sentence, Unit } from "./sentence.ts";

export type { AnswerFront, Figure, Missing, NextRank, NextStep, Strip } from "./answer-front.ts";
export type { Quantity, QuantityRange, Sentence, SentencePart, Unit } from "./sentence.ts";

/** A number with the range it plausibly lies in. */
export interface Estimate {
  label: string;
  value: number;
  /** ends of the interval; absent where there is none */
  low?: number;
  high?: number;
  /** interval level, 0 to 1 */
  level: number;
  unit: Unit;
  n: number;
  /** what was counted: "trays", "cooks" */
  nUnit: string;
  /** two-sided p where a test belongs to it */
  p?: number;
  /** in the textbook's words */
  method: string;
}

/** One column of a table in an answer. */
export interface TableColumn {
  label: string;
  /** absent for a column of text */
  unit?: Unit;
  digits?: number;
}

/** A table that reads like a sheet; null is a cell with nothing to say. */
export interface Table {
  caption: string;
  columns: TableColumn[];
  rows: (string | number | null)[][];
  /** rows, counted from the end, that are totals */
  totalRows?: number;
  note?: string;
}

interface ChartBase {
  title: string;
  /** the text alternative: what a reader who cannot see it should know */
  description: string;
}

/** Every tray as a point beside its group's mean and interval. */
export interface TraysByGroupChart extends ChartBase {
  kind: "trays-by-group";
  groupLabel: string;
  valueLabel: string;
  unit: Unit;
  points: { group: string; value: number; tray: string; series?: string }[];
  groups: { group: string; mean: number; low?: number; high?: number; n: number }[];
  /** what a point is, where it is not a tray: "chamber run" */
  pointName?: string;
  /** what `series` tells apart, "Cook" for instance */
  seriesLabel?: string;
}

/** A response curve with its band over the points it was fitted to. */
export interface CurveChart extends ChartBase {
  kind: "curve";
  xLabel: string;
  xUnit: Unit;
  yLabel: string;
  yUnit: Unit;
  points: { x: number; y: number; tray: string; series?: string }[];
  curves: { name: string; x: number[]; y: number[]; low?: number[]; high?: number[] }[];
  /** vertical lines with a name: the best dose */
  marks?: { x: number; label: string }[];
  /** a shaded stretch of x: the doses that earn nearly as much */
  stretch?: { from: number; to: number; label: string };
}

/** Bars that add up to a total. */
export interface BreakdownChart extends ChartBase {
  kind: "breakdown";
  unit: Unit;
  valueLabel: string;
  parts: { label: string; value: number; group?: string }[];
}

/** Estimates with intervals, one under the other, against a reference. */
export interface IntervalsChart extends ChartBase {
  kind: "intervals";
  unit: Unit;
  valueLabel: string;
  rows: { label: string; value: number; low: number; high: number }[];
  /** a vertical line: 0 for differences */
  reference?: number;
}

/** A measure in time order with its limits. */
export interface ControlChart extends ChartBase {
  kind: "control-chart";
  unit: Unit;
  valueLabel: string;
  orderLabel: string;
  points: {
    order: number;
    label: string;
    value: number;
    centre: number;
    lower?: number;
    upper?: number;
    signal?: string;
  }[];
}

/** Share of trays not yet there, by day, as steps. */
export interface WaitingChart extends ChartBase {
  kind: "waiting";
  timeLabel: string;
  groups: { group: string; days: number[]; share: number[] }[];
}

/** Low-to-high bars round a central value, longest first. */
export interface TornadoChart extends ChartBase {
  kind: "tornado";
  unit: Unit;
  valueLabel: string;
  centre: number;
  rows: { label: string; low: number; high: number; lowLabel: string; highLabel: string }[];
}

/** A response over two amounts as bands of tint, with what was tried. */
export interface SurfaceChart extends ChartBase {
  kind: "surface";
  xLabel: string;
  xUnit: Unit;
  yLabel: string;
  yUnit: Unit;
  valueLabel: string;
  unit: Unit;
  /** middles of the cells, ascending and evenly spaced, two or more each way */
  x: number[];
  y: number[];
  /** one row for each y, one number for each x */
  values: number[][];
  /** where trays stood, and how many */
  tried: { x: number; y: number; trays: number }[];
  marks?: { x: number; y: number; label: string }[];
}

export type Chart =
  | TraysByGroupChart
  | CurveChart
  | BreakdownChart
  | IntervalsChart
  | ControlChart
  | WaitingChart
  | TornadoChart
  | SurfaceChart;

/** Trays that took no part in an answer, and why. */
export interface Excluded {
  trays: string[];
  reason: string;
}

/** How far a comparison can be leaned on: "settled" needs an interval clear of no effect; "leaning" points one way; "open" does not. */
export type Verdict = "settled" | "leaning" | "open";

/** The verdict of an answer; "measured" is for a description that compares nothing: a gram's cost, prices, rows to check. */
export type Certainty = Verdict | "measured";

interface OutcomeBase extends AnswerFront {
  tables: Table[];
  charts: Chart[];
  excluded: Excluded[];
  /** what was done, in the textbook's words, one sentence each: model, why this one, experimental unit */
  method: Sentence[];
  /** what a reader could get wrong, and checks of assumptions told as consequences */
  caveats: Sentence[];
}

/** What the data say. */
export interface Answer extends OutcomeBase {
  kind: "answer";
  /** the answer in one plain sentence */
  sentence: Sentence;
  certainty: Certainty;
  /**
   * What a settled answer says once the whole report's tests lower it to leaning: sentence, short and next in words that
   * advise "meanwhile". Wanted wherever a settled answer makes a test (an estimate with a p).
   * @example { sentence: ["Leaning to ", { value: 9, unit: "mL" }, ": ..."], short: ["More liquid culture seems to give more."] }
   */
  lowered?: { sentence: Sentence } & Pick<AnswerFront, "short" | "next">;
  estimates: Estimate[];
}

/** What the data cannot say, and what would settle it. */
export interface CannotTell extends OutcomeBase {
  kind: "cannot-tell";
  /** starts with what cannot be told: "Cannot tell whether ..., because ..." */
  reason: Sentence;
  wouldSettle: Sentence;
  /** what it waits for, so that questions waiting for one thing are listed together */
  missing?: Missing;
  estimates: Estimate[];
  /** there where the program itself failed at the question: a code to report it by, and the error's own words */
  failure?: { code: string; what: string };
}

export type Outcome = Answer | CannotTell;

/** What an analysis gets to see: the cleaned book, nothing formatted. */
export interface Trial {
  trays: ReadonlyArray<Tray>;
  costLines?: ReadonlyArray<CostLine>;
  products?: ReadonlyArray<Product>;
  settings: Readonly<Settings>;
  temperatureLog: ReadonlyArray<TemperatureReading>;
  issues: ReadonlyArray<Issue>;
  /** what questions share, worked out once */
  memo: Memo;
}

/** The part of the report a question belongs to: what happened in the trays, or what it cost and earned. */
export type Topic = "growing" | "money";

/** One question a grower asks, answered from the records alone. */
export interface Analysis {
  /** the file's name without extension */
  id: string;
  /** the question in at most four words, for lists and rows: "Dose and yield" */
  name: string;
  question: string;
  /** canonical columns without which there is nothing to look at */
  needs: ReadonlyArray<HarvestFieldKey>;
  /** what the treatment is given to, unless the layout of the data shows otherwise */
  experimentalUnit: string;
  assumes: ReadonlyArray<string>;
  topic: Topic;
  /** whether its sentence stands at the top of the report */
  headline: boolean;
  /** @returns an answer, or why there is none; never throws on thin or odd data */
  run(trial: Trial): Outcome;
}

/** An analysis's outcome beside its question. */
export interface AnsweredQuestion {
  id: string;
  /** the question in at most four words */
  name: string;
  question: string;
  assumes: ReadonlyArray<string>;
  topic: Topic;
  headline: boolean;
  outcome: Outcome;
  /** what happens to the answer when every tray with a flagged cell is left out; absent when no tray is flagged */
  withoutFlagged?: { trays: string[]; sentence: Sentence; changes: boolean };
}
