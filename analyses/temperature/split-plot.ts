import type { Chart, Sentence, Table } from "../../src/analysis.ts";
import { doseFactor, fruitingFactor } from "../../src/design/factor.ts";
import type { TermF } from "../comparison/fit-terms.ts";
import { levelLabel, levelPart } from "../comparison/level-text.ts";
import type { Observation, TrayResponse } from "../comparison/tray-response.ts";
import { crossedGrid, type Interaction, interactionOf } from "../supplement/interaction.ts";
import { cellChart, cellTable, contrastTable } from "../supplement/interaction-tables.ts";
import type { ChamberRun } from "./chamber-runs.ts";

/** Doses given to trays inside chamber runs that each had one temperature. */
export interface SplitPlot {
  interaction: Interaction;
  /** whole plots */
  runs: number;
  temperature: TermF;
  dose: TermF;
}

const leastPerCell = 2;

function traysOfRuns(runs: ReadonlyArray<ChamberRun>, response: TrayResponse, cooks: boolean): Observation[] {
  return runs.flatMap((run, index) =>
    run.trays.flatMap((tray): Observation[] => {
      const [value, arm] = [response.of(tray), doseFactor.level(tray)];
      if (value === undefined || arm === undefined || tray.traysInPool > 1) return [];
      const groups = [...(cooks ? [run.cook ?? ""] : []), `${index + 1}: ${run.name}`];
      return [{ tray: tray.trayId, arm, dose: tray.inoculumMillilitres, value, groups, source: tray }];
    }),
  );
}

/** Runs that held two doses or more: where a run held one, the dose was the run's, not the tray's. */
function runsWithDoses(observations: ReadonlyArray<Observation>): number {
  const doses = new Map<string, Set<string>>();
  for (const { groups, arm } of observations) {
    const run = groups.at(-1)!;
    doses.set(run, (doses.get(run) ?? new Set()).add(arm));
  }
  return [...doses.values()].filter((own) => own.size > 1).length;
}

/**
 * Temperature by chamber runs (whole plots) and dose by trays inside them (split plots), with their interaction: a mixed
 * model with cooks, where they were split over temperatures, and runs as random effects.
 * @param cooks cooks were split over temperatures
 * @returns undefined where trays hold no such trial: fewer than two doses at two temperatures, doses given to whole runs
 * @throws RangeError if the model cannot be fitted
 */
export function splitPlot(
  runs: ReadonlyArray<ChamberRun>,
  response: TrayResponse,
  cooks: boolean,
  level: number,
): SplitPlot | undefined {
  const observations = traysOfRuns(runs, response, cooks);
  const doses = [...new Set(observations.map(({ arm }) => arm))].sort((a, b) => Number(a) - Number(b));
  const grid = crossedGrid(observations, fruitingFactor, doses, leastPerCell);
  if (grid === undefined) return undefined;
  const held = new Set(grid.observations.map(({ groups }) => groups.at(-1)!)).size;
  if (held <= grid.others.length || runsWithDoses(grid.observations) * 2 < held) return undefined;
  const interaction = interactionOf(grid, [...(cooks ? ["cook"] : []), "chamber run"], level);
  if (interaction.fit.model !== "mixed model") {
    throw new RangeError("the runs leave nothing to judge temperature by");
  }
  const [dose, temperature] = [interaction.fit.test("dose"), interaction.fit.test("other")];
  if (dose === undefined || temperature === undefined) throw new RangeError("dose and temperature are tied together");
  return { interaction, runs: held, temperature, dose };
}

function varianceTable({ interaction, temperature, dose }: SplitPlot, response: string): Table {
  const row = (source: string, unit: string, { numeratorDf, denominatorDf, f, p }: TermF) => [
    source,
    unit,
    numeratorDf,
    denominatorDf,
    f,
    p,
  ];
  return {
    caption: `Split plot, ${response}: what is judged by chamber runs, and what by trays inside them`,
    columns: [
      { label: "source" },
      { label: "judged by" },
      { label: "degrees of freedom", unit: "factor" },
      { label: "degrees of freedom of its error", unit: "factor" },
      { label: "F", unit: "factor" },
      { label: "p", unit: "p" },
    ],
    rows: [
      row("temperature", "chamber runs", temperature),
      row("dose", "trays inside runs", dose),
      row("dose and temperature together", "trays inside runs", interaction.test),
    ],
  };
}

/** What the split plot says of dose and temperature together, in one sentence. */
function splitSentence({ interaction }: SplitPlot, unit: string, alpha: number): Sentence {
  const largest = interaction.contrasts.reduce((a, b) => (Math.abs(b.estimate) > Math.abs(a.estimate) ? b : a));
  const shown = interaction.test.p < alpha;
  return [
    shown
      ? " Dose does not do the same at every temperature: going from "
      : " Dose is not shown to do anything else at another temperature: going from ",
    levelPart(doseFactor, largest.fromDose, Number(largest.fromDose)),
    " to ",
    levelPart(doseFactor, largest.dose, Number(largest.dose)),
    " at ",
    levelPart(fruitingFactor, largest.other, Number(largest.other)),
    " instead of ",
    levelPart(fruitingFactor, largest.fromOther, Number(largest.fromOther)),
    " changes the gain by ",
    { value: largest.estimate, unit, signed: true },
    " (",
    { from: largest.low, to: largest.high, unit, signed: true },
    ").",
  ];
}

/** What a report needs of a split plot. */
export interface SplitPlotTold {
  sentence: Sentence;
  tables: Table[];
  charts: Chart[];
  method: Sentence[];
  caveats: Sentence[];
}

const nothingTold: SplitPlotTold = { sentence: [], tables: [], charts: [], method: [], caveats: [] };

/** Fits the split plot and puts it into words and tables; empty where the trays hold none, and why where it has no fit. */
export function tellSplitPlot(
  runs: ReadonlyArray<ChamberRun>,
  response: TrayResponse,
  cooks: boolean,
  settings: { intervalLevel: number; significanceLevel: number },
): SplitPlotTold {
  try {
    const fitted = splitPlot(runs, response, cooks, settings.intervalLevel);
    if (fitted === undefined) return nothingTold;
    const { interaction } = fitted;
    return {
      sentence: splitSentence(fitted, response.unit, settings.significanceLevel),
      tables: [
        varianceTable(fitted, response.label),
        cellTable(interaction, fruitingFactor, response.unit),
        contrastTable(interaction, fruitingFactor, response.unit),
      ],
      charts: [cellChart(interaction, fruitingFactor, response.label, response.unit)],
      method: [
        [
          `Doses were given to trays inside ${fitted.runs} chamber runs, so this is a split plot: temperature (${interaction.grid.others.map((level) => levelLabel(fruitingFactor, level)).join(", ")}) is judged by runs, dose and what it does at each temperature by trays inside them. `,
          ...interaction.fit.method,
        ],
      ],
      caveats: interaction.fit.notes,
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { ...nothingTold, caveats: [[`Dose inside temperature could not be judged (${error.message}).`]] };
  }
}
