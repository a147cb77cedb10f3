import type { SeededRandom } from "../random/seeded-random.ts";
import { requireSameLength } from "../require-numbers.ts";

/** What is drawn again: rows, or clusters of rows, each within its stratum. */
export interface ResamplingPlan {
  /** rows of each unit, by stratum */
  strata: Int32Array[][];
  /** the rows of a stratum whose units are one row each, which are quicker to draw from */
  singleRows: (Int32Array | undefined)[];
  /** number of units that can be drawn */
  units: number;
}

/**
 * Lays out the units of a bootstrap.
 * @param rows how many rows there are
 * @param clusters of each row, if whole clusters are to be drawn; strata of each row, if draws are to stay within strata
 * @throws RangeError if a column's length differs, a cluster lies in two strata, or no stratum has two units
 * @internal
 */
export function resamplingPlan(
  routine: string,
  rows: number,
  clusters: ReadonlyArray<string> | undefined,
  strata: ReadonlyArray<string> | undefined,
): ResamplingPlan {
  const all = { length: rows } as ReadonlyArray<unknown>;
  if (clusters !== undefined) requireSameLength(routine, "rows", all, "clusters", clusters);
  if (strata !== undefined) requireSameLength(routine, "rows", all, "strata", strata);
  const members = new Map<string | number, { stratum: string; own: number[] }>();
  for (let row = 0; row < rows; row++) {
    const key = clusters?.[row] ?? row;
    const stratum = strata?.[row] ?? "";
    const unit = members.get(key) ?? { stratum, own: [] };
    if (unit.stratum !== stratum) {
      throw new RangeError(
        `${routine}: a cluster must lie in one stratum; received cluster "${key}" in "${unit.stratum}" and "${stratum}"`,
      );
    }
    unit.own.push(row);
    members.set(key, unit);
  }
  const byStratum = new Map<string, Int32Array[]>();
  for (const { stratum, own } of members.values()) {
    const before = byStratum.get(stratum);
    if (before === undefined) byStratum.set(stratum, [Int32Array.from(own)]);
    else before.push(Int32Array.from(own));
  }
  const byUnit = [...byStratum.values()];
  const singleRows = byUnit.map((units) =>
    units.every((unit) => unit.length === 1) ? Int32Array.from(units, (unit) => unit[0]!) : undefined,
  );
  const plan = { strata: byUnit, singleRows, units: members.size };
  if (!plan.strata.some((units) => units.length > 1)) {
    throw new RangeError(`${routine}: a stratum must have 2 units or more to draw from; received at most 1 in each`);
  }
  return plan;
}

/**
 * The rows of one random draw: as many units from each stratum as it has, with replacement.
 * @internal
 */
export function drawRows(plan: ResamplingPlan, random: SeededRandom, into: number[]): void {
  let count = 0;
  for (let s = 0; s < plan.strata.length; s++) {
    const units = plan.strata[s]!;
    const single = plan.singleRows[s];
    if (single !== undefined) {
      for (let i = 0; i < single.length; i++) into[count++] = single[random.integer(single.length)]!;
      continue;
    }
    for (let i = 0; i < units.length; i++) {
      const own = units[random.integer(units.length)]!;
      for (let k = 0; k < own.length; k++) into[count++] = own[k]!;
    }
  }
  // an array emptied first would have to grow again in every draw
  if (into.length > count) into.length = count;
}
