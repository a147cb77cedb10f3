import { appendAll } from "../../records/append-all.ts";
import { harvestField, harvestFields, isHarvestFieldKey } from "../../records/harvest-field.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { RawTable } from "../../records/sheet.ts";
import { closestAmong } from "../../records/words/closest-word.ts";
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
const closestField = closestAmong([...fieldByName.keys()], (name) => fieldByName.get(name)!);

/** What a line of pins says wrong. */
interface PinTrouble {
  column: string;
  raw: string;
  rule: string;
  reason: string;
  expected: string;
}

/** The field a typed word means, and whether it is another name for it. */
function fieldOf(typed: string): ColumnPin["field"] | undefined {
  const plain = plainName(typed);
  const near = fieldByName.has(plain) ? plain : closestField(plain);
  return near === undefined ? undefined : fieldByName.get(near);
}

/** One line of pins: the pin, nothing for a line still to be decided, or what is wrong with it. */
function pinOf(
  cell: (key: "file" | "header" | "field" | "unit") => string,
): { kind: "pin"; pin: ColumnPin } | { kind: "undecided" } | ({ kind: "trouble" } & PinTrouble) {
  const header = cell("header").replace(/\s+/g, " ");
  const typedField = cell("field");
  if (typedField === "") return { kind: "undecided" };
  if (header === "") {
    const expected = "a header as it is typed in the sheet";
    return {
      kind: "trouble",
      column: "header",
      raw: "",
      rule: "missing",
      reason: "the line names no column",
      expected,
    };
  }
  const field = fieldOf(typedField);
  if (field === undefined) {
    const expected = `one of: ${[...harvestFields.map(({ key }) => key), "factor", "unread"].join(", ")}`;
    const reason = "there is no field of this name";
    return { kind: "trouble", column: "field", raw: typedField, rule: "unknown-field", reason, expected };
  }
  const typedUnit = cell("unit");
  const kind = isHarvestFieldKey(field) ? quantityKindOf(harvestField(field).kind) : undefined;
  const named = kind === undefined ? undefined : unitNamed(typedUnit, kind);
  if (typedUnit !== "" && named === undefined) {
    const expected = kind === undefined ? "no unit" : `a unit of ${kind === "mass" ? "weight" : kind}`;
    const reason = "the column cannot be in this unit";
    return { kind: "trouble", column: "unit", raw: typedUnit, rule: "unknown-unit", reason, expected };
  }
  const file = cell("file");
  return { kind: "pin", pin: { file: file === "*" ? "" : file, header, field, unit: named?.name ?? "" } };
}

const lacksColumns = (table: RawTable): Issue =>
  logEntry({
    file: table.file,
    row: table.headerRow,
    rule: "missing-column",
    severity: "error",
    raw: table.header.join(", "),
    reason: "the sheet needs a column header and a column field; nothing in it was used",
    expected: "file,header,field,unit",
    action: "Name the columns so",
  });

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
    const { file } = table;
    const { found, issues: headerIssues } = matchColumns(table, columns);
    appendAll(issues, headerIssues);
    if (!found.has("header") || !found.has("field")) {
      issues.push(lacksColumns(table));
      const reason = "a column the sheet needs is missing";
      table.forEachRow((cells, row) => leftOut.push({ file, row, cells, rule: "missing-column", reason }));
      continue;
    }
    table.forEachRow((cells, row) => {
      const cell = (key: "file" | "header" | "field" | "unit") => cells[found.get(key)?.index ?? -1]?.trim() ?? "";
      const refuse = ({ column, raw, rule, reason, expected }: PinTrouble) => {
        const action = "Correct the line, or remove it";
        issues.push(logEntry({ file, row, column, raw, rule, severity: "error", reason, expected, action }));
        leftOut.push({ file, row, cells, rule, reason });
      };
      const line = pinOf(cell);
      if (line.kind === "trouble") return refuse(line);
      if (line.kind === "undecided") return;
      const { pin } = line;
      // spring.columns.csv is about spring.csv
      pin.file ||= /([^/]+)\.columns?\.[^.]+$/i.exec(file)?.[1] ?? "";
      const raw = cell("field");
      if (pin.field !== raw) {
        const reason = "another name for a canonical column";
        const about = { file, row, column: "field", raw, result: pin.field, reason } as const;
        issues.push(logEntry({ ...about, rule: "field-name", severity: "change" }));
      }
      const key = `${pin.file}\n${pin.header}`.toLowerCase();
      const before = rowOf.get(key);
      if (before === undefined) {
        rowOf.set(key, { pin, row });
        pins.push({ ...pin, line: { file, row } });
      } else if (before.pin.field !== pin.field || before.pin.unit !== pin.unit) {
        const reason = "the same column is pinned in two ways; the first line counts";
        const expected = `one line for it; the other is row ${before.row}`;
        refuse({ column: "field", raw, rule: "pinned-twice", reason, expected });
      }
    });
  }
  return { pins, issues, leftOut };
}
