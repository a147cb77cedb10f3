import { harvestField, isHarvestFieldKey } from "../records/harvest-field.ts";
import type { PlannedTray, TrialPlan } from "./trial-plan.ts";

/** A treatment in words: "9 mL inoculum". Water added to even out the moisture stands apart. */
export function treatmentWords({ treatments }: Pick<PlannedTray, "treatments">): string[] {
  return Object.entries(treatments).flatMap(([key, value]) => {
    if (value === "") return [];
    if (!isHarvestFieldKey(key)) return `${key}: ${value}`;
    const { unit, label } = harvestField(key);
    return `${value}${unit === "" ? "" : ` ${unit}`} ${label.toLowerCase()}`;
  });
}

/** One letter for each set of treatments, in the order of their amounts, so that it can be read across a room. */
export function armLetters(plan: TrialPlan): Map<string, string> {
  const arms = [...new Map(plan.trays.map((tray) => [armKey(tray), tray])).values()].sort((a, b) =>
    armKey(a).localeCompare(armKey(b), "en", { numeric: true }),
  );
  return new Map(arms.map((tray, index) => [armKey(tray), letter(index)]));
}

/** What tells one arm from another. */
export const armKey = ({ treatments }: Pick<PlannedTray, "treatments">): string => JSON.stringify(treatments);

function letter(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letter(Math.floor(index / 26) - 1) + last;
}
