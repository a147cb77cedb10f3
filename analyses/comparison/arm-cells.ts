import type { Observation } from "./tray-response.ts";

/** The observations of one arm in one group, summed up. */
export interface ArmCell {
  arm: string;
  group: string;
  count: number;
  mean: number;
  /** squared distances from the mean, added up */
  squares: number;
}

/** One key for several levels: each with its length before it, so that no two lists of levels share one. */
export function levelsKey(levels: ReadonlyArray<string>): string {
  let key = "";
  for (const level of levels) key += `${level.length}:${level}`;
  return key;
}

/** Sums observations up by arm and outer group, or by any other key. */
export function armCells(
  observations: ReadonlyArray<Observation>,
  keyOf: (one: Observation) => string = ({ groups, arm }) => levelsKey([groups[0]!, arm]),
): ArmCell[] {
  const cells = new Map<string, ArmCell>();
  for (const one of observations) {
    const key = keyOf(one);
    let cell = cells.get(key);
    if (cell === undefined) {
      cell = { arm: one.arm, group: one.groups[0]!, count: 0, mean: 0, squares: 0 };
      cells.set(key, cell);
    }
    const step = one.value - cell.mean;
    cell.count++;
    cell.mean += step / cell.count;
    cell.squares += step * (one.value - cell.mean);
  }
  return [...cells.values()];
}

/** One observation for each innermost group: the mean of its trays. An arm given to whole jars has jars, not trays, to count. */
export function unitMeans(observations: ReadonlyArray<Observation>): Observation[] {
  const keyOf = ({ groups, arm }: Observation) => levelsKey([...groups, arm]);
  const firsts = new Map<string, Observation>();
  for (const one of observations) if (!firsts.has(keyOf(one))) firsts.set(keyOf(one), one);
  const cells = armCells(observations, keyOf);
  return [...firsts.values()].map((first, index) => ({ ...first, value: cells[index]!.mean }));
}
