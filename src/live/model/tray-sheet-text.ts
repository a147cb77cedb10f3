import Papa from "papaparse";
import { cleanedHarvestCsv } from "../../cleaning/cleaned-harvest-csv.ts";
import { withoutGuard } from "../../csv/formula-guard.ts";
import type { Book } from "../../records/book.ts";
import { harvestField, isHarvestFieldKey } from "../../records/harvest-field.ts";
import type { LiveColumn, LiveSheet } from "./live-sheet.ts";

function columnOf(key: string): LiveColumn {
  if (!isHarvestFieldKey(key)) return { key, label: key, unit: "", isNumber: false };
  const { label, unit, kind } = harvestField(key);
  return {
    key,
    label,
    unit,
    isNumber: kind !== "text" && kind !== "date" && kind !== "outcome",
    ...(kind === "outcome" ? { choices: ["good", "contaminated", "failed", "discarded", "growing"] } : {}),
    ...(key === "tray_id" ? { fixed: "a tray's name ties its rows together; change it in your own sheet" } : {}),
  };
}

/** The trays of a book as one tidy harvest sheet, in the form the cleaned sheet has. */
export function traySheet(book: Book): LiveSheet {
  const { data } = Papa.parse<string[]>(cleanedHarvestCsv(book), { delimiter: ",", newline: "\r\n" });
  const rows = data.filter((cells) => cells.length > 1).map((cells) => cells.map(withoutGuard));
  const [header = [], ...body] = rows;
  return { name: "trays", title: "Trays", columns: header.map(columnOf), rows: body };
}
