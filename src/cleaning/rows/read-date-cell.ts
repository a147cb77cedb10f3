import type { ColumnPlan } from "../columns/column-plan.ts";
import { parseDate } from "../dates/parse-date.ts";
import { yesOrNo } from "../values/yes-or-no.ts";
import { type CellFact, type CellRemark, nothing } from "./cell-fact.ts";
import { outcomeWordFact } from "./outcome-word-fact.ts";
import { settingAction } from "./read-quantity-cell.ts";

const expected = "a date such as 2026-03-14";

const swapped = "a date without its year, whose day and month can be swapped";

/**
 * What a cell of a column of dates adds to its tray.
 * @param text not empty
 */
export function readDateCell(text: string, { field, dates }: ColumnPlan): CellFact {
  // "Harvested: yes" says that it was done, not on which day; "Made it? no" may say that the tray did not
  const done = field === "inoculated_on" || /\d|^\s*$/.test(text) ? undefined : yesOrNo(text.trim());
  if (done !== undefined)
    return {
      ...(done ? { open: true } : {}),
      remark: {
        ...{ rule: "done-without-day", severity: "change", result: "", expected: "", action: "" },
        reason: done ? "says that it was done, and not on which day" : "says that it was not done",
      },
    };
  const reading = parseDate(text, dates);
  const { changes } = reading;
  const last = changes.at(-1);
  const reason = [...new Set(changes.map((change) => change.reason))].join("; ");
  const changed = (rule: string, result = ""): CellRemark => ({
    rule,
    reason,
    severity: "change",
    result,
    expected: "",
    action: "",
  });
  const asked = (rule: string, action: string, setting?: "date_order" | "serial_dates" | "first_year"): CellRemark => ({
    ...changed(rule),
    severity: "warning",
    expected,
    action,
    ...(setting === undefined ? {} : { setting }),
  });
  switch (reading.kind) {
    case "date": {
      if (last === undefined) return { value: reading.iso };
      if (!reading.approximate) return { value: reading.iso, remark: changed(last.rule, reading.iso) };
      const doubt = asked("approximate", "Type the date without the mark if it was noted on the day");
      return { value: reading.iso, remark: { ...doubt, result: reading.iso } };
    }
    case "ambiguous":
      return { open: true, remark: asked("day-or-month", settingAction("date_order"), "date_order") };
    case "serial":
      return { open: true, remark: asked("serial-date", settingAction("serial_dates"), "serial_dates") };
    case "yearless":
      if (reading.days.length > 1) {
        const remark = { ...asked("day-or-month", settingAction("date_order"), "date_order"), reason: swapped };
        return { open: true, yearless: reading.days, remark };
      }
      return {
        open: true,
        yearless: reading.days,
        remark: asked("no-year", settingAction("first_year"), "first_year"),
      };
    case "missing":
      return reading.how === "blank" ? nothing : { remark: changed("missing-word") };
    case "outcome-word":
      return outcomeWordFact(reading.says, reading.queried, reason);
    case "unreadable":
      return { unread: true, remark: { ...asked(last!.rule, `Type ${expected}`), severity: "error" } };
  }
}
