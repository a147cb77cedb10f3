import type { Tray } from "../records/tray.ts";
import { type Arm, armsOf } from "./arm.ts";
import { companionFactors, type Factor, groupFactors } from "./factor.ts";

/** How the levels of a companion stand with the levels of the treatment, counted in trays. */
interface Crossing {
  /** levels of the companion, in the order first met */
  levels: string[];
  /** by companion level: whether it holds more than one level of the treatment */
  holdsSeveral: boolean[];
  /** pieces into which the treatment's levels fall when every companion level joins the levels it holds */
  pieces: number;
  /** trays on which both are recorded */
  recorded: number;
}

/**
 * Crosses the treatment with a companion in one pass over the trays.
 * @param arms the arms, and for each tray of them the arm's number
 */
function cross(arms: ReadonlyArray<Arm>, companion: Factor): Crossing {
  const place = new Map<string, number>();
  const levels: string[] = [];
  const firstArm: number[] = [];
  const holdsSeveral: boolean[] = [];
  const parent = arms.map((_, arm) => arm);
  const met = new Set<number>();
  const find = (arm: number): number => {
    let root = arm;
    while (parent[root] !== root) root = parent[root]!;
    return root;
  };
  let recorded = 0;
  arms.forEach(({ trays }, arm) => {
    for (const tray of trays) {
      const level = companion.level(tray);
      if (level === undefined) continue;
      recorded++;
      met.add(arm);
      const at = place.get(level);
      if (at === undefined) {
        place.set(level, levels.length);
        levels.push(level);
        firstArm.push(arm);
        holdsSeveral.push(false);
      } else if (firstArm[at] !== arm) {
        holdsSeveral[at] = true;
        parent[find(arm)] = find(firstArm[at]!);
      }
    }
  });
  const pieces = new Set([...met].map(find)).size;
  return { levels, holdsSeveral, pieces, recorded };
}

/** A companion that changes with the treatment, so that the two cannot be separated (fully) or only within parts (partly). */
export interface Tie {
  factor: Factor;
  extent: "fully" | "partly";
  /** levels of the companion */
  levels: number;
}

/**
 * Whether differences between the treatment's levels can be had while holding the companion fixed: the levels must hang
 * together in one piece when every companion level joins the treatment levels it holds.
 * @source connectedness of a two-way layout, Bose 1949 (from memory); an unconnected example: Searle 1971, Linear Models,
 *   324-325
 */
function tieBetween({ pieces, holdsSeveral }: Crossing): "none" | "partly" | "fully" {
  if (pieces <= 1) return "none";
  return holdsSeveral.includes(true) ? "partly" : "fully";
}

/** How a treatment was laid out over the trays, read from the records alone. */
export interface Layout {
  treatment: Factor;
  arms: Arm[];
  /** the smallest thing the treatment was given to: a tray, or a whole group of trays */
  unit: Factor | "tray";
  /** the group that holds several arms at once, so that arms can be compared inside it; undefined when there is none */
  block: Factor | undefined;
  /** levels of the block */
  blockLevels: string[];
  /** what changes together with the treatment */
  ties: Tie[];
}

/** Whether every level of the group holds one arm only, while holding several trays: then the group got the treatment. */
function isWholeUnit({ levels, holdsSeveral, recorded }: Crossing, trays: number): boolean {
  return recorded >= 0.8 * trays && levels.length < recorded && !holdsSeveral.includes(true);
}

/** Compares names with the numbers in them as numbers. */
const byName = () => new Intl.Collator("en", { numeric: true }).compare;

/**
 * Reads the layout of a treatment from the records: the experimental unit, the blocks, what the treatment is tied to. What holds
 * the treatment against all that is recorded is worked out where one asks for it.
 * @param trays the started trays that count
 * @param treatment the factor asked about
 */
export function readLayout(trays: ReadonlyArray<Tray>, treatment: Factor): Layout {
  const { arms } = armsOf(trays, treatment);
  const known = arms.reduce((count, arm) => count + arm.trays.length, 0);
  const others = (factors: ReadonlyArray<Factor>) => factors.filter(({ key }) => key !== treatment.key);
  const crossings = new Map<Factor, Crossing>();
  const crossing = (factor: Factor): Crossing => {
    const found = crossings.get(factor) ?? cross(arms, factor);
    crossings.set(factor, found);
    return found;
  };
  // the coarsest recorded cook-like group that holds several arms in most of its levels
  const block = others(groupFactors.filter(({ key }) => key !== "chamber")).find((factor) => {
    const { levels, holdsSeveral, recorded } = crossing(factor);
    if (recorded < known) return false;
    const holdingSeveral = holdsSeveral.filter(Boolean).length;
    return holdingSeveral >= 2 && holdingSeveral * 2 >= levels.length;
  });
  return {
    treatment,
    arms,
    get unit() {
      if (arms.length < 2) return "tray";
      // of several groups that were treated as a whole, the one with the fewest members leaves the fewest independent units
      const whole = others(groupFactors)
        .filter((factor) => isWholeUnit(crossing(factor), known))
        .sort((a, b) => crossing(a).levels.length - crossing(b).levels.length);
      return whole[0] ?? "tray";
    },
    block,
    get blockLevels() {
      return block === undefined ? [] : [...crossing(block).levels].sort(byName());
    },
    get ties() {
      return others(companionFactors).flatMap((factor): Tie[] => {
        const { levels, recorded } = crossing(factor);
        if (recorded < known / 2) return [];
        // a companion with a level of its own for nearly every tray groups nothing
        if (levels.length > recorded / 1.5) return [];
        const extent = tieBetween(crossing(factor));
        return extent === "none" ? [] : [{ factor, extent, levels: levels.length }];
      });
    },
  };
}
