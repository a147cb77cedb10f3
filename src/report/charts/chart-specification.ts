import type { Chart } from "../../analysis.ts";
import type { NumberSettings } from "../format-quantity.ts";
import { breakdownSpecification } from "./breakdown.ts";
import { controlChartSpecification } from "./control-chart.ts";
import { curveSpecification } from "./curve.ts";
import { intervalsSpecification } from "./intervals.ts";
import type { Specification } from "./specification.ts";
import { surfaceSpecification } from "./surface.ts";
import { tornadoSpecification } from "./tornado.ts";
import { traysByGroupSpecification } from "./trays-by-group.ts";
import { waitingSpecification } from "./waiting.ts";

/**
 * The vega-lite specification of a chart in the reader's units and number format.
 * @throws RangeError if the chart holds nothing to draw
 */
export function chartSpecification(chart: Chart, settings: NumberSettings): Specification {
  switch (chart.kind) {
    case "price-list":
    case "doses":
      throw new RangeError(`chartSpecification: ${chart.kind} is not drawn yet`);
    case "trays-by-group":
      return traysByGroupSpecification(chart, settings);
    case "curve":
      return curveSpecification(chart, settings);
    case "breakdown":
      return breakdownSpecification(chart, settings);
    case "intervals":
      return intervalsSpecification(chart, settings);
    case "control-chart":
      return controlChartSpecification(chart, settings);
    case "waiting":
      return waitingSpecification(chart, settings);
    case "surface":
      return surfaceSpecification(chart, settings);
    case "tornado":
      return tornadoSpecification(chart, settings);
  }
}
