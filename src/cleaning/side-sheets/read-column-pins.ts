import { sheetIssue } from "../../csv/sheet-issue.ts";
import { harvestField, harvestFields, isHarvestFieldKey } from "../../records/harvest-field.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { RawTable } from "../../records/sheet.ts";
import { closestWord } from "../../records/words/closest-word.ts";
import { unitNamed } from "../../records/words/units.ts";
import { type ColumnPin, quantityKindOf } from "../columns/column-plan.ts";
import { matchColumns, plainName } from "./match-side-columns.ts";

const columns = [
  { key: "file", names: "sheet|in|files|where|file name|workbook" },
  { key: "header", names: "column|typed|column name|heading|my header|as typed|in the sheet" },
  { key: "field", names: "means|meaning|is|read as|harvest column|canonical|maps to|holds|take as" },
  { key: "unit", names: "units|in unit|bare unit|numbers in" },
  { key: "note", names: "notes|comment|comments|remark|because|why" },
] as const;

const fieldByName = new Map<string, ColumnPin["field"]>();
for (const { key, label } of harvestFields) {
  fieldByName.set(plainName(key), key);
  fieldByName.set(plainName(label), key);
}
for (const word of ["factor", "free", "keep", "other", "pass through", "treatment"]) fieldByName.set(word, "factor");
for (const word of ["unread", "ignore", "ignored", "skip", "none", "nothing", "drop", "leave out", "no"]) {
  fieldByName.set(word, "unread");
}
const fieldNames = [...fieldByName.keys()];

/**
 * Reads columns.csv, a book's own word on what its columns hold: `file,header,field,unit`. An empty file, or *, stands for
 * every sheet; a file is named by its path or its last part. `field` is a canonical harvest column, "factor" to pass the
 * column through, or "unread" to leave it out. `unit` is what numbers typed without one are in; empty leaves it open.
 * @param tables the sheets that hold pins
 */
export function readColumnPins(tables: ReadonlyArray<RawTable>): {
  pins: ColumnPin[];
  issues: Issue[];
  leftOut: LeftOutRow[];
} {
  const pins: ColumnPin[] = [];
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  const rowOf = new Map<string, { pin: ColumnPin; row: number }>();
  for (const table of tables) {
    const { found, issues: headerIssues } = matchColumns(table, columns);
    issues.push(...headerIssues);
    const at = { header: found.get("header")?.index, field: found.get("field")?.index };
    if (at.header === undefined || at.field === undefined) {
      issues.push(
        sheetIssue({
          file: table.file,
          row: table.headerRow,
          rule: "missing-column",
          severity: "error",
          raw: table.header.join(", "),
          reason: "the sheet needs a column header and a column field; nothing in it was used",
          expected: "file,header,field,unit",
          action: "Name the columns so",
        }),
      );
      table.forEachRow((cells, row) =>
        leftOut.push({
          file: table.file,
          row,
          cells,
          rule: "missing-column",
          reason: "a column the sheet needs is missing",
        }),
      );
      continue;
    }
    const { header: headerAt, field: fieldAt } = at as { header: number; field: number };
    table.forEachRow((cells, row) => {
      const cell = (key: "file" | "unit") => (found.has(key) ? cells[found.get(key)!.index]!.trim() : "");
      const refuse = (column: string, raw: string, rule: string, reason: string, expected: string) => {
        issues.push(
          sheetIssue({
            file: table.file,
            row,
            column,
            raw,
            rule,
            severity: "error",
            reason,
            expected,
            action: "Correct the line, or remove it",
          }),
        );
        leftOut.push({ file: table.file, row, cells, rule, reason });
      };
      const header = cells[headerAt]!.replace(/\s+/g, " ").trim();
      const typedField = cells[fieldAt]!.trim();
      // a line without an answer is one still to be decided
      if (typedField === "") return;
      if (header === "")
        return refuse("header", "", "missing", "the line names no column", "a header as it stands in the sheet");
      const plain = plainName(typedField);
      const near = fieldByName.has(plain) ? plain : closestWord(plain, fieldNames, (name) => fieldByName.get(name)!);
      const field = near === undefined ? undefined : fieldByName.get(near);
      if (field === undefined) {
        return refuse(
          "field",
          typedField,
          "unknown-field",
          "this is no canonical column",
          "a canonical harvest column, factor or unread",
        );
      }
      if (field !== typedField) {
        issues.push(
          sheetIssue({
            file: table.file,
            row,
            column: "field",
            raw: typedField,
            result: field,
            rule: "field-name",
            severity: "change",
            reason: "another name for a canonical column",
          }),
        );
      }
      const typedUnit = cell("unit");
      const kind = isHarvestFieldKey(field) ? quantityKindOf(harvestField(field).kind) : undefined;
      const named = kind === undefined ? undefined : unitNamed(typedUnit, kind);
      if (typedUnit !== "" && named === undefined) {
        const expected = kind === undefined ? "no unit" : `a unit of ${kind === "mass" ? "weight" : kind}`;
        return refuse("unit", typedUnit, "unknown-unit", "the column cannot be in this unit", expected);
      }
      const typedFile = cell("file");
      const pin: ColumnPin = { file: typedFile === "*" ? "" : typedFile, header, field, unit: named?.name ?? "" };
      const key = `${pin.file}\n${header}`.toLowerCase();
      const before = rowOf.get(key);
      if (before !== undefined) {
        if (before.pin.field === field && before.pin.unit === pin.unit) return;
        return refuse(
          "field",
          typedField,
          "pinned-twice",
          "the same column is pinned in two ways; the first line counts",
          `one line for it; the other is row ${before.row}`,
        );
      }
      rowOf.set(key, { pin, row });
      pins.push(pin);
    });
  }
  return { pins, issues, leftOut };
}
