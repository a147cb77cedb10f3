import type { ColumnReading } from "../../records/book.ts";
import type { CostLine } from "../../records/cost-line.ts";
import { harvestField, isHarvestFieldKey } from "../../records/harvest-field.ts";
import { nameKey } from "../../records/name-key.ts";
import { toCanonical, unitNamed } from "../../records/words/units.ts";
import { quantityKindOf } from "../columns/column-plan.ts";
import { meaningsOfHeader } from "../columns/match-columns.ts";

import { splitUnit } from "./cost-amount.ts";

/** The column of trays that a name means: its header in a harvest sheet, or what it means in any. */
function columnNamed(name: string, columns: ReadonlyArray<ColumnReading>): string {
  if (isHarvestFieldKey(name)) return name;
  const read = columns.find(({ header, field }) => field !== "unread" && nameKey(header) === nameKey(name));
  if (read !== undefined) return read.field === "factor" ? read.header : read.field;
  const [best, next] = meaningsOfHeader(name).filter(({ rank }) => rank > 1);
  return best === undefined || next?.rank === best.rank ? name : best.field;
}

/** "10 ml" as 10, where the column is of volumes in mL. */
function valueIn(column: string, text: string): string {
  const kind = isHarvestFieldKey(column) ? quantityKindOf(harvestField(column).kind) : undefined;
  const { number, unit } = splitUnit(text);
  const named = kind === undefined ? undefined : unitNamed(unit, kind);
  const value = Number(number.replace(",", "."));
  return named === undefined || named.sizedBy !== undefined || Number.isNaN(value)
    ? text
    : String(toCanonical(value, named));
}

/** Cost lines for some trays only, with the column and its value as trays hold them: "LC ml" and "10 ml" as inoculum_ml and 10. */
export const limitedToTrays = (lines: ReadonlyArray<CostLine>, columns: ReadonlyArray<ColumnReading>): CostLine[] =>
  lines.map((line) => {
    const { onlyWhereColumn, onlyWhereValue } = line;
    if (onlyWhereColumn === undefined || onlyWhereValue === undefined || line.per === "unit sold") return line;
    const column = columnNamed(onlyWhereColumn, columns);
    return { ...line, onlyWhereColumn: column, onlyWhereValue: valueIn(column, onlyWhereValue) };
  });
