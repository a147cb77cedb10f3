import type { TopLevelSpec } from "vega-lite";
import { knownLocale } from "../write-number.ts";
import { chartColours } from "./chart-palette.ts";
import type { ChartPlace } from "./chart-place.ts";

export const chartFontSize = 13;

/** The number format of a locale in the words of d3. */
function numberFormat(locale: string) {
  const parts = new Intl.NumberFormat(knownLocale(locale)).formatToParts(-12345678.5);
  const part = (type: string, otherwise: string) => parts.find((each) => each.type === type)?.value ?? otherwise;
  const currency: [string, string] = ["", ""];
  return { decimal: part("decimal", "."), thousands: part("group", ""), grouping: [3], currency, minus: "−" };
}

/** What all charts share: size, ground, type, colours and number format. The value axis has its title above, lying. */
export function chartFrame({ settings, width }: ChartPlace, height: number) {
  const { ink, quiet, grid } = chartColours;
  return {
    width,
    height,
    padding: { left: 2, right: 4, top: 4, bottom: 4 },
    background: "transparent",
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
        titleColor: quiet,
        gridColor: grid,
        domainColor: quiet,
        tickColor: quiet,
        labelLimit: 0,
        titleLimit: 0,
        titlePadding: 6,
        tickCount: 4,
        titleLineHeight: chartFontSize + 4,
        labelLineHeight: chartFontSize + 4,
        labelOverlap: "greedy",
      },
      axisX: { labelAngle: 0 },
      axisQuantitative: { domain: false, ticks: false, labelPadding: 6 },
      title: {
        aria: false,
        anchor: "start",
        frame: "bounds",
        fontSize: chartFontSize,
        fontWeight: "normal",
        color: quiet,
        offset: 6,
        limit: 0,
        lineHeight: chartFontSize + 4,
      },
      text: { fontSize: chartFontSize, color: ink },
    },
  } satisfies Partial<TopLevelSpec>;
}

/** Text over a halo of the ground's colour, which stays readable on points and lines: the two marks to draw. */
export const haloed = <Mark extends object>(mark: Mark) =>
  [{ stroke: chartColours.ground, strokeWidth: 4, strokeJoin: "round" as const, color: chartColours.ground }, {}].map(
    (halo) => ({ type: "text" as const, ...mark, ...halo }),
  );
