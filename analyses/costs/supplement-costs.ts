import type { TrayCosts } from "../../src/costing/trays/tray-costs.ts";
import type { Factor } from "../../src/design/factor.ts";
import { nameKey } from "../../src/records/name-key.ts";

/** What the supplement of one level costs. */
export interface SupplementCost {
  level: string;
  /** money per started tray */
  perTray: number;
  /** grams per started tray; undefined where they are not recorded */
  grams: number | undefined;
}

const supplementColumns = new Set(["supplement", "supplement_grade", "supplement_g"]);

/**
 * Money per started tray on lines that belong to a supplement: those counted per gram of it, and those for trays of one
 * supplement or grade only.
 */
export function supplementCosts(costs: TrayCosts, treatment: Factor): SupplementCost[] {
  const rows = costs.items.flatMap(({ line }, row) =>
    line.per === "supplement g" || supplementColumns.has(nameKey(line.onlyWhereColumn)) ? [row] : [],
  );
  const sums = new Map<string, { money: number; trays: number; grams: number; weighed: number }>();
  costs.trays.forEach((tray, index) => {
    const level = treatment.level(tray);
    if (level === undefined) return;
    const sum = sums.get(level) ?? { money: 0, trays: 0, grams: 0, weighed: 0 };
    sums.set(level, sum);
    sum.trays += tray.traysInPool;
    for (const row of rows) sum.money += costs.amounts[row]![index]!;
    if (tray.supplementGrams === undefined) return;
    sum.grams += tray.supplementGrams * tray.traysInPool;
    sum.weighed += tray.traysInPool;
  });
  return [...sums].map(([level, { money, trays, grams, weighed }]) => ({
    level,
    perTray: money / trays,
    grams: weighed === 0 ? undefined : grams / weighed,
  }));
}
