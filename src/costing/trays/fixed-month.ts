import type { CostLine } from "../../records/cost-line.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import { compensatedSum } from "../compensated-sum.ts";
import { costPerUse } from "../lines/cost-per-use.ts";
import { growsWithOutput } from "../lines/line-stage.ts";
import { monthsFrom } from "../lines/month-shares.ts";
import { priceVersions } from "../lines/price-versions.ts";
import { meanMonthDays } from "./book-rates.ts";
import type { TrayCosts } from "./tray-costs.ts";

/** A cost that is paid every month whatever is made. */
export interface FixedMonthLine {
  item: string;
  /** money a month */
  amount: number;
  ownerLabour: boolean;
  /** how the month's amount is known */
  basis: "per month" | "all places, every day" | "written off by years" | "mean of the book's months";
}

/** What a month costs whatever is made. */
export interface FixedMonth {
  kind: "fixed";
  lines: FixedMonthLine[];
  total: number;
  withoutOwnerLabour: number;
}

/** The line's whole amount in a month, where the line itself tells it. */
function wholeMonth(
  line: CostLine,
  perUse: number,
  shelfPlaces: number,
): Omit<FixedMonthLine, "item" | "ownerLabour"> | undefined {
  if (line.per === "month") return { amount: perUse, basis: "per month" };
  if (line.kind === "reusable" && line.usesPerYear !== undefined) {
    return { amount: (perUse * line.usesPerYear) / 12, basis: "written off by years" };
  }
  const isForAllTime = line.stage === undefined || line.stage === "filling" || line.stage === "inoculation";
  if (line.per === "shelf day" && isForAllTime && line.onlyWhereColumn === undefined) {
    return { amount: perUse * shelfPlaces * meanMonthDays, basis: "all places, every day" };
  }
  return undefined;
}

/**
 * Cost a month that is there whatever is made, at the prices in force now: what is paid by the month, rent and overhead
 * per shelf day for every place and day, equipment written off by years. Rent and overhead per tray or cook count at the
 * mean of the book's months. The owner's time varies with the trays, so only time by the month is in it.
 * @returns cannot-tell when such a mean is needed and no tray has a date
 * @example fixedMonth(costs).total // 0
 */
export function fixedMonth(costs: TrayCosts): FixedMonth | CannotTell {
  const { settings, trays } = costs;
  const dated = trays.flatMap(({ inoculatedOn }) => inoculatedOn?.slice(0, 7) ?? []).sort();
  const months = dated.length === 0 ? 0 : monthsFrom(dated[0]!, dated.at(-1)!).length;
  const lines: FixedMonthLine[] = [];
  for (const { line, until } of priceVersions(costs.costLines)) {
    const isFixed = line.per === "month" || (!growsWithOutput(line) && !line.ownerLabour);
    if (line.per === "unit sold" || until !== Number.POSITIVE_INFINITY || !isFixed) continue;
    const perUse = costPerUse(line, settings);
    if (perUse.kind === "cannot-tell") continue;
    const whole = wholeMonth(line, perUse.money, settings.shelfPlaces);
    if (whole !== undefined) {
      lines.push({ item: line.item, ownerLabour: line.ownerLabour, ...whole });
      continue;
    }
    if (months === 0) return cannotTell("no tray has a date of inoculation, so months cannot be counted");
    const row = costs.items.findIndex((item) => item.line === line);
    const amount = compensatedSum(costs.amounts[row]!) / months;
    lines.push({ item: line.item, ownerLabour: line.ownerLabour, amount, basis: "mean of the book's months" });
  }
  const sum = (some: ReadonlyArray<FixedMonthLine>): number => compensatedSum(some.map(({ amount }) => amount));
  return {
    kind: "fixed",
    lines,
    total: sum(lines),
    withoutOwnerLabour: sum(lines.filter(({ ownerLabour }) => !ownerLabour)),
  };
}
