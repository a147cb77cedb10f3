import type { Tray } from "../records/tray.ts";
import { type Arm, armsOf } from "./arm.ts";
import { batchFactor, type Factor, jarFactor, loadFactor } from "./factor.ts";

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

/** The arms of a treatment, and how each of some companions stands with them. */
function crossed(trays: ReadonlyArray<Tray>, treatment: Factor, companions: ReadonlyArray<Factor>) {
  const arms = armsOf(trays, treatment);
  return companions
    .filter(({ key }) => key !== treatment.key)
    .map((factor) => ({ factor, crossing: cross(arms, factor) }));
}

/**
 * Whether some group holds several levels of a treatment at once, in at least two and half of its members, so that levels
 * can be compared inside it. Every tray on which the treatment is recorded has to lie in a group.
 * @param trays the started trays that count
 */
export function hasBlocks(trays: ReadonlyArray<Tray>, treatment: Factor): boolean {
  const known = trays.filter((tray) => treatment.level(tray) !== undefined).length;
  return crossed(trays, treatment, [batchFactor, loadFactor, jarFactor]).some(({ crossing }) => {
    const { levels, holdsSeveral, recorded } = crossing;
    const holdingSeveral = holdsSeveral.filter(Boolean).length;
    return recorded >= known && holdingSeveral >= 2 && holdingSeveral * 2 >= levels.length;
  });
}

/**
 * The first companion that changed with the treatment, so that no difference between its levels can be had while holding the
 * companion fixed: when every companion level joins the treatment levels it holds, none holds two and they fall apart.
 * A companion counts that half of the trays bear, and not with a level of its own for nearly every tray.
 * @source connectedness of a two-way layout, Bose 1949 (from memory); an unconnected example: Searle 1971, Linear Models,
 *   324-325
 */
export function tiedTo(
  trays: ReadonlyArray<Tray>,
  treatment: Factor,
  companions: ReadonlyArray<Factor>,
): Factor | undefined {
  const known = trays.filter((tray) => treatment.level(tray) !== undefined).length;
  return crossed(trays, treatment, companions).find(({ crossing }) => {
    const { levels, holdsSeveral, pieces, recorded } = crossing;
    if (recorded < known / 2 || levels.length > recorded / 1.5) return false;
    return pieces > 1 && !holdsSeveral.includes(true);
  })?.factor;
}
