import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { DateConventions } from "../dates/parse-date.ts";
import { dateOrderEvidence } from "../evidence/date-order-evidence.ts";

/**
 * How the dates of a column are to be read: as the settings say, else in the order that its unmistakable dates show,
 * where they agree.
 * @param index the column; undefined when the sheet has none
 */
export function datesOf(
  table: RawTable,
  index: number | undefined,
  { dateOrder, serialDates }: Pick<Settings, "dateOrder" | "serialDates">,
): DateConventions {
  if (dateOrder !== "" || index === undefined) return { order: dateOrder, epoch: serialDates };
  let dayFirst = false;
  let monthFirst = false;
  table.forEachRow((cells) => {
    const shown = dateOrderEvidence(cells[index]!);
    if (shown === "day first") dayFirst = true;
    else if (shown === "month first") monthFirst = true;
  });
  return { order: dayFirst === monthFirst ? "" : dayFirst ? "day first" : "month first", epoch: serialDates };
}
