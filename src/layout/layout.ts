import type { Tray } from "../records/tray.ts";
import { type Arm, armsOf } from "./arm.ts";
import { companionFactors, type Factor, groupFactors } from "./factor.ts";

/** Which level of one factor stands with which of another, counted in trays. */
interface Crossing {
  /** level of the companion → level of the treatment → trays */
  cells: Map<string, Map<string, number>>;
  recorded: number;
}

function cross(trays: ReadonlyArray<Tray>, treatment: Factor, companion: Factor): Crossing {
  const cells = new Map<string, Map<string, number>>();
  let recorded = 0;
  for (const tray of trays) {
    const level = treatment.level(tray);
    const other = companion.level(tray);
    if (level === undefined || other === undefined) continue;
    recorded++;
    const row = cells.get(other) ?? new Map<string, number>();
    cells.set(other, row);
    row.set(level, (row.get(level) ?? 0) + 1);
  }
  return { cells, recorded };
}

/** A companion that changes with the treatment, so that the two cannot be told apart (fully) or only within parts (partly). */
export interface Tie {
  factor: Factor;
  extent: "fully" | "partly";
  /** levels of the companion */
  levels: number;
}

/**
 * Whether differences between the treatment's levels can be had while holding the companion fixed: the levels must hang
 * together in one piece when every companion level joins the treatment levels it holds.
 * @source connectedness of a two-way layout, Bose 1949; Searle 1971, Linear Models, section 7.4 (from memory)
 */
function tieBetween(crossing: Crossing, arms: number): "none" | "partly" | "fully" {
  const parent = new Map<string, string>();
  const find = (level: string): string => {
    let root = level;
    while (parent.get(root) !== root) root = parent.get(root)!;
    return root;
  };
  let anyHoldsTwo = false;
  for (const row of crossing.cells.values()) {
    const [first, ...rest] = [...row.keys()];
    if (rest.length > 0) anyHoldsTwo = true;
    for (const level of row.keys()) if (!parent.has(level)) parent.set(level, level);
    for (const level of rest) parent.set(find(level), find(first!));
  }
  const pieces = new Set([...parent.keys()].map(find)).size;
  if (pieces <= 1 || arms < 2) return "none";
  return anyHoldsTwo ? "partly" : "fully";
}

/** How a treatment was laid out over the trays, read from the records alone. */
export interface Layout {
  treatment: Factor;
  arms: Arm[];
  unknown: Tray[];
  /** the smallest thing the treatment was given to: a tray, or a whole group of trays */
  unit: Factor | "tray";
  /** how many such units each arm has, in the order of the arms */
  unitsPerArm: number[];
  /** the group that holds several arms at once, so that arms can be compared inside it; undefined when there is none */
  block: Factor | undefined;
  /** levels of the block */
  blockLevels: string[];
  /** what changes together with the treatment */
  ties: Tie[];
  /** trays per arm (columns, in the order of the arms) and block or cook level (rows) */
  grid: { label: string; rows: { level: string; counts: number[] }[] } | undefined;
}

const distinct = (trays: ReadonlyArray<Tray>, factor: Factor): string[] => [
  ...new Set(trays.flatMap((tray) => factor.level(tray) ?? [])),
];

/** Whether every level of the group holds one arm only, while holding several trays: then the group got the treatment. */
function isWholeUnit(crossing: Crossing, trays: number): boolean {
  if (crossing.recorded < 0.8 * trays || crossing.cells.size >= crossing.recorded) return false;
  return [...crossing.cells.values()].every((row) => row.size === 1);
}

/**
 * Reads the layout of a treatment from the records: the experimental unit, the blocks, what the treatment is tied to.
 * @param trays the started trays that count
 * @param treatment the factor asked about
 */
export function readLayout(trays: ReadonlyArray<Tray>, treatment: Factor): Layout {
  const { arms, unknown } = armsOf(trays, treatment);
  const known = arms.flatMap((arm) => arm.trays);
  const others = (factors: ReadonlyArray<Factor>) => factors.filter(({ key }) => key !== treatment.key);
  const crossings = new Map(
    others([...groupFactors, ...companionFactors]).map((factor) => [factor.key, cross(known, treatment, factor)]),
  );

  // of several groups that were treated as a whole, the one with the fewest members leaves the fewest independent units
  const whole = others(groupFactors)
    .filter((factor) => isWholeUnit(crossings.get(factor.key)!, known.length))
    .sort((a, b) => crossings.get(a.key)!.cells.size - crossings.get(b.key)!.cells.size);
  const unit = arms.length < 2 ? "tray" : (whole[0] ?? "tray");
  const unitsPerArm = arms.map((arm) => (unit === "tray" ? arm.trays.length : distinct(arm.trays, unit).length));

  const ties = others(companionFactors).flatMap((factor): Tie[] => {
    const crossing = crossings.get(factor.key)!;
    if (crossing.cells.size < 2 || crossing.recorded < known.length / 2) return [];
    // a companion with a level of its own for nearly every tray groups nothing
    if (crossing.cells.size > crossing.recorded / 1.5) return [];
    const extent = tieBetween(crossing, arms.length);
    return extent === "none" ? [] : [{ factor, extent, levels: crossing.cells.size }];
  });

  // the finest recorded cook-like group that holds several arms in most of its levels
  const block = others(groupFactors.filter(({ key }) => key !== "chamber")).find((factor) => {
    const { cells, recorded } = crossings.get(factor.key)!;
    if (cells.size < 2 || recorded < known.length) return false;
    const holdingSeveral = [...cells.values()].filter((row) => row.size > 1).length;
    return holdingSeveral >= 2 && holdingSeveral * 2 >= cells.size;
  });

  const gridFactor = block ?? others(groupFactors).find((factor) => crossings.get(factor.key)!.cells.size > 0);
  const gridCells = gridFactor && crossings.get(gridFactor.key)!.cells;
  const byName = (a: string, b: string) => a.localeCompare(b, "en", { numeric: true });
  return {
    treatment,
    arms,
    unknown,
    unit,
    unitsPerArm,
    block,
    blockLevels: block === undefined ? [] : distinct(known, block).sort(byName),
    ties,
    grid: gridFactor &&
      gridCells && {
        label: gridFactor.label,
        rows: [...gridCells.keys()].sort(byName).map((level) => ({
          level,
          counts: arms.map((arm) => gridCells.get(level)!.get(arm.level) ?? 0),
        })),
      },
  };
}
