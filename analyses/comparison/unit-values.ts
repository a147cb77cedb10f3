import type { Observation } from "./tray-response.ts";

/** One value of one arm, in one block or none: a tray, or the mean of a unit that was treated as a whole. */
export interface UnitValue {
  arm: string;
  block: string | undefined;
  value: number;
}

/**
 * Values of the experimental units.
 * @param wholeGroups the treatment was given to whole jars, cooks or chambers: each innermost group is one unit, in no block
 */
export function unitValues(observations: ReadonlyArray<Observation>, wholeGroups: boolean): UnitValue[] {
  if (!wholeGroups) return observations.map(({ arm, value, groups }) => ({ arm, value, block: groups[0] }));
  const byUnit = new Map<string, { arm: string; sum: number; count: number }>();
  for (const { arm, value, groups } of observations) {
    const key = JSON.stringify(groups);
    const unit = byUnit.get(key) ?? { arm, sum: 0, count: 0 };
    byUnit.set(key, unit);
    unit.sum += value;
    unit.count++;
  }
  return [...byUnit.values()].map(({ arm, sum, count }) => ({ arm, value: sum / count, block: undefined }));
}
