import type { Trial } from "../../src/analysis.ts";
import { quantileType7 } from "../../src/statistics/descriptive/quantile.ts";
import { harvestDays } from "../comparison/tray-days.ts";

/** Growing trays by how long they have grown on the report's date. */
export interface DueTrays {
  /** longer than any tray of this book took */
  overdue: { tray: string; days: number }[];
  /** as long as half of the trays took */
  due: { tray: string; days: number }[];
}

const dayLength = 86_400_000;

/** fewest harvested trays from which the time a tray takes is known */
const fewest = 5;

/**
 * Growing trays that are due: they have grown as long as half of this book's trays took from inoculation to harvest. None
 * where the book states no date of the report, or too few harvests tell how long a tray takes.
 */
export function dueTrays({ trays, settings }: Trial): DueTrays {
  const taken = trays.flatMap((tray) => harvestDays.of(tray) ?? []).sort((a, b) => a - b);
  const today = Date.parse(settings.reportDate);
  if (taken.length < fewest || Number.isNaN(today)) return { overdue: [], due: [] };
  const [usual, longest] = [quantileType7(taken, 0.5), taken.at(-1)!];
  const growing = trays.flatMap(({ trayId: tray, outcome, inoculatedOn }) => {
    const days = (today - Date.parse(inoculatedOn ?? "")) / dayLength;
    return outcome === "growing" && days >= usual ? [{ tray, days }] : [];
  });
  growing.sort((a, b) => b.days - a.days);
  return { overdue: growing.filter(({ days }) => days > longest), due: growing.filter(({ days }) => days <= longest) };
}
