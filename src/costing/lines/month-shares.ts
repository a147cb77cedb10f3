import { dayNumber, daysInMonth } from "../../measures/day-number.ts";
import type { CostLine } from "../../records/cost-line.ts";
import type { CostDriverQuantity, Shortfall } from "./cost-driver-quantity.ts";
import type { PriceVersion } from "./price-versions.ts";

/** Cost of a month that no tray carries. */
export interface UnabsorbedMonth {
  /** "2026-03" */
  month: string;
  quantity: number;
  /** idle: below the normal number of trays; no trays: none was started in that month */
  because: "idle" | "no trays";
}

/** Every month from the first to the last, both included. @example monthsFrom("2025-11", "2026-01").length // 3 */
export function monthsFrom(first: string, last: string): string[] {
  const months: string[] = [];
  let [year, month] = [Number(first.slice(0, 4)), Number(first.slice(5, 7))];
  for (let at = first; at <= last; ) {
    months.push(at);
    [year, month] = month === 12 ? [year + 1, 1] : [year, month + 1];
    at = `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}`;
  }
  return months;
}

/** Share of a month's days on which a price was in force. */
function shareInForce({ from, until }: PriceVersion, month: string): number {
  const length = daysInMonth(Number(month.slice(0, 4)), Number(month.slice(5, 7)));
  const first = dayNumber(`${month}-01`);
  return Math.max(0, Math.min(until, first + length) - Math.max(from, first)) / length;
}

/**
 * Shares a monthly cost over the trays started in each month, from the first month of the book to the last. With a
 * normal number of trays a month, each tray carries one part in that number and what is left of a slack month is idle
 * capacity, apart from the trays; in a month above normal each tray carries less, so that no more than the cost is
 * shared out. A price that changes within a month counts by the days it was in force. A tray without a date counts in
 * every month in equal parts, so that what was paid is shared out once, whatever is undated; where no tray has a date
 * there are no months, and each carries its part of a normal one.
 * @param monthOf month a tray was started in; undefined when not recorded
 * @param weightOf trays a record is counted as when the line is for it, else 0
 * @source IAS 2 paragraph 13: fixed overheads on normal capacity, unallocated ones an expense of the period, less per unit
 *   in periods of abnormally high production
 */
export function monthShares(
  version: PriceVersion,
  line: CostLine,
  count: number,
  monthOf: (index: number) => string | undefined,
  weightOf: (index: number) => number,
): { quantity: CostDriverQuantity; unabsorbed: UnabsorbedMonth[] } {
  const { started, undated, months } = startsByMonth(count, monthOf, weightOf);
  const normal = line.normalTraysPerMonth;
  const perTray = new Map<string, number>();
  const unabsorbed: UnabsorbedMonth[] = [];
  let perUndated = 0;
  for (const month of months) {
    const share = shareInForce(version, month);
    if (share === 0) continue;
    const trays = (started.get(month) ?? 0) + undated / months.length;
    const carriers = Math.max(trays, normal ?? 0);
    if (carriers === 0) {
      unabsorbed.push({ month, quantity: share, because: "no trays" });
      continue;
    }
    if (trays < carriers) unabsorbed.push({ month, quantity: share * (1 - trays / carriers), because: "idle" });
    perTray.set(month, share / carriers);
    perUndated += share / carriers / months.length;
  }
  const quantity: CostDriverQuantity = (index) => {
    const weight = weightOf(index);
    if (weight === 0) return 0;
    const month = monthOf(index);
    if (month !== undefined) return weight * (perTray.get(month) ?? 0);
    if (months.length > 0) return { quantity: weight * perUndated, shortfall: everyMonth };
    if (version.until !== Number.POSITIVE_INFINITY) return 0;
    return normal === undefined
      ? { quantity: 0, shortfall: noMonths }
      : { quantity: weight / normal, shortfall: normalMonth };
  };
  return { quantity, unabsorbed };
}

const everyMonth: Shortfall = {
  rule: "cost-every-month-assumed",
  severity: "note",
  reason: "the date of inoculation is not recorded, so the tray carries an equal part of every month",
  expected: "inoculated_on",
};
const normalMonth: Shortfall = {
  rule: "cost-normal-month-assumed",
  severity: "note",
  reason: "the date of inoculation is not recorded, so the tray carries its share of a normal month",
  expected: "inoculated_on",
};
const noMonths: Shortfall = {
  rule: "cost-not-counted",
  severity: "warning",
  reason: "the date of inoculation is not recorded, so the monthly cost is not counted for the tray",
  expected: "inoculated_on, or normal_trays_per_month in costs.csv",
};

/** Trays started in each month the line is for, those without a date, and every month of the book. */
function startsByMonth(
  count: number,
  monthOf: (index: number) => string | undefined,
  weightOf: (index: number) => number,
): { started: Map<string, number>; undated: number; months: string[] } {
  const started = new Map<string, number>();
  let undated = 0;
  let [first, last] = ["9999-12", "0000-01"];
  for (let index = 0; index < count; index++) {
    const month = monthOf(index);
    if (month === undefined) {
      undated += weightOf(index);
      continue;
    }
    if (month < first) first = month;
    if (month > last) last = month;
    started.set(month, (started.get(month) ?? 0) + weightOf(index));
  }
  return { started, undated, months: monthsFrom(first, last) };
}
