import type { Chart, Table } from "../../src/analysis.ts";
import type { ComparedTray, Interaction } from "../../src/decisions/verdict/index.ts";
import { inSentence, levelLabel } from "../comparison/level-text.ts";
import { type Crossed, rolesOf } from "./crossed.ts";
import type { TwoAmounts } from "./two-amounts.ts";

interface Cell {
  dose: string;
  other: string;
  trays: ComparedTray[];
}

const byName = new Intl.Collator("en", { numeric: true }).compare;

/** Trays of every combination, lowest dose first. */
function cellsOf({ trays }: Crossed): Cell[] {
  const cells = new Map<string, Cell>();
  for (const tray of trays) {
    const [dose, other] = [String(tray.level), String(tray.other)];
    const key = JSON.stringify([dose, other]);
    const cell = cells.get(key) ?? { dose, other, trays: [] };
    cells.set(key, cell);
    cell.trays.push(tray);
  }
  return [...cells.values()].sort((a, b) => byName(a.dose, b.dose) || byName(a.other, b.other));
}

/** Trays and mean of every combination, as they came. */
export function cellTable(crossed: Crossed): Table {
  const { dose, second } = crossed;
  const { factor } = dose.thing;
  return {
    caption: `Trays and means by dose and ${inSentence(second.factor.label)}`,
    columns: [
      { label: factor.label },
      { label: second.factor.label },
      { label: "finished", unit: "trays" },
      { label: "lost", unit: "trays" },
      { label: `mean ${dose.response.label}`, unit: dose.response.unit },
    ],
    rows: cellsOf(crossed).map(({ dose: level, other, trays }) => {
      const good = trays.flatMap(({ value, pooled = 1 }) => (value === "lost" ? [] : [{ value, pooled }]));
      const count = good.reduce((sum, { pooled }) => sum + pooled, 0);
      const started = trays.reduce((sum, { pooled = 1 }) => sum + pooled, 0);
      return [
        levelLabel(factor, level),
        levelLabel(second.factor, other),
        started,
        started - count,
        count === 0 ? null : good.reduce((sum, { value, pooled }) => sum + (value * pooled) / count, 0),
      ];
    }),
    note: "Means of the trays as they came.",
  };
}

/** What one thing did at each level of the other; with a word each where they are settled to depend on one another. */
export function apartTable(crossed: Crossed, interaction: Interaction): Table {
  const { ends, at } = rolesOf(crossed, interaction);
  const { unit } = crossed.dose.response;
  const [to, from] = [interaction.to, interaction.from].map((level) => levelLabel(ends, String(level)));
  const rows =
    interaction.apart.length > 0
      ? interaction.apart.map(({ at: level, decision: { difference, verdict } }) => [
          levelLabel(at, String(level)),
          difference?.estimate ?? null,
          difference?.interval?.lower ?? null,
          difference?.interval?.upper ?? null,
          verdict === "cannot-tell" ? "cannot tell" : verdict,
        ])
      : interaction.differences.map(({ at: level, estimate }) => [
          levelLabel(at, String(level)),
          estimate,
          null,
          null,
          "",
        ]);
  return {
    caption: `${to} less ${from}, by ${inSentence(at.label)}`,
    columns: [
      { label: at.label },
      { label: "difference", unit },
      { label: "from", unit },
      { label: "to", unit },
      { label: "how sure" },
    ],
    rows,
    note:
      interaction.apart.length > 0
        ? "Each is judged on the trays of its level alone."
        : "Over the cooks that had every combination. No level is judged alone until the two are shown to depend on one another.",
  };
}

/** Every tray as a mark, by combination. */
export function cellChart(crossed: Crossed): Chart {
  const { dose, second } = crossed;
  const { response, gathered } = dose;
  const cells = cellsOf(crossed);
  const nameOf = ({ dose: level, other }: Cell) =>
    `${levelLabel(dose.thing.factor, level)}, ${levelLabel(second.factor, other)}`;
  return {
    kind: "trays-by-group",
    title: `${response.label.charAt(0).toUpperCase()}${response.label.slice(1)} by dose and ${inSentence(second.factor.label)}`,
    description: `Each mark is one tray. ${cells.map((cell) => `${nameOf(cell)}: ${cell.trays.length} trays`).join("; ")}.`,
    groupLabel: `Dose and ${inSentence(second.factor.label)}`,
    valueLabel: response.label,
    unit: response.unit,
    points: cells.flatMap((cell) =>
      cell.trays.flatMap(({ value, row }) => {
        const { trayId, batch } = gathered.byRow[row]!;
        return value === "lost"
          ? []
          : [{ group: nameOf(cell), value, tray: trayId, ...(batch === undefined ? {} : { series: batch }) }];
      }),
    ),
    groups: [],
    seriesLabel: "Cook",
  };
}

/** The fitted surface over both amounts: a picture, not a test. */
export function surfaceChart(fitted: TwoAmounts, { dose, second }: Crossed): Chart {
  const { grid, tried, stationary, best, says } = fitted;
  const { response } = dose;
  const first = dose.thing.factor;
  const mark = stationary ?? best;
  return {
    kind: "surface",
    title: `${response.label.charAt(0).toUpperCase()}${response.label.slice(1)} over dose and ${inSentence(second.factor.label)}`,
    description: `A smooth surface through the trays: ${says}. It is highest at ${mark.dose.toPrecision(3)} ${first.unit} with ${mark.amount.toPrecision(3)} ${second.factor.unit}: ${mark.value.toPrecision(3)} ${response.unit}.`,
    xLabel: first.label,
    xUnit: first.unit,
    yLabel: second.factor.label,
    yUnit: second.factor.unit,
    valueLabel: response.label,
    unit: response.unit,
    x: grid.doses,
    y: grid.amounts,
    values: grid.values,
    tried: tried.map(({ dose: x, amount: y, trays }) => ({ x, y, trays })),
    marks: [
      {
        x: mark.dose,
        y: mark.amount,
        label: stationary === undefined ? "best of what was tried" : "highest point",
      },
    ],
  };
}
