import { chamberRuns } from "../../../analyses/temperature/chamber-runs.ts";
import type { Chart } from "../../analysis.ts";
import type { Book } from "../../records/book.ts";
import { visibleText } from "../../report/visible-text.ts";

/** The points of a chart that stand for trays, each with the group a reader can ask for. */
function pointsOf(chart: Chart): { group: string; name: string }[] {
  if (chart.kind === "trays-by-group") return chart.points.map(({ group, tray }) => ({ group, name: tray }));
  if (chart.kind === "doses")
    return chart.doses.flatMap(({ dose, points = [] }) =>
      points.map(({ tray }) => ({ group: String(dose), name: tray })),
    );
  return [];
}

/** The trays that a point's name stands for: the tray, or those of a chamber run. */
export function traysNamed(chart: Chart, names: ReadonlySet<string>, { trays }: Book): string[] {
  if (chart.kind !== "trays-by-group" || chart.pointName === undefined) return [...names];
  return chamberRuns(trays)
    .filter(({ name }) => names.has(name))
    .flatMap((run) => run.trays.map(({ trayId }) => trayId));
}

/** The trays of one group of a chart. */
export function traysOfGroup(chart: Chart, group: string, book: Book): string[] {
  const names = pointsOf(chart).filter((point) => point.group === group);
  return traysNamed(chart, new Set(names.map(({ name }) => name)), book);
}

/** The point that a mark of a drawing stands for; a drawing names it as it is shown. */
export const pointNamed = (chart: Chart, shown: string): { group: string; name: string } | undefined =>
  pointsOf(chart).find(({ name }) => visibleText(name, 40) === shown);
