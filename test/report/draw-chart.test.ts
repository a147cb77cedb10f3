import { describe, expect, test } from "vitest";
import type { Chart, CurveChart, IntervalsChart, TraysByGroupChart } from "../../src/analysis.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { tints } from "../../src/report/charts/chart-palette.ts";
import type { ChartPlace } from "../../src/report/charts/chart-place.ts";
import { chartSpecification } from "../../src/report/charts/chart-specification.ts";
import { drawChart } from "../../src/report/charts/draw-chart.ts";
import { chartNumbers } from "../../src/report/questions/chart-numbers.ts";
import { hostileAnswers } from "./hostile.ts";
import { sampleCharts, wave } from "./sample-answers.ts";

const place: ChartPlace = { settings: defaultSettings, width: 560, doses: [4, 6, 8, 10] };

async function svgOf(chart: Chart, settings = defaultSettings, width = 560): Promise<string> {
  const drawing = await drawChart(chart, { ...place, settings, width });
  if (drawing.kind !== "drawn") throw new Error(`not drawn: ${drawing.reason}`);
  expect(drawing.width).toBe(width);
  return drawing.svg;
}

const groups = sampleCharts["trays-by-group"] as TraysByGroupChart;
const count = (svg: string, mark: RegExp) => (svg.match(mark) ?? []).length;

describe.each(Object.entries(sampleCharts))("%s", (_, chart: Chart) => {
  test("is drawn, twice alike, with no number that is none", async () => {
    const first = await svgOf(chart);
    expect(first).toBe(await svgOf(chart));
    expect(first).not.toMatch(/NaN|undefined|Infinity|null/);
  });
  test("its specification is plain data", () => {
    const { spec } = chartSpecification(chart, place);
    expect(JSON.parse(JSON.stringify(spec))).toEqual(spec);
  });
  test("its numbers can stand in a table", () => {
    const { columns, rows } = chartNumbers(chart);
    expect(rows.length).toBeGreaterThan(0);
    expect(rows.every((row) => row.length === columns.length)).toBe(true);
  });
});

test("shares over cooks start at 0, and what never changes has an axis of round numbers", async () => {
  const flat = (unit: string, value: number): Chart => ({
    kind: "control-chart",
    title: "t",
    description: "d",
    unit,
    valueLabel: "lost",
    orderLabel: "cook",
    points: [1, 2, 3].map((order) => ({ order, label: `C${order}`, value, centre: value })),
  });
  const ticks = (svg: string) =>
    [...svg.matchAll(/<text[^>]*>([\d.,]+)<\/text>/g)].map(([, text]) => Number(text)).filter((tick) => tick !== 1);
  for (const chart of [flat("share", 1), flat("factor", 9)]) expect(await svgOf(chart)).not.toMatch(/>\d+\.\d{3,}</);
  expect(Math.min(...ticks(await svgOf(flat("share", 0.2))))).toBe(0);
});

test("doses: what is never below 0 has no axis below it, and money may", async () => {
  const doses = (low: number): Chart => ({
    kind: "doses",
    title: "t",
    description: "d",
    valueLabel: "left",
    unit: "money",
    doseUnit: "mL",
    doses: [
      { dose: 4, mean: 24, low: 22, high: 26, trays: 8, lost: 1 },
      { dose: 8, mean: 28, low: 26, high: 30, trays: 8, lost: 0 },
    ],
    curve: { x: [2, 4, 8, 12], y: [20, 24, 28, 29], low: [low, 22, 26, 10], high: [30, 26, 30, 40] },
  });
  expect(await svgOf(doses(0))).not.toMatch(/>−\d/);
  expect(await svgOf(doses(-20))).toMatch(/>−\d/);
  // as many as were lost, in the same words for one and for none
  expect(await svgOf(doses(0))).toContain("1 lost");
});

test("every tray is a mark", async () => {
  const svg = await svgOf({ ...groups, points: groups.points.map(({ series: _, ...point }) => point) });
  // 60 trays; the four means are drawn in ink
  expect(count(svg, /<path aria-label="pick [^>]*>/g)).toBe(60);
  expect(count(svg, /<path [^>]*stroke="var\(--ink\)" stroke-width="2.5"/g)).toBe(4);
});

test("a surface: bands from the palest to the deepest, a ring for every pair tried, and its best named", async () => {
  const chart = sampleCharts.surface;
  const svg = await svgOf(chart);
  for (const colour of tints) expect(svg).toContain(`fill="${colour}" stroke=`);
  expect(count(svg, /<path [^>]*fill="var\(--ground\)"[^>]*stroke="var\(--ink\)"/g)).toBe(9);
  expect(svg).toContain("highest point");
  const flat = await svgOf({ ...chart, values: chart.values.map((row) => row.map(() => 20)) });
  expect(flat).toContain(`fill="${tints[0]}" stroke=`);
  expect(flat).not.toContain(`fill="${tints[1]}" stroke=`);
  const drawing = await drawChart({ ...chart, x: [3] }, place);
  expect(drawing).toEqual({ kind: "not-drawn", reason: expect.stringContaining("two places") });
});

test("an interval far longer than the others is cut at the end of the axis, and said", () => {
  const rows = [
    { label: "3 mL", value: 0.5, low: 0.4, high: 0.6 },
    { label: "6 mL", value: 0.52, low: 0.4, high: 0.65 },
    { label: "9 mL", value: 0.55, low: 0.3, high: 20.6 },
  ];
  const { spec, notes } = chartSpecification({ ...(sampleCharts.intervals as IntervalsChart), unit: "g", rows }, place);
  expect(JSON.stringify(spec)).toContain('"low":0.4,"high":0.65');
  expect(JSON.stringify(spec)).not.toContain("20.6");
  expect(notes[0]).toBe("9 mL goes on: 0.3 to 21\u00a0g.");
});

test("axes are written in the reader's units and number format", async () => {
  const us = await svgOf(groups, { ...defaultSettings, displayUnits: "us" });
  expect(us).toContain("Dry weight (oz)");
  const curve = sampleCharts.curve as CurveChart;
  expect(await svgOf(curve, { ...defaultSettings, displayUnits: "us" })).toContain("Inoculum (mL)");
  const german = await svgOf(sampleCharts["breakdown-groups"], { ...defaultSettings, locale: "de-DE" });
  expect(german).toContain(">0,5<");
});

test("many points are thinned, and it is said", async () => {
  const points = Array.from({ length: 20_000 }, (_, index) => ({
    group: `${index % 4}`,
    value: wave(index),
    tray: `${index}`,
  }));
  const chart: Chart = {
    ...groups,
    points,
    groups: ["0", "1", "2", "3"].map((group) => ({ group, mean: 0, n: 5000 })),
  };
  const drawing = await drawChart(chart, place);
  if (drawing.kind !== "drawn") throw new Error(drawing.reason);
  expect(drawing.svg.length).toBeLessThan(200_000);
  expect(drawing.notes.join(" ")).toContain("600 of 20,000 trays are drawn");
});

test("long names and many groups lie on their side", async () => {
  const names = Array.from({ length: 9 }, (_, index) => `A rather long name of supplement ${index + 1}`);
  const svg = await svgOf({
    ...groups,
    points: names.map((group, index) => ({ group, value: index, tray: "t" })),
    groups: names.map((group, index) => ({ group, mean: index, low: index - 1, high: index + 1, n: 1 })),
  });
  expect(svg).toContain("<tspan>A rather long name</tspan>");
});

test("hostile names are drawn as text", async () => {
  for (const chart of hostileAnswers().flatMap(({ outcome }) => outcome.charts)) {
    const svg = await svgOf(chart);
    expect(svg).not.toMatch(/<script|<img|<b>|<!|href/i);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: what XML cannot hold is what is looked for
    expect(svg).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/);
  }
});

describe("what cannot be drawn is said", () => {
  test("a number that is none", async () => {
    const drawing = await drawChart({ ...groups, groups: [{ group: "4 mL", mean: Number.NaN, n: 1 }] }, place);
    expect(drawing).toEqual({ kind: "not-drawn", reason: expect.stringContaining("finite") });
  });
  test("nothing to draw", async () => {
    const drawing = await drawChart({ ...groups, groups: [], points: [] }, place);
    expect(drawing).toEqual({ kind: "not-drawn", reason: expect.stringContaining("at least one") });
  });
});

describe("thin data are still drawn", () => {
  const single: Chart[] = [
    { ...groups, points: [{ group: "a", value: 3, tray: "t" }], groups: [{ group: "a", mean: 3, n: 1 }] },
    { ...(sampleCharts.curve as CurveChart), x: [4], y: [3] },
    { ...sampleCharts.breakdown, parts: [{ label: "all", value: 0 }] },
    { ...sampleCharts.intervals, rows: [{ label: "a", value: 0, low: 0, high: 0 }] },
    { ...sampleCharts["control-chart"], points: [{ order: 1, label: "a", value: 0, centre: 0 }] },
    { ...sampleCharts.tornado, centre: 0, rows: [{ label: "a", low: 0, high: 0, lowLabel: "l", highLabel: "h" }] },
  ];
  test.each(single.map((chart) => [chart.kind, chart] as const))("%s", async (_, chart) => {
    expect(await svgOf(chart)).not.toMatch(/NaN|undefined|Infinity/);
  });
});
