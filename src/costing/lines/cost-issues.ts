import type { CostLine } from "../../records/cost-line.ts";
import { counted } from "../../records/counted.ts";
import type { Issue } from "../../records/issue.ts";
import { nameKey } from "../../records/name-key.ts";
import type { Shortfall } from "./cost-driver-quantity.ts";
import { doubtOfLine, type MoneyDoubt } from "./money-doubt.ts";
import type { PriceVersion } from "./price-versions.ts";

/** One log entry for all trays that lack the same thing for the same line. */
export function shortfallIssue(
  line: CostLine,
  { rule, severity, reason, expected, setting }: Shortfall,
  trays: string[],
): Issue {
  const named = trays.slice(0, 3).join(", ");
  return {
    file: line.source.file,
    row: line.source.row,
    column: "item",
    ...(trays.length === 1 ? { tray: trays[0]! } : {}),
    raw: line.item,
    result: `${counted(trays.length, "tray")}: ${named}${trays.length > 3 ? ", ..." : ""}`,
    rule,
    severity,
    reason,
    expected,
    action: `record ${expected}`,
    ...(setting === undefined ? {} : { setting }),
  };
}

/** A log entry about a whole cost line. */
export const lineIssue = (
  line: CostLine,
  rule: string,
  severity: Issue["severity"],
  reason: string,
  expected: string,
): Issue => ({
  file: line.source.file,
  row: line.source.row,
  column: "item",
  raw: line.item,
  result: "",
  rule,
  severity,
  reason,
  expected,
  action: expected === "" ? "" : `give ${expected}`,
});

/**
 * Says of how many trays the price is not certain: those without a date, and those older than an item's first price. The older
 * ones do not carry the item, which is a doubt: its day may be that of a purchase.
 */
export function uncertainPrices(
  versions: ReadonlyArray<PriceVersion>,
  days: ReadonlyArray<number | undefined>,
): { issues: Issue[]; doubts: MoneyDoubt[] } {
  const undated = days.filter((day) => day === undefined).length;
  const issues: Issue[] = [];
  const doubts: MoneyDoubt[] = [];
  for (const { line, from, until } of versions) {
    if (from === Number.NEGATIVE_INFINITY || line.per === "unit sold") continue;
    const isFirst = !versions.some((other) => nameKey(other.line.item) === nameKey(line.item) && other.from < from);
    const before = isFirst ? days.filter((day) => day !== undefined && day < from).length : 0;
    if (before > 0) {
      const reason = "trays inoculated before the item's first date do not carry it";
      const expected = "a line without from_date, with a price of 0 where it was not used yet";
      issues.push({
        ...lineIssue(line, "cost-before-first-price", "warning", reason, expected),
        result: counted(before, "tray"),
      });
      doubts.push(
        before < days.length
          ? doubtOfLine(line, reason, "in part", { trays: before })
          : doubtOfLine(line, reason, "left out"),
      );
    }
    if (undated > 0 && until === Number.POSITIVE_INFINITY && line.per !== "month") {
      issues.push({
        ...lineIssue(
          line,
          "cost-last-price-assumed",
          "note",
          "the date of inoculation is not recorded for some trays, so the last price is taken",
          "inoculated_on",
        ),
        result: counted(undated, "tray"),
      });
    }
  }
  return { issues, doubts };
}
