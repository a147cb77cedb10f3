import { holmAdjustment } from "../../src/statistics/comparisons/p-value-adjustments.ts";
import {
  type Clustering,
  type GroupEvents,
  permuteClustering,
} from "../../src/statistics/resampling/permute-clustering.ts";
import type { LossGrouping } from "./loss-groupings.ts";

/** What was found about one grouping, or about another pattern in the losses. */
export interface LossPattern {
  name: string;
  grouping?: LossGrouping;
  clustering?: Clustering;
  /** before allowing for the number of patterns looked for */
  p: number;
  /** after (Holm) */
  adjustedP: number;
}

/** Where losses come from, as far as the records can tell. */
export interface LossSources {
  /** every pattern that could be looked for, smallest p first */
  patterns: LossPattern[];
  /** those that stand after allowing for how many were looked for */
  standing: LossPattern[];
  /** of the standing groupings, those that no other one accounts for */
  tiedTo: (LossPattern & { grouping: LossGrouping; clustering: Clustering })[];
  /** standing groupings left out of `tiedTo`, and the one that accounts for them */
  accountedFor: { name: string; by: string }[];
  /** whether those in `tiedTo` cannot be separated from each other */
  inseparable: boolean;
}

/** Trays on which every one of these columns is recorded. */
function recordedOn(columns: ReadonlyArray<ReadonlyArray<string | undefined>>, trays: number): number[] {
  return Array.from({ length: trays }, (_, index) => index).filter((index) =>
    columns.every((column) => column[index] !== undefined),
  );
}

/** Clustering in one grouping, within its own units or others; undefined where nothing could differ. */
function clusteringOf(
  lost: ReadonlyArray<boolean>,
  { levels, within: own, blocks: whole }: LossGrouping,
  seed: number,
  within = own?.levels,
): Clustering | undefined {
  // a block is a part of one stratum
  const blocks = whole?.levels.map((block, tray) => block && JSON.stringify([block, within?.[tray]]));
  const rows = recordedOn([levels, ...(within ? [within] : []), ...(blocks ? [blocks] : [])], lost.length);
  const on = <Value>(column: ReadonlyArray<Value | undefined>): ReadonlyArray<Value> =>
    rows.length === column.length ? (column as ReadonlyArray<Value>) : rows.map((row) => column[row]!);
  return permuteClustering({
    event: on(lost),
    group: on(levels),
    ...(within === undefined ? {} : { strata: on(within) }),
    ...(blocks === undefined ? {} : { blocks: on(blocks) }),
    seed,
  });
}

/**
 * Looks for groups that losses sit together in, then asks of every two that stand whether one accounts for the other: losses
 * are permuted within the groups of the one, and what is left of the other is tested.
 * @param lost one per tray
 * @param groupings levels, one per tray
 * @param others patterns tested elsewhere (a trend over dose in place of its grouping, a rise over time)
 * @param alpha chance of naming anything when losses fall at random
 */
export function lossSources(
  lost: ReadonlyArray<boolean>,
  groupings: ReadonlyArray<LossGrouping>,
  others: ReadonlyArray<{ name: string; p: number; key?: string }>,
  alpha: number,
  seed: number,
): LossSources {
  const found: Omit<LossPattern, "adjustedP">[] = [];
  for (const grouping of groupings) {
    const clustering = clusteringOf(lost, grouping, seed);
    if (clustering === undefined) continue;
    const trend = grouping.keys.length === 1 ? others.find(({ key }) => key === grouping.keys[0]) : undefined;
    found.push({ name: grouping.name, grouping, clustering, p: trend?.p ?? clustering.p });
  }
  for (const { name, p, key } of others) {
    if (key === undefined || !found.some(({ grouping }) => grouping?.keys.includes(key))) found.push({ name, p });
  }
  const adjusted = found.length === 0 ? [] : holmAdjustment(found.map(({ p }) => p));
  const patterns = found
    .map((pattern, index): LossPattern => ({ ...pattern, adjustedP: adjusted[index]! }))
    .sort((a, b) => a.p - b.p);
  const standing = patterns.filter(({ adjustedP }) => adjustedP < alpha);
  const grouped = standing.filter((pattern): pattern is LossSources["tiedTo"][number] => {
    return pattern.grouping !== undefined && pattern.clustering !== undefined;
  });

  /** p of what one grouping adds to another; undefined where the other leaves it nothing to differ by */
  const left = (of: LossGrouping, given: LossGrouping): number | undefined =>
    clusteringOf(lost, of, seed, given.levels)?.p;
  const accountedFor: LossSources["accountedFor"] = [];
  const out = new Set<string>();
  let bothAdd = true;
  grouped.forEach((a, index) => {
    for (const b of grouped.slice(index + 1)) {
      const [aLeft, bLeft] = [left(a.grouping, b.grouping), left(b.grouping, a.grouping)];
      const [aAdds, bAdds] = [aLeft !== undefined && aLeft < alpha, bLeft !== undefined && bLeft < alpha];
      // what lies wholly inside the other and adds nothing to it is no better an account than the other
      if ((aAdds && !bAdds) || (!aAdds && !bAdds && aLeft === undefined && bLeft !== undefined)) {
        out.add(b.name);
        accountedFor.push({ name: b.name, by: a.name });
      } else if ((bAdds && !aAdds) || (!aAdds && !bAdds && bLeft === undefined && aLeft !== undefined)) {
        out.add(a.name);
        accountedFor.push({ name: a.name, by: b.name });
      }
      if (!(aAdds && bAdds)) bothAdd = false;
    }
  });
  const kept = grouped.filter(({ name }) => !out.has(name));
  // each accounting for the other in a ring would leave nothing: then none is separated from the rest
  const tiedTo = kept.length === 0 ? grouped : kept;
  return {
    patterns,
    standing,
    tiedTo,
    accountedFor: accountedFor.filter(({ name }) => !tiedTo.some((one) => one.name === name)),
    inseparable: tiedTo.length > 1 && !bothAdd,
  };
}

/** The groups that stand out on the losing side; the furthest one where none does by itself. */
export function outstandingGroups(clustering: Clustering, alpha: number): GroupEvents[] {
  const clear = clustering.groups.filter(({ p, events }) => p < alpha && events > 0);
  return clear.length > 0 ? clear : clustering.groups.slice(0, 1);
}
