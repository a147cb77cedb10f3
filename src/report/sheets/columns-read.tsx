import type { ColumnReading } from "../../records/book.ts";
import { harvestField, isHarvestFieldKey } from "../../records/harvest-field.ts";
import { SheetTable } from "./sheet-table.tsx";

const mostColumns = 300;

/** What a column was taken for, in the grower's words. */
function meaningOf(field: ColumnReading["field"]): string {
  if (field === "factor") return "kept as it is, under its own header";
  if (field === "unread") return "not read; the log says why";
  return isHarvestFieldKey(field) ? harvestField(field).label : field;
}

/** How each column of each sheet was understood. */
export function ColumnsRead({ columns }: { columns: ReadonlyArray<ColumnReading> }) {
  return (
    <SheetTable
      id="columns-read"
      caption="Columns of the harvest sheets"
      columns={[
        { label: "Header as typed" },
        { label: "Read as" },
        { label: "Bare numbers in" },
        { label: "Decided by", wide: true },
        { label: "File" },
      ]}
      rows={columns
        .slice(0, mostColumns)
        .map(({ file, header, field, because, unit }) => [
          header === "" ? "(no header)" : header,
          meaningOf(field),
          unit,
          because,
          file,
        ])}
      note={
        columns.length > mostColumns
          ? `The first ${mostColumns} of ${columns.length} columns are shown.`
          : "To settle a column another way, pin it in columns.csv."
      }
    />
  );
}
