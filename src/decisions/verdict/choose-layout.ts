import { type Cell, cellTable, type PlacedTray, scoresOf } from "./cell-table.ts";
import type { LeftOutReason, Level } from "./decision.ts";

/** From this share of the levels' variation inside cooks on, cooks are taken as blocks. */
const insideAtLeast = 0.5;

/** What the trays of a book allow. */
export interface LayoutFacts {
  groups: number;
  /** groups with good trays of two or more levels */
  several: Set<number>;
  /** W: share of the levels' variation, over good trays, that lies inside groups */
  insideShare: number;
  /** whether levels are compared inside groups: where most of their variation lies there, or fewer trays are left out for it */
  inside: boolean;
}

/**
 * Reads how levels lie in groups.
 * @param trays placed in groups numbered from 0
 * @param ordered whether the variation of levels is that of the numbers, or of their indicators
 */
export function layoutFacts(trays: ReadonlyArray<PlacedTray>, ordered: boolean): LayoutFacts {
  const good = trays.filter(({ tray }) => tray.value !== "lost");
  const { levels, cells } = cellTable(good);
  const scores = ordered ? scoresOf(levels) : undefined;
  const columns = scores === undefined ? levels.map((_, i) => levels.map((__, j) => (i === j ? 1 : 0))) : [scores];
  let inside = 0;
  let total = 0;
  for (const column of columns) {
    const all = squaresAbout(cells.map(({ level, count }) => [column[level]!, count]));
    total += all;
    inside += all - betweenGroups(cells, column);
  }
  const counts = new Map<number, Map<Level, number>>();
  for (const { tray, group } of good) {
    const own = counts.get(group) ?? new Map<Level, number>();
    counts.set(group, own);
    own.set(tray.level, (own.get(tray.level) ?? 0) + 1);
  }
  const several = new Set([...counts].flatMap(([group, own]) => (own.size > 1 ? [group] : [])));
  // trays that either way leaves out: whole cooks those of another level than their cook's, inside cooks those of one level alone
  let [strays, alone] = [0, 0];
  for (const own of counts.values()) {
    let [sum, most] = [0, 0];
    for (const count of own.values()) {
      sum += count;
      most = Math.max(most, count);
    }
    if (own.size > 1) strays += sum - most;
    else alone += sum;
  }
  const insideShare = total > 0 ? Math.max(0, inside / total) : 0;
  return {
    groups: counts.size,
    several,
    insideShare,
    inside: several.size >= 2 && (insideShare >= insideAtLeast - 1e-9 || strays > alone),
  };
}

function squaresAbout(weighted: ReadonlyArray<readonly [value: number, weight: number]>): number {
  let weights = 0;
  let sum = 0;
  for (const [value, weight] of weighted) {
    weights += weight;
    sum += weight * value;
  }
  const mean = weights === 0 ? 0 : sum / weights;
  return weighted.reduce((squares, [value, weight]) => squares + weight * (value - mean) ** 2, 0);
}

function betweenGroups(cells: ReadonlyArray<Cell>, column: ReadonlyArray<number>): number {
  const sums = new Map<number, { weight: number; sum: number }>();
  for (const { group, level, count } of cells) {
    const own = sums.get(group) ?? { weight: 0, sum: 0 };
    own.weight += count;
    own.sum += count * column[level]!;
    sums.set(group, own);
  }
  return squaresAbout([...sums.values()].map(({ weight, sum }) => [sum / weight, weight] as const));
}

/** Trays kept, and those left out with the reason. */
export interface Kept {
  kept: PlacedTray[];
  leftOut: { row: number; reason: LeftOutReason }[];
}

/** Splits trays by a rule. */
export function keepTrays(
  trays: ReadonlyArray<PlacedTray>,
  keep: (tray: PlacedTray) => boolean,
  reason: LeftOutReason,
): Kept {
  const kept: PlacedTray[] = [];
  const leftOut: { row: number; reason: LeftOutReason }[] = [];
  for (const tray of trays) {
    if (keep(tray)) kept.push(tray);
    else leftOut.push({ row: tray.tray.row, reason });
  }
  return { kept, leftOut };
}

/**
 * Of levels that groups do not connect, the connected piece with most levels (then most groups, then most trays): only inside
 * one piece can levels be compared without supposing anything.
 */
export function connectedPiece(trays: ReadonlyArray<PlacedTray>): Kept {
  const good = trays.filter(({ tray }) => tray.value !== "lost");
  const pieceOf = new Map<unknown, number>();
  const firstOfGroup = new Map<number, unknown>();
  const parents: number[] = [];
  const rootOf = (piece: number): number => {
    let root = piece;
    while (parents[root] !== root) root = parents[root]!;
    return root;
  };
  for (const { tray, group } of good) {
    if (!pieceOf.has(tray.level)) {
      pieceOf.set(tray.level, parents.length);
      parents.push(parents.length);
    }
    const first = firstOfGroup.get(group);
    if (first === undefined) firstOfGroup.set(group, tray.level);
    else parents[rootOf(pieceOf.get(tray.level)!)] = rootOf(pieceOf.get(first)!);
  }
  const roots = new Set(parents.map((_, piece) => rootOf(piece)));
  if (roots.size <= 1) return { kept: [...trays], leftOut: [] };
  const sizeOf = (root: number): [number, number, number] => {
    const inPiece = good.filter(({ tray }) => rootOf(pieceOf.get(tray.level)!) === root);
    return [
      new Set(inPiece.map(({ tray }) => tray.level)).size,
      new Set(inPiece.map(({ group }) => group)).size,
      inPiece.length,
    ];
  };
  const sizes = [...roots].map((root) => ({ root, size: sizeOf(root) }));
  sizes.sort((a, b) => b.size[0] - a.size[0] || b.size[1] - a.size[1] || b.size[2] - a.size[2] || a.root - b.root);
  const best = sizes[0]!.root;
  return keepTrays(
    trays,
    // a lost tray belongs to the piece of its group, whatever its level
    ({ tray, group }) => {
      const level = firstOfGroup.get(group) ?? tray.level;
      return pieceOf.has(level) && rootOf(pieceOf.get(level)!) === best;
    },
    "not-joined-to-the-others",
  );
}
