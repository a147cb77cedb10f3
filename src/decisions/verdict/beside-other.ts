import type { PlacedTray } from "./cell-table.ts";
import type { ComparedTray } from "./compared-tray.ts";
import { groupTrays } from "./group-trays.ts";
import { otherIn, separable } from "./other-factor.ts";

/** How another thing lies beside the thing compared, in groups that hold several levels of it. */
export interface BesideOther {
  /** it can be taken out without leaving a tray out */
  costsNoTray: boolean;
  /** each of four groups in five holds every one of its levels with every one of the other thing's */
  crossed: boolean;
  /** the two go together by more than chance brings about: over all groups, chi square is over a standard deviation above its mean */
  tied: boolean;
}

/**
 * Looks at how the other thing that trays carry (`other`) lies beside their level inside cooks.
 * @source chi square of a table over strata, expected counts from each stratum's own margins, after Mantel 1963, Journal of
 *   the American Statistical Association 58:690-700; its mean and variance are (rows - 1)(columns - 1) and twice that
 */
export function besideOther(trays: ReadonlyArray<ComparedTray>): BesideOther {
  const otherOf = otherIn(trays);
  if (otherOf === undefined) return { costsNoTray: true, crossed: false, tied: false };
  const groups = new Map<number, PlacedTray[]>();
  for (const placed of groupTrays(trays).trays) {
    if (placed.tray.value === "lost") continue;
    const own = groups.get(placed.group);
    if (own === undefined) groups.set(placed.group, [placed]);
    else own.push(placed);
  }
  const several = [...groups.values()].filter((own) => new Set(own.map(({ tray }) => tray.level)).size > 1);
  const apart = new Map<string, { seen: number; expected: number }>();
  const [levels, others] = [new Set<string>(), new Set<string>()];
  let crossed = 0;
  for (const own of several) {
    const [rows, columns, cells] = [new Map<string, number>(), new Map<string, number>(), new Map<string, number>()];
    const add = (counts: Map<string, number>, key: string) => counts.set(key, (counts.get(key) ?? 0) + 1);
    for (const placed of own) {
      const [level, other] = [String(placed.tray.level), otherOf(placed)];
      add(rows, level);
      add(columns, other);
      add(cells, JSON.stringify([level, other]));
    }
    if (columns.size > 1 && cells.size === rows.size * columns.size) crossed++;
    for (const [level, inRow] of rows) {
      levels.add(level);
      for (const [other, inColumn] of columns) {
        others.add(other);
        const key = JSON.stringify([level, other]);
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
    costsNoTray: separable(several.flat(), otherOf).leftOut.length === 0,
    crossed: several.length > 0 && crossed >= 0.8 * several.length,
    tied: freedom > 0 && chiSquare > freedom + Math.sqrt(2 * freedom),
  };
}
