import type { Chart, Table, TableColumn } from "../../analysis.ts";

/** The numbers of a chart as a table: its summary where it has one, otherwise its points. Numbers it lacks are left empty. */
export function chartNumbers(chart: Chart): Table {
  const table = (columns: TableColumn[], rows: (string | number | undefined)[][]): Table => ({
    caption: chart.title,
    columns,
    // what could not be drawn may be no number at all
    rows: rows.map((row) =>
      row.map((cell) => (cell === undefined || (typeof cell === "number" && Number.isNaN(cell)) ? null : cell)),
    ),
  });
  switch (chart.kind) {
    case "price-list":
      return table(
        [
          { label: "Product" },
          { label: "Now", unit: "money" },
          { label: "Break-even", unit: "money" },
          { label: "Ask", unit: "money" },
        ],
        chart.products.map(({ product, now, breakEven, ask }) => [product, now, breakEven, ask]),
      );
    case "doses": {
      const { unit, doseUnit } = chart;
      return table(
        [
          { label: "Dose", unit: doseUnit },
          { label: "Trays", unit: "trays" },
          { label: "Lost", unit: "trays" },
          { label: "Mean", unit },
          { label: "From", unit },
          { label: "To", unit },
        ],
        chart.doses.map(({ dose, trays, lost, mean, low, high }) => [dose, trays, lost, mean, low, high]),
      );
    }
    case "trays-by-group": {
      const { unit } = chart;
      return table(
        [
          { label: chart.groupLabel },
          { label: "Mean", unit },
          { label: "From", unit },
          { label: "To", unit },
          { label: "n", unit: "factor" },
        ],
        chart.groups.map(({ group, mean, low, high, n }) => [group, mean, low, high, n]),
      );
    }
    case "curve":
      return table(
        [
          { label: "Curve" },
          { label: chart.xLabel, unit: chart.xUnit },
          { label: chart.yLabel, unit: chart.yUnit },
          { label: "From", unit: chart.yUnit },
          { label: "To", unit: chart.yUnit },
        ],
        chart.curves.flatMap(({ name, x, y, low, high }) =>
          x.map((at, index) => [name, at, y[index], low?.[index], high?.[index]]),
        ),
      );
    case "breakdown":
      return table(
        [{ label: "Part" }, { label: "Group" }, { label: chart.valueLabel, unit: chart.unit }],
        chart.parts.map(({ label, group, value }) => [label, group, value]),
      );
    case "intervals":
      return table(
        [
          { label: "Row" },
          { label: chart.valueLabel, unit: chart.unit },
          { label: "From", unit: chart.unit },
          { label: "To", unit: chart.unit },
        ],
        chart.rows.map(({ label, value, low, high }) => [label, value, low, high]),
      );
    case "control-chart":
      return table(
        [
          { label: chart.orderLabel },
          { label: chart.valueLabel, unit: chart.unit },
          { label: "Centre", unit: chart.unit },
          { label: "Lower limit", unit: chart.unit },
          { label: "Upper limit", unit: chart.unit },
          { label: "Signal" },
        ],
        chart.points.map(({ label, value, centre, lower, upper, signal }) => [
          label,
          value,
          centre,
          lower,
          upper,
          signal,
        ]),
      );
    case "waiting":
      return table(
        [{ label: "Group" }, { label: chart.timeLabel, unit: "days" }, { label: "Still waiting", unit: "share" }],
        chart.groups.flatMap(({ group, days, share }) => days.map((day, index) => [group, day, share[index]])),
      );
    case "surface":
      return table(
        [
          { label: chart.xLabel, unit: chart.xUnit },
          { label: chart.yLabel, unit: chart.yUnit },
          { label: chart.valueLabel, unit: chart.unit },
        ],
        chart.values.flatMap((row, up) => row.map((value, along) => [chart.x[along], chart.y[up], value])),
      );
    case "tornado":
      return table(
        [
          { label: "Input" },
          { label: "At its low", unit: chart.unit },
          { label: "Low" },
          { label: "At its high", unit: chart.unit },
          { label: "High" },
        ],
        chart.rows.map(({ label, low, lowLabel, high, highLabel }) => [label, low, lowLabel, high, highLabel]),
      );
  }
}
