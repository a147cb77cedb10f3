import type { Chart, Table } from "../../src/analysis.ts";
import { doseFactor, type Factor } from "../../src/design/factor.ts";
import { inSentence, levelLabel } from "../comparison/level-text.ts";
import type { Interaction } from "./interaction.ts";
import type { TwoAmounts } from "./two-amounts.ts";

/** Trays and mean of every cell. */
export function cellTable({ grid, cellMean }: Interaction, second: Factor, unit: string): Table {
  const cells = grid.doses.flatMap((dose, row) =>
    grid.others.map((other, column) => {
      const { estimate, low, high } = cellMean(dose, other);
      return [levelLabel(doseFactor, dose), levelLabel(second, other), grid.counts[row]![column]!, estimate, low, high];
    }),
  );
  return {
    caption: `Means by dose and ${inSentence(second.label)}`,
    columns: [
      { label: doseFactor.label },
      { label: second.label },
      { label: "trays", unit: "trays" },
      { label: "mean", unit },
      { label: "from", unit },
      { label: "to", unit },
    ],
    rows: cells,
    note: "Means as a trial with every cell equally filled would have shown them.",
  };
}

/** Every two doses with every two levels of the other. */
export function contrastTable({ contrasts }: Interaction, second: Factor, unit: string): Table {
  return {
    caption: `How much ${inSentence(second.label)} changes what a dose does`,
    columns: [
      { label: "dose" },
      { label: second.label },
      { label: "change of the dose's effect", unit },
      { label: "from", unit },
      { label: "to", unit },
      { label: "p", unit: "p" },
    ],
    rows: contrasts.map(({ fromDose, dose, fromOther, other, estimate, low, high, p }) => [
      `${levelLabel(doseFactor, dose)} against ${levelLabel(doseFactor, fromDose)}`,
      `${levelLabel(second, other)} against ${levelLabel(second, fromOther)}`,
      estimate,
      low,
      high,
      Math.min(1, p * contrasts.length),
    ]),
    note: "0 would mean that the dose does the same with both. Intervals and p allow for all rows at once.",
  };
}

/** The cells' means with their intervals. */
export function cellChart({ grid, cellMean }: Interaction, second: Factor, response: string, unit: string): Chart {
  const rows = grid.doses.flatMap((dose) =>
    grid.others.map((other) => {
      const { estimate, low, high } = cellMean(dose, other);
      return { label: `${levelLabel(doseFactor, dose)}, ${levelLabel(second, other)}`, value: estimate, low, high };
    }),
  );
  return {
    kind: "intervals",
    title: `${response.charAt(0).toUpperCase()}${response.slice(1)} by dose and ${inSentence(second.label)}`,
    description: rows.map(({ label, value }) => `${label}: ${value.toPrecision(3)} ${unit}`).join("; "),
    unit,
    valueLabel: response,
    rows,
  };
}

/** The fitted surface over both amounts. */
export function surfaceChart(fitted: TwoAmounts, second: Factor, response: string, unit: string): Chart {
  const { grid, tried, stationary, best } = fitted;
  const peak = stationary?.inside === true && fitted.surface.canonical.shape === "maximum" ? stationary : undefined;
  const mark = peak ?? best;
  return {
    kind: "surface",
    title: `${response.charAt(0).toUpperCase()}${response.slice(1)} over dose and ${inSentence(second.label)}`,
    description: `The surface is highest at ${mark.dose.toPrecision(3)} ${doseFactor.unit} with ${mark.amount.toPrecision(3)} ${second.unit}: ${mark.value.toPrecision(3)} ${unit}. ${fitted.surface.canonical.says}.`,
    xLabel: doseFactor.label,
    xUnit: doseFactor.unit,
    yLabel: second.label,
    yUnit: second.unit,
    valueLabel: response,
    unit,
    x: grid.doses,
    y: grid.amounts,
    values: grid.values,
    tried: tried.map(({ dose, amount, trays }) => ({ x: dose, y: amount, trays })),
    marks: [{ x: mark.dose, y: mark.amount, label: peak === undefined ? "best of what was tried" : "highest point" }],
  };
}

/** The terms of a response surface. */
export function surfaceTable({ surface }: TwoAmounts, second: Factor, unit: string): Table {
  const labels: Record<string, string> = {
    b0: "level in the middle",
    b1: "dose",
    b2: inSentence(second.label),
    b11: "dose, bend",
    b22: `${inSentence(second.label)}, bend`,
    b12: "dose times the other",
  };
  return {
    caption: "Second-order response surface, both amounts coded from -1 (least tried) to 1 (most tried)",
    columns: [
      { label: "term" },
      { label: "estimate", unit },
      { label: "from", unit },
      { label: "to", unit },
      { label: "p", unit: "p" },
    ],
    rows: surface.terms.map(({ name, estimate, low, high, p }) => [labels[name]!, estimate, low, high, p]),
    note: `Canonical analysis: bends of ${surface.canonical.axes
      .map(({ eigenvalue, flat }) => `${eigenvalue.toPrecision(3)}${flat ? " (flat within its interval)" : ""}`)
      .join(" and ")} along the surface's own axes.`,
  };
}
