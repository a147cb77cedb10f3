import type { Chart } from "../../analysis.ts";
import { axesOnce } from "./axes-once.ts";
import { type ChartPlace, plotWidths } from "./chart-place.ts";
import { chartSpecification } from "./chart-specification.ts";
import { letterWidth } from "./letter-width.ts";
import { type ScenePart, type TrayMark, trayMarks } from "./tray-marks.ts";

/** A chart as SVG whose colours are names of the page, or why it could not be drawn. */
export type Drawing =
  | { kind: "drawn"; svg: string; width: number; height: number; notes: string[]; marks?: TrayMark[] }
  | { kind: "not-drawn"; reason: string };

/** A chart drawn for the widths its question needs: both where it is open in full, the narrow one elsewhere. */
export interface DrawnChart {
  narrow: Drawing;
  wide?: Drawing;
}

declare module "vega" {
  /** the measure of text, which the library's own types leave out */
  export const textMetrics: { width: (item: { fontSize?: number }, text: unknown) => number };
}

/** Collects what the drawing library complains of instead of printing it. */
class Complaints {
  readonly errors: string[] = [];
  level(): this;
  level(level: number): this;
  level(): this {
    return this;
  }
  error(...messages: unknown[]): this {
    this.errors.push(messages.map(String).join(" "));
    return this;
  }
  warn(): this {
    return this;
  }
  info(): this {
    return this;
  }
  debug(): this {
    return this;
  }
}

/** The size an SVG states of itself. @throws RangeError if it states none */
function statedSize(svg: string): { width: number; height: number } {
  const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg) ?? [];
  if (width === undefined || height === undefined) throw new RangeError("statedSize: the drawing states no size");
  return { width: Number(width), height: Number(height) };
}

/** The same drawing with tenths of a pixel, no more; what it says in letters stays. */
const shortened = (svg: string): string => svg.replace(/<[^>]*>/g, (tag) => tag.replace(/(\d+\.\d)\d+/g, "$1"));

/**
 * Draws a chart as SVG without a canvas and without running code made from text. The drawing library is loaded
 * on first use. Draw one chart after the other: the library numbers its parts from a counter that is reset here.
 * @param withMarks whether to say where each tray's mark stands
 */
export async function drawChart(chart: Chart, place: ChartPlace, withMarks = false): Promise<Drawing> {
  const { compile, expressionInterpreter, parse, resetSVGDefIds, textMetrics, View } = await import(
    "./drawing-library.ts"
  );
  // its own measure needs a canvas, and takes all letters for wide without one
  textMetrics.width = ({ fontSize = 11 }, text) => letterWidth(String(text ?? ""), fontSize);
  try {
    const { spec, notes } = chartSpecification(chart, place);
    const logger = new Complaints();
    const compiled = compile(axesOnce(spec), { logger });
    resetSVGDefIds();
    const view = new View(parse(compiled.spec, undefined, { ast: true }), {
      renderer: "none",
      logger,
      expr: expressionInterpreter,
    });
    const svg = await view.toSVG();
    const marks = withMarks ? trayMarks((view.scenegraph() as unknown as { root: ScenePart }).root, svg) : undefined;
    view.finalize();
    if (logger.errors.length > 0) return { kind: "not-drawn", reason: logger.errors.join("; ") };
    return {
      kind: "drawn",
      svg: shortened(svg),
      ...statedSize(svg),
      notes,
      ...(marks === undefined ? {} : { marks }),
    };
  } catch (error) {
    return { kind: "not-drawn", reason: error instanceof Error ? error.message : String(error) };
  }
}

/** A chart for every width its question needs. @param isFull whether the question is open in full */
export async function drawForPage(
  chart: Chart,
  place: Omit<ChartPlace, "width">,
  isFull: boolean,
  withMarks = false,
): Promise<DrawnChart> {
  const narrow = await drawChart(chart, { ...place, width: plotWidths.narrow }, withMarks);
  return isFull
    ? { narrow, wide: await drawChart(chart, { ...place, width: plotWidths.wide }, withMarks) }
    : { narrow };
}
