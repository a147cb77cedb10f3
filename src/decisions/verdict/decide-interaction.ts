import { type Cell, type CellTable, cellTable, levelsOf, type PlacedTray } from "./cell-table.ts";
import { compareNamesInside } from "./compare-names.ts";
import { type ComparedTray, changedTray, type VerdictSettings } from "./compared-tray.ts";
import { pairWeights } from "./cook-table.ts";
import { decideComparison } from "./decide-comparison.ts";
import { decideUnordered } from "./decide-unordered.ts";
import type { Cap, Decision, Interval, Level, Verdict } from "./decision.ts";
import { intervalOf } from "./estimate.ts";
import { fillSettings, inRowOrder } from "./fill-settings.ts";
import { groupTrays } from "./group-trays.ts";
import { mostThat } from "./judge.ts";

/** Whether what one thing does depends on another that the same trial varied. A by-question: it leans to nothing. */
export interface Interaction {
  verdict: Exclude<Verdict, "leaning" | "cannot-tell">;
  p: number;
  caps: Cap[];
  significance: number;
  /** cooks with every combination that is compared */
  cooks: number;
  /** the thing whose ends are compared: the trays' `level`, or their `other` where only that has two ends */
  of: "level" | "other";
  /** the two ends of that thing: `to` less `from` is its difference */
  from: Level;
  to: Level;
  /** that difference at each level of the other thing */
  differences: { at: Level; estimate: number }[];
  /** what each level of the other thing, in place of each one before it, adds to the difference; 95 % limits that hold together */
  changes: { from: Level; to: Level; estimate: number; interval: Interval }[];
  /** where settled: the decision at each level of the other thing, on the trays that had it */
  apart: { at: Level; decision: Decision }[];
}

/** Fewest complete cooks from which a dependence is judged. */
const completeCooks = 3;

const isOrdered = (trays: ReadonlyArray<ComparedTray>): boolean =>
  trays.every(({ level }) => typeof level === "number");

/**
 * Decides whether two things that one trial varied depend on one another: each cook's difference of the lowest and the highest
 * level of one, at each level of the other, compared over cooks.
 * @param trays as for {@link decideComparison}, each with both levels
 * @returns undefined where fewer than three cooks have every combination, or both are names of more than two levels
 * @throws RangeError as {@link decideComparison}
 * @source difference of differences, Yates 1935, Supplement to the Journal of the Royal Statistical Society 2:181-247; limits of
 *   several by Bonferroni's inequality
 * @example decideInteraction(comparedTrays.map((tray) => ({ ...tray, other: "bran" }))) // undefined
 */
export function decideInteraction(
  trays: ReadonlyArray<ComparedTray>,
  settings: VerdictSettings = {},
): Interaction | undefined {
  const swapped = trays.map((tray) => changedTray(tray, { level: tray.other ?? "", other: tray.level }));
  for (const [of, way] of [["level", trays] as const, ["other", swapped] as const]) {
    if (!isOrdered(way) && new Set(way.map(({ level }) => level)).size > 2) continue;
    const found = dependence(inRowOrder(way), of, settings);
    if (found !== undefined) return found;
  }
  return undefined;
}

function dependence(
  trays: ReadonlyArray<ComparedTray>,
  of: Interaction["of"],
  settings: VerdictSettings,
): Interaction | undefined {
  const grouped = groupTrays(trays);
  const good = grouped.trays.filter(({ tray }) => tray.value !== "lost");
  const levels = levelsOf(good);
  const others = levelsOf(good.map((placed) => ({ tray: { ...placed.tray, level: otherLevel(placed) }, group: 0 })));
  if (levels.length < 2 || others.length < 2) return undefined;
  const table = endsTable(good, levels, others);
  if (table === undefined) return undefined;
  const filled = fillSettings(settings);
  const found = compareNamesInside(table, filled);
  if (found?.p === undefined) return undefined;
  const pairs = others.flatMap((from, i) =>
    others.slice(i + 1).map((to) => [i, others.indexOf(to), from, to] as const),
  );
  const caps: Cap[] =
    grouped.grouping.by === "cook" || grouped.grouping.by === "day"
      ? []
      : [{ at: "leaning", reason: "cooks-not-recorded" }];
  const verdict = found.p < filled.significance && mostThat(caps) === "settled" ? "settled" : "open";
  return {
    verdict,
    p: found.p,
    caps,
    significance: filled.significance,
    cooks: found.cooks,
    of,
    from: levels[0]!,
    to: levels.at(-1)!,
    differences: others.map((at, i) => ({ at, estimate: found.adjusted[i]! })),
    changes: pairs.map(([i, j, from, to]) => {
      const { settled } = found.contrast(pairWeights(others.length, i, j));
      return { from, to, estimate: settled.estimate, interval: intervalOf(settled, 0.05 / pairs.length) };
    }),
    apart: verdict === "open" ? [] : others.map((at) => ({ at, decision: decideAlone(trays, at, settings) })),
  };
}

/** The decision on the trays that had one level of the other thing. */
function decideAlone(trays: ReadonlyArray<ComparedTray>, at: Level, settings: VerdictSettings): Decision {
  const own = trays.flatMap(({ other, ...tray }) => (other === at ? [tray] : []));
  return isOrdered(own) ? decideComparison(own, settings) : decideUnordered(own, settings);
}

const otherLevel = ({ tray }: PlacedTray): Level => tray.other ?? "";

/** Highest less lowest level by cook and other level, of the cooks that have them all. */
function endsTable(
  good: ReadonlyArray<PlacedTray>,
  levels: ReadonlyArray<Level>,
  others: ReadonlyArray<Level>,
): CellTable | undefined {
  const ends = [levels[0]!, levels.at(-1)!];
  const byCook = new Map<number, PlacedTray[]>();
  for (const placed of good) {
    if (!ends.includes(placed.tray.level)) continue;
    const own = byCook.get(placed.group);
    if (own === undefined) byCook.set(placed.group, [placed]);
    else own.push(placed);
  }
  const cells: Cell[] = [];
  let group = 0;
  for (const own of byCook.values()) {
    const rows = others.map((other, level) => {
      const { cells: both } = cellTable(
        own.filter((placed) => otherLevel(placed) === other).map(({ tray }) => ({ tray, group: 0 })),
      );
      return both.length < 2 ? undefined : cellOf(both[0]!, both[1]!, group, level);
    });
    if (rows.some((row) => row === undefined)) continue;
    cells.push(...(rows as Cell[]));
    group++;
  }
  if (group < completeCooks) return undefined;
  const mean = cells.reduce((sum, cell) => sum + cell.mean, 0) / cells.length;
  return { levels: [...others], groupCount: group, cells, mean };
}

function cellOf(low: Cell, high: Cell, group: number, level: number): Cell {
  return {
    group,
    level,
    count: 1 / (1 / low.count + 1 / high.count),
    mean: high.mean - low.mean,
    weighings: low.weighings + high.weighings - 1,
    squares: low.squares + high.squares,
    lost: 0,
  };
}
