import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import { decimalEvidence } from "../evidence/decimal-evidence.ts";

/**
 * The decimal mark of a side sheet: the settings' answer, else what its cells show; "" when they show nothing or both.
 * @param columns indexes of the columns that hold numbers
 */
export function decimalMarkOf(
  table: RawTable,
  columns: ReadonlyArray<number>,
  { decimalMark }: Pick<Settings, "decimalMark">,
): "" | "." | "," {
  if (decimalMark !== "") return decimalMark === "comma" ? "," : ".";
  const shown = new Set<string>();
  table.forEachRow((cells) => {
    for (const column of columns) shown.add(decimalEvidence(cells[column]!));
  });
  if (shown.has(".") === shown.has(",")) return "";
  return shown.has(".") ? "." : ",";
}
