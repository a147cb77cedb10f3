import type { TopLevelSpec } from "vega-lite";
import type { Chart } from "../../analysis.ts";
import type { NumberSettings } from "../format-quantity.ts";
import { breakdownSpecification } from "./breakdown.ts";
import { curveSpecification } from "./curve.ts";
import { intervalsSpecification } from "./intervals.ts";
import { swingSpecification } from "./swing.ts";
import { timeOrderSpecification } from "./time-order.ts";
import { traysByGroupSpecification } from "./trays-by-group.ts";
import { waitingSpecification } from "./waiting.ts";

/** A chart as plain data that vega-lite can draw, still or live, and what a reader must be told beside it. */
export interface ChartSpecification {
  spec: TopLevelSpec;
  /** "600 of 4,210 trays are drawn" and the like */
  notes: string[];
}

/**
 * The vega-lite specification of a chart in the reader's units and number format.
 * @throws RangeError if the chart holds nothing to draw
 */
export function chartSpecification(chart: Chart, settings: NumberSettings): ChartSpecification {
  switch (chart.kind) {
    case "trays-by-group":
      return traysByGroupSpecification(chart, settings);
    case "curve":
      return curveSpecification(chart, settings);
    case "breakdown":
      return breakdownSpecification(chart, settings);
    case "intervals":
      return intervalsSpecification(chart, settings);
    case "time-order":
      return timeOrderSpecification(chart, settings);
    case "waiting":
      return waitingSpecification(chart, settings);
    case "swing":
      return swingSpecification(chart, settings);
  }
}
