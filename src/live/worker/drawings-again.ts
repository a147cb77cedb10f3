import type { Chart } from "../../analysis.ts";
import type { Settings } from "../../records/setting.ts";
import { type Drawing, drawChart } from "../../report/charts/draw-chart.ts";

/** drawings kept of one question */
const mostKept = 24;

/** Draws the charts of answers; a chart that says just what an earlier one of its question said is not drawn anew. */
export class DrawingsAgain {
  private readonly kept = new Map<string, Map<string, Drawing>>();

  /** A question's charts drawn, with the places of their marks. */
  async draw(question: string, charts: ReadonlyArray<Chart>, settings: Settings): Promise<Drawing[]> {
    const known = this.kept.get(question) ?? new Map<string, Drawing>();
    this.kept.set(question, known);
    const { locale, displayUnits, currency, currencyDecimals } = settings;
    const drawings: Drawing[] = [];
    for (const chart of charts) {
      const name = JSON.stringify([chart, locale, displayUnits, currency, currencyDecimals]);
      const drawing = known.get(name) ?? (await drawChart(chart, settings, true));
      // the one used last is let go last
      known.delete(name);
      known.set(name, drawing);
      drawings.push(drawing);
    }
    for (const name of [...known.keys()].slice(0, -mostKept)) known.delete(name);
    return drawings;
  }
}
