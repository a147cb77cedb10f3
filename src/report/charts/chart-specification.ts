import type { Chart } from "../../analysis.ts";
import { breakdownSpecification } from "./breakdown.ts";
import type { ChartPlace } from "./chart-place.ts";
import { controlChartSpecification } from "./control-chart.ts";
import { curveSpecification } from "./curve.ts";
import { dosesSpecification } from "./doses.ts";
import { intervalsSpecification } from "./intervals.ts";
import type { Specification } from "./specification.ts";
import { surfaceSpecification } from "./surface.ts";
import { tornadoSpecification } from "./tornado.ts";
import { traysByGroupSpecification } from "./trays-by-group.ts";

/**
 * The vega-lite specification of a chart in the reader's units and number format.
 * @throws RangeError if the chart holds nothing to draw
 */
export function chartSpecification(chart: Chart, place: ChartPlace): Specification {
  switch (chart.kind) {
    case "price-list":
      throw new RangeError("chartSpecification: a price list is a table of the page, not a drawing");
    case "doses":
      return dosesSpecification(chart, place);
    case "trays-by-group":
      return traysByGroupSpecification(chart, place);
    case "curve":
      return curveSpecification(chart, place);
    case "breakdown":
      return breakdownSpecification(chart, place);
    case "intervals":
      return intervalsSpecification(chart, place);
    case "control-chart":
      return controlChartSpecification(chart, place);
    case "surface":
      return surfaceSpecification(chart, place);
    case "tornado":
      return tornadoSpecification(chart, place);
  }
}
