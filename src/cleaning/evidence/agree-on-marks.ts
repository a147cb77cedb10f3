import type { ColumnPlan } from "../columns/column-plan.ts";
import type { TableEvidence } from "./table-evidence.ts";

const ofCounts = (points: number, commas: number): "" | "." | "," =>
  points > 0 === commas > 0 ? "" : points > 0 ? "." : ",";

/**
 * The decimal mark of every column of numbers of which the settings do not say it: as the column's own cells show, else as
 * the whole sheet's do, else a point under a canonical header; "" where cells show both or none.
 */
export function agreeOnMarks(plans: ReadonlyArray<ColumnPlan>, evidence: TableEvidence): void {
  let points = 0;
  let commas = 0;
  for (const column of evidence.quantities.values()) {
    points += column.points;
    commas += column.commas;
  }
  const sheet = ofCounts(points, commas);
  for (const { index, conventions, canonical } of plans) {
    const column = evidence.quantities.get(index);
    conventions.isAgreed = true;
    if (column !== undefined) conventions.commasPart = column.lists > 0;
    if (column === undefined || conventions.decimalMark !== "") continue;
    if (column.points + column.commas > 0) conventions.decimalMark = ofCounts(column.points, column.commas);
    else conventions.decimalMark = sheet || (canonical && commas === 0 ? "." : "");
  }
}
