import { harvestFields, isHarvestFieldKey } from "../records/harvest-field.ts";
import { type PlannedTrial, plannedTrialColumn, plannedTrialText } from "../records/planned-trial.ts";
import type { TrialPlan } from "./trial-plan.ts";

/**
 * A planned trial as a harvest sheet to be filled in: every canonical column, one row per tray in the order of the loads,
 * what is planned typed in, everything else empty; then columns of the grower's own that are varied; the last column says
 * which trial it is.
 * @param trial date, question and cooks of the plan
 * @param same what every tray has alike, by canonical column: container, strain
 * @returns header and rows of text
 * @throws RangeError if a shared value stands in no canonical column
 */
export function plannedRows(
  plan: TrialPlan,
  trial: PlannedTrial,
  same: Readonly<Record<string, string>> = {},
): string[][] {
  for (const key of Object.keys(same)) {
    if (!isHarvestFieldKey(key))
      throw new RangeError(`plannedRows: what trays have alike must stand in a canonical column; received ${key}`);
  }
  const own = new Set(plan.trays.flatMap(({ treatments }) => Object.keys(treatments)));
  const header = [...new Set<string>([...harvestFields.map(({ key }) => key), ...own])];
  const rows = plan.trays.map(({ trayId, cook, load, position, chamber, treatments }) => {
    const cells: Record<string, string> = {
      ...same,
      tray_id: trayId,
      batch: cook,
      load,
      load_position: String(position),
      ...(chamber === undefined ? {} : { chamber }),
      ...treatments,
    };
    return [...header.map((key) => cells[key] ?? ""), plannedTrialText(trial)];
  });
  return [[...header, plannedTrialColumn], ...rows];
}
