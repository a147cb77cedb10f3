import type { Unit } from "./sentence.ts";

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

/** What changes with an amount, as a line. */
export interface CurveChart extends ChartBase {
  kind: "curve";
  xLabel: string;
  xUnit: Unit;
  yLabel: string;
  yUnit: Unit;
  /** equally long, x ascending */
  x: number[];
  y: number[];
}

/**
 * Everything one question knows about the doses tried, in one picture on a true scale of dose: trays, means with their ranges,
 * the curve with its band, lost trays in a lane of their own. For yield the means are of good trays; for money, what started
 * trays left as they came ("seen") beside the curve of what is expected.
 * @example { kind: "doses", title: "Dry weight by dose", description: "...", valueLabel: "dry, a good tray", unit: "g", doseUnit: "mL",
 *   doses: [{ dose: 3, trays: 21, lost: 0, mean: 27.6, low: 25.4, high: 29.8, points: [{ value: 27, tray: "C1-001" }] }],
 *   curve: { x: [3, 3.5], y: [27.5, 28.1], low: [25, 26], high: [30, 30] }, use: 9, notRuledOut: { from: 5, to: 12 } }
 */
export interface DosesChart extends ChartBase {
  kind: "doses";
  valueLabel: string;
  unit: Unit;
  doseUnit: Unit;
  doses: {
    dose: number;
    /** trays compared */
    trays: number;
    /** those of them that were lost; absent where lost trays are not looked at, as in days */
    lost?: number;
    mean?: number;
    low?: number;
    high?: number;
    points?: { value: number; tray: string; cook?: string }[];
  }[];
  /** drawn dashed outside the doses tried */
  curve?: { x: number[]; y: number[]; low?: number[]; high?: number[] };
  /** the dose to use, named in the picture */
  use?: number;
  /** doses as good as the one to use (dark shade), and doses not ruled out (light shade) */
  asGood?: { from: number; to: number };
  notRuledOut?: { from: number; to: number };
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

/**
 * What is sold, product by product: the report draws it as the price list, with cells to type a price in, and as cards on
 * phones. Money per unit sold; margins are shares of the price.
 * @example { kind: "price-list", title: "Prices", description: "Fresh punnet 200 g: 6.50 now, 14.50 to ask, below cost.",
 *   products: [{ product: "Fresh punnet", channel: "farm gate", now: 6.5, breakEven: 9.82, breakEvenFrom: 9.1, breakEvenTo: 10.7,
 *   ask: 14.5, marginNow: -0.51, marginWanted: 0.3, stands: "below cost", below: true }] }
 */
export interface PriceListChart extends ChartBase {
  kind: "price-list";
  products: {
    /** as in the sheet: the page finds the product's row by product and channel */
    product: string;
    channel?: string;
    /** how it is shown, where that says more than the sheet's name: "Fresh punnet 200 g" */
    name?: string;
    now?: number;
    breakEven?: number;
    breakEvenFrom?: number;
    breakEvenTo?: number;
    ask?: number;
    marginNow?: number;
    marginWanted?: number;
    /** in at most four words: "below cost", "below target", "covers both", or why there is no answer */
    stands: string;
    /** whether each sale loses money now */
    below: boolean;
  }[];
}

export type Chart =
  | PriceListChart
  | DosesChart
  | TraysByGroupChart
  | CurveChart
  | BreakdownChart
  | IntervalsChart
  | ControlChart
  | TornadoChart
  | SurfaceChart;
