import { addTo } from "../../records/grouped.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { RawTable } from "../../records/sheet.ts";
import { withRows } from "../../records/with-rows.ts";
import { columnLetters } from "../shape/grid.ts";
import type { OpenedSheet } from "../shape/table-of.ts";

/** A note pinned to a cell of a workbook, or that the cell is struck through. Rows count from 1, columns from 0. */
export interface CellNote {
  row: number;
  column: number;
  /** undefined where the cell is struck through */
  text: string | undefined;
}

/** The column that such notes make of themselves. */
const header = "Notes on cells";

/** A note without the name of who wrote it, and without what programs put before a thread of them. */
const ownWords = (text: string): string =>
  text
    .replace(/^\[[^\]]*\]\s[\s\S]*?(?:Comment|Kommentar|Commentaire|Comentario|Commento|Opmerking):\s*/u, "")
    .replace(/^[^\n:]{1,40}:\s*\n/, "")
    .replace(/\s+/g, " ")
    .trim();

const addressOf = ({ row, column }: CellNote): string => `${columnLetters(column)}${row}`;

/** What the notes of one row say together: "scale off; struck through (C3, D3)". */
function inOne(notes: ReadonlyArray<CellNote>): string {
  const texts = notes.flatMap(({ text }) => (text === undefined ? [] : [ownWords(text)]));
  const struck = notes.filter(({ text }) => text === undefined).map(addressOf);
  return [...texts, ...(struck.length === 0 ? [] : [`struck through (${struck.join(", ")})`])].join("; ");
}

/** The rows that are one tray's, or one flush's, each in one table only. */
function rowsOnce(tables: ReadonlyArray<RawTable>): Map<number, RawTable | undefined> {
  const rows = new Map<number, RawTable | undefined>();
  for (const table of tables)
    if (table.plan?.layout === "rows")
      table.forEachRow((_, row) => void rows.set(row, rows.has(row) ? undefined : table));
  return rows;
}

/**
 * Reads notes pinned to cells as notes of their rows, in a column of their own. Where a note's row is none of one tray (a
 * header, a table turned), it is a line beside the rows, and pointed out.
 */
export function withNotesOnCells(file: string, opened: OpenedSheet, notes: ReadonlyArray<CellNote>): OpenedSheet {
  if (notes.length === 0 || opened.tables.length === 0) return opened;
  const rows = rowsOnce(opened.tables);
  const setAside = new Set(opened.leftOut.map(({ row }) => row));
  const byRow = new Map<number, CellNote[]>();
  const beside: CellNote[] = [];
  for (const note of notes) {
    if (rows.get(note.row) !== undefined) addTo(byRow, note.row, note);
    else if (note.text !== undefined || !setAside.has(note.row)) beside.push(note);
  }
  const remarks = beside.map((note) => ({ row: note.row, cells: [inOne([note])], rule: "footnote" as const }));
  const noted = new Set([...byRow.keys()].map((row) => rows.get(row)));
  const tables = opened.tables.map((table): RawTable => {
    const told = remarks.length === 0 ? table : { ...table, remarks: [...(table.remarks ?? []), ...remarks] };
    if (!noted.has(table)) return told;
    return withRows(told, [...table.header, header], (cells, row) => {
      cells.push(inOne(byRow.get(row) ?? []));
      return cells;
    });
  });
  const issues = [...opened.issues];
  for (const [row, own] of byRow)
    issues.push(
      logEntry({
        file,
        row,
        raw: inOne(own),
        rule: "note-on-cell",
        severity: "change",
        reason: "pinned to a cell, or the cell is struck through: read as a note of the row",
      }),
    );
  for (const note of beside)
    issues.push(
      logEntry({
        file,
        row: note.row,
        raw: inOne([note]),
        rule: "note-on-cell",
        severity: "warning",
        reason: `pinned to ${addressOf(note)}, or struck through, in no row of one tray: what it says of values is not used`,
        expected: "notes in a column Notes",
        action: "Correct the values it speaks of, and remove it from the cell",
      }),
    );
  return { ...opened, tables, issues };
}
