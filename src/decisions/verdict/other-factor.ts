import { type AdditiveFit, additiveFit } from "../../statistics/groups/additive-fit.ts";
import { type Cell, type CellTable, cellTable, type PlacedTray } from "./cell-table.ts";
import { connectedPiece, type Kept, keepTrays, layoutFacts } from "./choose-layout.ts";
import type { ComparedTray } from "./compared-tray.ts";
import type { Level } from "./decision.ts";
import { enough } from "./merge-by-unit.ts";

/** What else was varied, of one tray. */
export type OtherOf = (tray: PlacedTray) => string;

/** What else was varied, as trays have it written; undefined where none has. */
export function otherIn(trays: ReadonlyArray<ComparedTray>): OtherOf | undefined {
  return trays.some(({ other }) => other !== undefined) ? ({ tray }) => String(tray.other ?? "") : undefined;
}

const isGood = ({ tray }: PlacedTray): boolean => tray.value !== "lost";

function byGroup(trays: ReadonlyArray<PlacedTray>): Map<number, PlacedTray[]> {
  const groups = new Map<number, PlacedTray[]>();
  for (const tray of trays) {
    const own = groups.get(tray.group);
    if (own === undefined) groups.set(tray.group, [tray]);
    else own.push(tray);
  }
  return groups;
}

/** Whether the other thing differs between good trays of one and the same group. */
export function variesInside(trays: ReadonlyArray<PlacedTray>, otherOf: OtherOf): boolean {
  const first = new Map<number, string>();
  return trays.filter(isGood).some((tray) => {
    const before = first.get(tray.group);
    if (before === undefined) first.set(tray.group, otherOf(tray));
    return before !== undefined && before !== otherOf(tray);
  });
}

/** Trays numbered by the other thing in place of the group. */
function groupedByOther(trays: ReadonlyArray<PlacedTray>, otherOf: OtherOf): PlacedTray[] {
  const numbers = new Map<string, number>();
  return trays.map((tray) => {
    const name = otherOf(tray);
    if (!numbers.has(name)) numbers.set(name, numbers.size);
    return { tray: tray.tray, group: numbers.get(name)! };
  });
}

/** Levels differ more between units than chance would give them where the ratio of variances is above this. Common practice. */
const tiedFrom = 4;

/**
 * The kind of unit (load, shelf, jar) of one cook that the levels went with in part: what is peculiar to a unit would else count as
 * the level's. Of several the one they went with most; what chance gave to units is no tie.
 * @param ordered whether levels are numbers in order, or names
 */
export function partlyTiedUnit(
  trays: ReadonlyArray<PlacedTray>,
  ordered: boolean,
): { kind: string; unitOf: OtherOf } | undefined {
  const kinds = new Set(trays.flatMap(({ tray }) => Object.keys(tray.units ?? {})));
  let most = tiedFrom;
  let found: { kind: string; unitOf: OtherOf } | undefined;
  for (const kind of [...kinds].sort()) {
    if (!enough(trays.filter(({ tray }) => tray.units?.[kind] !== undefined).length, trays.length)) continue;
    const unitOf: OtherOf = ({ tray }) => tray.units?.[kind] ?? "";
    const { insideShare, groups } = layoutFacts(groupedByOther(trays, unitOf), ordered);
    const free = trays.filter(isGood).length - groups;
    if (groups < 2 || free < 1 || insideShare < 1e-9) continue;
    const ratio = (1 - insideShare) / (groups - 1) / (insideShare / free);
    if (ratio <= most) continue;
    most = ratio;
    found = { kind, unitOf };
  }
  return found;
}

/** Whether one level of the other thing has good trays of all levels of the group, so that everything is joined. */
function crossesPlainly(own: ReadonlyArray<PlacedTray>, otherOf: OtherOf): boolean {
  const all = new Set<Level>();
  const byOther = new Map<string, Set<Level>>();
  for (const placed of own) {
    if (placed.tray.value === "lost") continue;
    const name = otherOf(placed);
    const levels = byOther.get(name);
    if (levels === undefined) byOther.set(name, new Set([placed.tray.level]));
    else levels.add(placed.tray.level);
    all.add(placed.tray.level);
  }
  for (const levels of byOther.values()) if (levels.size === all.size) return all.size > 0;
  return false;
}

const none: ReadonlySet<number> = new Set();

/** Whether some good trays have several levels. */
function hasSeveralLevels(trays: ReadonlyArray<PlacedTray>): boolean {
  const good = trays.filter(isGood);
  return good.some(({ tray }) => tray.level !== good[0]!.tray.level);
}

/**
 * Trays whose level can be separated from the other thing inside their own group: of each group the piece in which both cross, and
 * no group in which only one level is left.
 */
export function separable(trays: ReadonlyArray<PlacedTray>, otherOf: OtherOf): Kept {
  const out = new Set<number>();
  for (const own of byGroup(trays).values()) {
    const isWhole = crossesPlainly(own, otherOf);
    const kept = isWhole ? own : connectedPiece(groupedByOther(own, otherOf)).kept;
    const rows = hasSeveralLevels(kept) ? (isWhole ? undefined : new Set(kept.map(({ tray }) => tray.row))) : none;
    if (rows !== undefined) for (const { tray } of own) if (!rows.has(tray.row)) out.add(tray.row);
  }
  return keepTrays(trays, ({ tray }) => !out.has(tray.row), "tied-to-the-other-factor");
}

/**
 * Cell means of each group with the other thing taken out by that group's own fit, each of its levels weighing the same.
 * @param trays good trays for which {@link separable} keeps every group
 */
export function tableBesideOther(trays: ReadonlyArray<PlacedTray>, otherOf: OtherOf): CellTable {
  const plain = cellTable(trays);
  const position = new Map(plain.levels.map((level, i) => [level, i]));
  const cells: Cell[] = [];
  let group = 0;
  for (const own of byGroup(trays).values()) {
    const parts = cellTable(groupedByOther(own, otherOf));
    const fit = fitOf(parts);
    const centre = centreOf(parts, fit);
    parts.levels.forEach((level, i) => {
      const of = parts.cells.filter((cell) => cell.level === i);
      const total = (pick: (cell: Cell) => number): number => of.reduce((sum, cell) => sum + pick(cell), 0);
      cells.push({
        group,
        level: position.get(level)!,
        count: total(({ count }) => count),
        mean: centre + fit.effects[i]!,
        // one degree of freedom a part, so that what is left over is the trays' own
        weighings: total(({ weighings }) => weighings - 1) + 1,
        squares: total(({ squares }) => squares),
        lost: 0,
      });
    });
    group++;
  }
  cells.sort((a, b) => a.group - b.group || a.level - b.level);
  return { levels: plain.levels, groupCount: group, cells, mean: plain.mean };
}

function fitOf(parts: CellTable): AdditiveFit {
  const cells = parts.cells.map(({ group, level, mean }) => ({ block: group, level, value: mean }));
  const fit = additiveFit(cells, parts.groupCount, parts.levels.length);
  if (fit === undefined) throw new RangeError("tableBesideOther: levels and the other thing must cross in every group");
  return fit;
}

/** Mean over the other thing's levels, each counted once, of what the levels' effects leave. */
function centreOf(parts: CellTable, fit: AdditiveFit): number {
  const sums = Array.from({ length: parts.groupCount }, () => ({ sum: 0, count: 0 }));
  for (const { group, level, mean } of parts.cells) {
    sums[group]!.sum += mean - fit.effects[level]!;
    sums[group]!.count++;
  }
  return sums.reduce((total, { sum, count }) => total + sum / count, 0) / parts.groupCount;
}

/**
 * Values of trays with the other thing's effect, as it shows inside groups, taken out.
 * @returns the value of each good tray by row; as measured where the effect cannot be estimated
 */
export function withoutOther(trays: ReadonlyArray<PlacedTray>, otherOf: OtherOf): Map<number, number> {
  const good = trays.filter(isGood);
  const swapped = good.map((placed) => ({ tray: { ...placed.tray, level: otherOf(placed) }, group: placed.group }));
  const table = cellTable(swapped);
  const cells = table.cells.map(({ group, level, mean }) => ({ block: group, level, value: mean }));
  const fit = additiveFit(cells, table.groupCount, table.levels.length);
  const position = new Map(table.levels.map((level, i) => [level, i]));
  return new Map(
    good.map((placed) => {
      const effect = fit === undefined ? 0 : fit.effects[position.get(otherOf(placed))!]!;
      return [placed.tray.row, (placed.tray.value as number) - effect];
    }),
  );
}

/** One group's trays as its own two-way table of level and other thing, the other thing taken out of every tray. */
export function trayTableBesideOther(
  trays: ReadonlyArray<PlacedTray>,
  otherOf: OtherOf,
): { table: CellTable; takenOut: number } {
  const others = groupedByOther(trays, otherOf);
  const plain = cellTable(trays);
  const position = new Map(plain.levels.map((level, i) => [level, i]));
  const weighings = others.map(({ tray, group }) => ({
    block: group,
    level: position.get(tray.level)!,
    value: tray.value as number,
  }));
  const otherCount = new Set(others.map(({ group }) => group)).size;
  const fit = additiveFit(weighings, otherCount, plain.levels.length);
  if (fit === undefined) return { table: plain, takenOut: 0 };
  const sums = Array.from({ length: otherCount }, () => ({ sum: 0, count: 0 }));
  for (const { block, level, value } of weighings) {
    sums[block]!.sum += value - fit.effects[level]!;
    sums[block]!.count++;
  }
  const blockMeans = sums.map(({ sum, count }) => sum / count);
  const centre = blockMeans.reduce((total, mean) => total + mean, 0) / otherCount;
  const adjusted = others.map(({ tray, group }) => ({
    tray: { ...tray, value: (tray.value as number) - blockMeans[group]! + centre },
    group: 0,
  }));
  return { table: cellTable(adjusted), takenOut: otherCount - 1 };
}
