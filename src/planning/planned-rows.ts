import { harvestFields, isHarvestFieldKey } from "../records/harvest-field.ts";
import { type PlannedTrial, plannedTrialColumn, plannedTrialText } from "../records/planned-trial.ts";
import type { TrialPlan } from "./trial-plan.ts";

/**
 * A planned trial as a harvest sheet to be filled in: every canonical column, one row per tray in the order of the loads,
 * what is planned typed in, everything else empty; the last column says which trial it is.
 * @param trial date, question and cooks of the plan
 * @param same what every tray has alike, by canonical column: container, strain
 * @returns header and rows of text
 * @throws RangeError if a treatment or a shared value stands in no canonical column
 */
export function plannedRows(
  plan: TrialPlan,
  trial: PlannedTrial,
  same: Readonly<Record<string, string>> = {},
): string[][] {
  const header = harvestFields.map(({ key }) => key);
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
    for (const key of Object.keys(cells)) {
      if (!isHarvestFieldKey(key))
        throw new RangeError(`plannedRows: every value must stand in a canonical column; received ${key}`);
    }
    return [...header.map((key) => cells[key] ?? ""), plannedTrialText(trial)];
  });
  return [[...header, plannedTrialColumn], ...rows];
}
