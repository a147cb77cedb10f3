import type { ColumnPlan } from "../columns/column-plan.ts";
import { parseDate } from "../dates/parse-date.ts";
import { type CellFact, type CellRemark, nothing } from "./cell-fact.ts";
import { outcomeWordFact } from "./outcome-word-fact.ts";
import { settingAction } from "./read-quantity-cell.ts";

const expected = "a date such as 2026-03-14";

/**
 * What a cell of a column of dates adds to its tray.
 * @param text not empty
 */
export function readDateCell(text: string, { dates }: ColumnPlan): CellFact {
  const reading = parseDate(text, dates);
  const { changes } = reading;
  const last = changes.at(-1);
  const reason = [...new Set(changes.map((change) => change.reason))].join("; ");
  const remark = (rule: string, more: Partial<CellRemark> & Pick<CellRemark, "severity">): CellRemark => ({
    rule,
    reason,
    result: "",
    expected: "",
    action: "",
    ...more,
  });
  switch (reading.kind) {
    case "date":
      if (last === undefined) return { value: reading.iso };
      if (!reading.approximate)
        return { value: reading.iso, remark: remark(last.rule, { severity: "change", result: reading.iso }) };
      return {
        value: reading.iso,
        remark: remark("approximate", {
          severity: "warning",
          result: reading.iso,
          expected,
          action: "Type the date without the mark if it was noted on the day",
        }),
      };
    case "ambiguous":
      return {
        open: true,
        remark: remark("day-or-month", {
          severity: "warning",
          expected,
          action: settingAction("date_order"),
          setting: "date_order",
        }),
      };
    case "serial":
      return {
        open: true,
        remark: remark("serial-date", {
          severity: "warning",
          expected,
          action: settingAction("serial_dates"),
          setting: "serial_dates",
        }),
      };
    case "yearless":
      return {
        open: true,
        yearless: reading.days,
        remark: remark("no-year", { severity: "warning", expected, action: "Type the year with the date" }),
      };
    case "missing":
      return reading.how === "blank" ? nothing : { remark: remark("missing-word", { severity: "change" }) };
    case "outcome-word":
      return outcomeWordFact(reading.says, reading.queried, reason);
    case "unreadable":
      return {
        unread: true,
        remark: remark(last!.rule, { severity: "warning", expected, action: `Type ${expected}` }),
      };
  }
}
