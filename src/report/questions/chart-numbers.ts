import type { Chart, Table, TableColumn } from "../../analysis.ts";

type Numbers = [columns: TableColumn[], rows: (string | number | undefined)[][]];

/** Columns and rows of each kind of chart. */
const numbersOf: { readonly [K in Chart["kind"]]: (chart: Extract<Chart, { kind: K }>) => Numbers } = {
  "price-list": (chart) => [
    [
      { label: "Product" },
      { label: "Now", unit: "money" },
      { label: "Break-even", unit: "money" },
      { label: "Ask", unit: "money" },
    ],
    chart.products.map(({ product, now, breakEven, ask }) => [product, now, breakEven, ask]),
  ],
  doses: (chart) => [
    [
      { label: "Dose", unit: chart.doseUnit },
      { label: "Trays", unit: "trays" },
      { label: "Lost", unit: "trays" },
      { label: "Mean", unit: chart.unit },
      { label: "From", unit: chart.unit },
      { label: "To", unit: chart.unit },
    ],
    chart.doses.map(({ dose, trays, lost, mean, low, high }) => [dose, trays, lost, mean, low, high]),
  ],
  "trays-by-group": (chart) => [
    [
      { label: chart.groupLabel },
      { label: "Mean", unit: chart.unit },
      { label: "From", unit: chart.unit },
      { label: "To", unit: chart.unit },
      { label: "n", unit: "factor" },
    ],
    chart.groups.map(({ group, mean, low, high, n }) => [group, mean, low, high, n]),
  ],
  curve: (chart) => [
    [
      { label: chart.xLabel, unit: chart.xUnit },
      { label: chart.yLabel, unit: chart.yUnit },
    ],
    chart.x.map((at, index) => [at, chart.y[index]]),
  ],
  breakdown: (chart) => [
    [{ label: "Part" }, { label: "Group" }, { label: chart.valueLabel, unit: chart.unit }],
    chart.parts.map(({ label, group, value }) => [label, group, value]),
  ],
  intervals: (chart) => [
    [
      { label: "Row" },
      { label: chart.valueLabel, unit: chart.unit },
      { label: "From", unit: chart.unit },
      { label: "To", unit: chart.unit },
    ],
    chart.rows.map(({ label, value, low, high }) => [label, value, low, high]),
  ],
  "control-chart": (chart) => [
    [
      { label: chart.orderLabel },
      { label: chart.valueLabel, unit: chart.unit },
      { label: "Centre", unit: chart.unit },
      { label: "Lower limit", unit: chart.unit },
      { label: "Upper limit", unit: chart.unit },
      { label: "Signal" },
    ],
    chart.points.map(({ label, value, centre, lower, upper, signal }) => [label, value, centre, lower, upper, signal]),
  ],
  surface: (chart) => [
    [
      { label: chart.xLabel, unit: chart.xUnit },
      { label: chart.yLabel, unit: chart.yUnit },
      { label: chart.valueLabel, unit: chart.unit },
    ],
    chart.values.flatMap((row, up) => row.map((value, along) => [chart.x[along], chart.y[up], value])),
  ],
  tornado: (chart) => [
    [
      { label: "Input" },
      { label: "At its low", unit: chart.unit },
      { label: "Low" },
      { label: "At its high", unit: chart.unit },
      { label: "High" },
    ],
    chart.rows.map(({ label, low, lowLabel, high, highLabel }) => [label, low, lowLabel, high, highLabel]),
  ],
};

/** The numbers of a chart as a table: its summary where it has one, otherwise its points. Numbers it lacks are left empty. */
export function chartNumbers(chart: Chart): Table {
  const [columns, rows] = (numbersOf[chart.kind] as (chart: Chart) => Numbers)(chart);
  return {
    caption: chart.title,
    columns,
    // what could not be drawn may be no number at all
    rows: rows.map((row) =>
      row.map((cell) => (cell === undefined || (typeof cell === "number" && Number.isNaN(cell)) ? null : cell)),
    ),
  };
}
