import type { CostKind, Stage } from "../../records/cost-line.ts";
import { isLost } from "../../records/tray.ts";
import { roundToAddUp } from "../apportion.ts";
import { compensatedSum } from "../compensated-sum.ts";
import type { TrayCosts, UnabsorbedCost } from "./tray-costs.ts";

/** One row of the cost sheet, in whole minor units. */
export interface CostSheetRow {
  item: string;
  kind: CostKind;
  stage: Stage;
  good: number;
  lost: number;
  growing: number;
  total: number;
}

/** What was spent, by item and by what became of the trays, in whole minor units that add up along and down. */
export interface CostSheet {
  rows: CostSheetRow[];
  totals: { good: number; lost: number; growing: number; total: number };
  /** monthly cost no tray carries, by item, apart from the table above */
  unabsorbed: { item: string; because: UnabsorbedCost["because"]; amount: number }[];
}

/**
 * The cost sheet of a book: every line with the trays it went to. Prices of one item at different dates are one row.
 * Cells are rounded so that rows add up to their total, columns to theirs, and with what no tray carries to the rounded sum
 * of what was spent.
 * @returns whole minor units of the book's currency
 * @example costSheet(costs).totals.total // 744
 */
export function costSheet(costs: TrayCosts): CostSheet {
  const decimals = costs.settings.currencyDecimals;
  const columns = ["good", "lost", "growing"] as const;
  const columnOf = costs.trays.map((tray) => (isLost(tray) ? 1 : tray.outcome === "good" ? 0 : 2));
  const merged = new Map<string, { row: number; cells: number[][] }>();
  costs.items.forEach(({ item, kind, stage }, row) => {
    const key = JSON.stringify([item, kind, stage]);
    const entry = merged.get(key) ?? { row, cells: [[], [], []] };
    merged.set(key, entry);
    const sums = columns.map((_, column) =>
      compensatedSum(costs.amounts[row]!.filter((_, index) => columnOf[index] === column)),
    );
    sums.forEach((sum, column) => {
      entry.cells[column]!.push(sum);
    });
  });
  const entries = [...merged.values()];
  const exact = columns.map((_, column) => entries.map(({ cells }) => compensatedSum(cells[column]!)));
  const unabsorbedExact = compensatedSum(costs.unabsorbed.map(({ amount }) => amount));
  const { parts: columnTotals, total: spent } = roundToAddUp([...exact.map(compensatedSum), unabsorbedExact], decimals);
  const unabsorbedTotal = columnTotals[3]!;
  const total = spent - unabsorbedTotal;
  const cells = exact.map((column, index) => roundToAddUp(column, decimals, columnTotals[index]!).parts);
  const rows = entries.map(({ row }, at) => {
    const { item, kind, stage } = costs.items[row]!;
    const [good, lost, growing] = [cells[0]![at]!, cells[1]![at]!, cells[2]![at]!];
    return { item, kind, stage, good, lost, growing, total: good + lost + growing };
  });
  const left = new Map<string, { item: string; because: UnabsorbedCost["because"]; amounts: number[] }>();
  for (const { item, because, amount } of costs.unabsorbed) {
    const key = JSON.stringify([item, because]);
    const entry = left.get(key) ?? { item, because, amounts: [] };
    left.set(key, entry);
    entry.amounts.push(amount);
  }
  const leftover = [...left.values()];
  const shown = roundToAddUp(
    leftover.map(({ amounts }) => compensatedSum(amounts)),
    decimals,
    unabsorbedTotal,
  );
  return {
    rows,
    totals: { good: columnTotals[0]!, lost: columnTotals[1]!, growing: columnTotals[2]!, total },
    unabsorbed: leftover.map(({ item, because }, index) => ({ item, because, amount: shown.parts[index]! })),
  };
}
