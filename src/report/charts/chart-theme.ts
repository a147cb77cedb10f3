import type { TopLevelSpec } from "vega-lite";
import type { NumberSettings } from "../format-quantity.ts";
import { knownLocale } from "../write-number.ts";
import { chartColours } from "./chart-palette.ts";

/** width of every chart in its own units; pages scale it */
export const chartWidth = 440;
export const chartFontSize = 13;

/** The number format of a locale in the words of d3. */
function numberFormat(locale: string) {
  const parts = new Intl.NumberFormat(knownLocale(locale)).formatToParts(-12345678.5);
  const part = (type: string, otherwise: string) => parts.find((each) => each.type === type)?.value ?? otherwise;
  const currency: [string, string] = ["", ""];
  return { decimal: part("decimal", "."), thousands: part("group", ""), grouping: [3], currency, minus: "−" };
}

/** What all charts share: size, ground, type, colours and number format. */
export function chartFrame(settings: NumberSettings, height: number) {
  const { ink, quiet, grid, ground } = chartColours;
  return {
    width: chartWidth,
    height,
    padding: 10,
    background: ground,
    autosize: { type: "fit", contains: "padding", resize: false },
    config: {
      aria: false,
      font: "sans-serif",
      locale: { number: numberFormat(settings.locale) },
      view: { stroke: null },
      axis: {
        labelFontSize: chartFontSize,
        titleFontSize: chartFontSize,
        titleFontWeight: "normal",
        labelColor: quiet,
        titleColor: ink,
        gridColor: grid,
        domainColor: quiet,
        tickColor: quiet,
        labelLimit: 0,
        titleLimit: 0,
        titlePadding: 8,
        tickCount: 5,
        titleLineHeight: chartFontSize + 4,
        labelLineHeight: chartFontSize + 3,
      },
      axisX: { labelAngle: 0 },
      axisQuantitative: { domain: false, ticks: false, labelPadding: 6 },
      legend: {
        orient: "bottom",
        direction: "horizontal",
        labelFontSize: chartFontSize,
        titleFontSize: chartFontSize,
        titleFontWeight: "normal",
        labelColor: ink,
        titleColor: quiet,
        labelLimit: 0,
        symbolSize: 90,
        symbolStrokeWidth: 2,
        rowPadding: 4,
        columnPadding: 14,
        offset: 12,
      },
      title: {
        aria: false,
        anchor: "start",
        frame: "bounds",
        fontSize: chartFontSize,
        fontWeight: "normal",
        color: ink,
        offset: 8,
        limit: 0,
        lineHeight: chartFontSize + 4,
      },
      text: { fontSize: chartFontSize, color: ink },
    },
  } satisfies Partial<TopLevelSpec>;
}

/**
 * Columns a legend can have before its labels run out of the chart.
 * @param widest pixels of its widest label; @param taken pixels to the left of the plot, where no legend stands
 */
export function legendColumns(widest: number, labels: number, taken = 0): number {
  return Math.max(1, Math.min(labels, Math.floor((chartWidth - 50 - taken) / (widest + 36))));
}
