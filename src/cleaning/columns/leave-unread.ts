import type { ColumnReading } from "../../records/book.ts";
import type { RawTable } from "../../records/sheet.ts";
import type { ColumnPin } from "./column-plan.ts";
import { pinOf } from "./plan-columns.ts";

/** Sheets of money without the names of the columns that columns.csv leaves unread, and those columns. */
export function leaveUnread(
  { costs, products }: Record<"costs" | "products", ReadonlyArray<RawTable>>,
  pins: ReadonlyArray<ColumnPin>,
): { costs: RawTable[]; products: RawTable[]; left: Pick<ColumnReading, "file" | "header">[] } {
  const left: Pick<ColumnReading, "file" | "header">[] = [];
  const kept = (table: RawTable): RawTable => {
    const { file } = table;
    const header = table.header.map((name) => {
      if (name === "" || pinOf(pins, file, name)?.field !== "unread") return name;
      left.push({ file, header: name });
      return "";
    });
    return { ...table, header };
  };
  return { costs: costs.map(kept), products: products.map(kept), left };
}
