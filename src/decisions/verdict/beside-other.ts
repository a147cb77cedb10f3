import type { PlacedTray } from "./cell-table.ts";
import type { ComparedTray } from "./compared-tray.ts";
import { groupTrays } from "./group-trays.ts";
import { type OtherOf, separable } from "./other-factor.ts";

/** How another thing lies beside the thing compared, in groups that hold several levels of it. */
export interface BesideOther {
  /** each of four groups in five holds every one of its levels with every one of the other thing's */
  crossed: boolean;
  /** the two go together by more than chance brings about: over all groups, chi square is over a standard deviation above its mean */
  tied: boolean;
  /** whether it can be taken out without leaving a tray out */
  costsNoTray(): boolean;
}

/** Numbers for names, from 0 in the order met. */
function numbering(): (name: string) => number {
  const numbers = new Map<string, number>();
  return (name) => {
    let number = numbers.get(name);
    if (number === undefined) {
      number = numbers.size;
      numbers.set(name, number);
    }
    return number;
  };
}

const addOne = (counts: Map<number, number>, key: number): void => {
  counts.set(key, (counts.get(key) ?? 0) + 1);
};

/** Good trays of each group that holds several levels. */
function severalLevels(trays: ReadonlyArray<ComparedTray>): PlacedTray[][] {
  const groups = new Map<number, PlacedTray[]>();
  for (const placed of groupTrays(trays).trays) {
    if (placed.tray.value === "lost") continue;
    const own = groups.get(placed.group);
    if (own === undefined) groups.set(placed.group, [placed]);
    else own.push(placed);
  }
  return [...groups.values()].filter((own) => own.some(({ tray }) => tray.level !== own[0]!.tray.level));
}

/**
 * How any other thing lies beside the level of some trays inside cooks; what does not depend on that thing is found once.
 * @returns what is said of the thing that trays carry by `otherOf`
 * @source chi square of a table over strata, expected counts from each stratum's own margins, after Mantel 1963, Journal of
 *   the American Statistical Association 58:690-700; its mean and variance are (rows - 1)(columns - 1) and twice that
 */
export function besideOther(trays: ReadonlyArray<ComparedTray>): (otherOf: OtherOf) => BesideOther {
  const several = severalLevels(trays);
  return (otherOf) => {
    const [levelNumber, otherNumber] = [numbering(), numbering()];
    const [levels, others] = [new Set<number>(), new Set<number>()];
    const most = trays.length;
    const apart = new Map<number, { seen: number; expected: number }>();
    let crossed = 0;
    for (const own of several) {
      const [rows, columns, cells] = [new Map<number, number>(), new Map<number, number>(), new Map<number, number>()];
      for (const placed of own) {
        const [level, other] = [levelNumber(String(placed.tray.level)), otherNumber(otherOf(placed))];
        addOne(rows, level);
        addOne(columns, other);
        addOne(cells, level * most + other);
      }
      if (columns.size > 1 && cells.size === rows.size * columns.size) crossed++;
      for (const [level, inRow] of rows) {
        levels.add(level);
        for (const [other, inColumn] of columns) {
          others.add(other);
          const key = level * most + other;
          const cell = apart.get(key) ?? { seen: 0, expected: 0 };
          apart.set(key, cell);
          cell.seen += cells.get(key) ?? 0;
          cell.expected += (inRow * inColumn) / own.length;
        }
      }
    }
    let chiSquare = 0;
    for (const { seen, expected } of apart.values()) chiSquare += (seen - expected) ** 2 / expected;
    const freedom = (levels.size - 1) * (others.size - 1);
    return {
      crossed: several.length > 0 && crossed >= 0.8 * several.length,
      tied: freedom > 0 && chiSquare > freedom + Math.sqrt(2 * freedom),
      costsNoTray: () => separable(several.flat(), otherOf).leftOut.length === 0,
    };
  };
}
