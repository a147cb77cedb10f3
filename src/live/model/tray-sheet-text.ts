import Papa from "papaparse";
import { cleanedHarvestCsv } from "../../cleaning/cleaned-harvest-csv.ts";
import { withoutGuard } from "../../csv/formula-guard.ts";
import type { Book } from "../../records/book.ts";
import { harvestField, isHarvestFieldKey } from "../../records/harvest-field.ts";
import { outcomes } from "../../records/tray.ts";
import type { LiveColumn, LiveSheet } from "./live-sheet.ts";

/** as many different words as are worth a list */
const mostWords = 24;

/** The words a column uses again and again, to pick from; undefined where its cells mostly differ. */
function wordsIn(cells: ReadonlyArray<string>): ReadonlyArray<string> | undefined {
  const filled = cells.filter((cell) => cell !== "");
  const words = [...new Set(filled)].sort();
  return words.length > 0 && words.length <= mostWords && words.length * 2 <= filled.length ? words : undefined;
}

function columnOf(key: string, cells: ReadonlyArray<string>): LiveColumn {
  const words = wordsIn(cells);
  const known = words === undefined ? {} : { choices: words };
  if (!isHarvestFieldKey(key)) return { key, label: key, unit: "", isNumber: false, ...known };
  const { label, unit, kind } = harvestField(key);
  return {
    key,
    label,
    unit,
    isNumber: kind !== "text" && kind !== "date" && kind !== "outcome",
    ...(kind === "date" ? { isDate: true } : {}),
    ...(kind === "text" && key !== "tray_id" && key !== "note" ? known : {}),
    ...(kind === "outcome" ? { choices: outcomes } : {}),
    ...(key === "tray_id" ? { fixed: "a tray's name ties its rows together; change it in your own sheet" } : {}),
  };
}

/** The trays of a book as one tidy harvest sheet, in the form the cleaned sheet has. */
export function traySheet(book: Book): LiveSheet {
  const { data } = Papa.parse<string[]>(cleanedHarvestCsv(book), { delimiter: ",", newline: "\r\n" });
  const rows = data.filter((cells) => cells.length > 1).map((cells) => cells.map(withoutGuard));
  const [header = [], ...body] = rows;
  const columns = header.map((key, index) =>
    columnOf(
      key,
      body.map((cells) => cells[index] ?? ""),
    ),
  );
  return { name: "trays", title: "Trays", columns, rows: body };
}
