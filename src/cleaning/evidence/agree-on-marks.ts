import type { Settings } from "../../records/setting.ts";
import type { ColumnPlan } from "../columns/column-plan.ts";
import type { TableEvidence } from "./table-evidence.ts";

const ofCounts = (points: number, commas: number): "" | "." | "," =>
  points > 0 === commas > 0 ? "" : points > 0 ? "." : ",";

/**
 * The decimal mark of every column of numbers: as the settings say, else as the column's own cells show, else as the
 * whole sheet's do, else a point under a canonical header; "" where cells show both or none.
 */
export function agreeOnMarks(plans: ReadonlyArray<ColumnPlan>, evidence: TableEvidence, settings: Settings): void {
  let points = 0;
  let commas = 0;
  for (const column of evidence.quantities.values()) {
    points += column.points;
    commas += column.commas;
  }
  const sheet = ofCounts(points, commas);
  for (const { index, conventions, canonical } of plans) {
    const column = evidence.quantities.get(index);
    if (column === undefined) continue;
    if (settings.decimalMark !== "") conventions.decimalMark = settings.decimalMark === "point" ? "." : ",";
    else if (column.points + column.commas > 0) conventions.decimalMark = ofCounts(column.points, column.commas);
    else conventions.decimalMark = sheet || (canonical && commas === 0 ? "." : "");
  }
}
