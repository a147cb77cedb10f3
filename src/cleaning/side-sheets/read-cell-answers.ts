import { appendAll } from "../../records/append-all.ts";
import { fileName, fileStem } from "../../records/file-stem.ts";
import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import { nameKey } from "../../records/name-key.ts";
import type { RawTable } from "../../records/sheet.ts";
import { withRows } from "../../records/with-rows.ts";
import { meaningsOfHeader } from "../columns/match-columns.ts";
import { matchColumns } from "./match-side-columns.ts";

/** One line of cells.csv: what stands in one cell of a sheet, in place of what was typed there. */
export interface CellAnswer {
  /** the sheet it is about, by its path, its last part or its tab; "" for the only one there is */
  file: string;
  /** as the log numbers it */
  row: number;
  /** needed only where a row holds several trays; a row of another tray than this is not meant */
  tray: string;
  /** the header as typed, or a canonical harvest column, which is added where the sheet has none */
  column: string;
  value: string;
  source: { file: string; row: number };
}

const columns = [
  { key: "file", names: "sheet|in|files|file name|workbook" },
  { key: "row", names: "line|row number" },
  { key: "tray", names: "tray id|tray name" },
  { key: "column", names: "header|field|cell" },
  { key: "value", names: "answer|is|correct|should be" },
  { key: "note", names: "notes|comment|comments|why|because" },
] as const;

const same = (a: string, b: string): boolean => nameKey(a) === nameKey(b);

/** Reads cells.csv: `file,row,tray,column,value`. A line without a value is one still to be answered. */
export function readCellAnswers(tables: ReadonlyArray<RawTable>): { answers: CellAnswer[]; issues: Issue[] } {
  const answers: CellAnswer[] = [];
  const issues: Issue[] = [];
  for (const table of tables) {
    const { file } = table;
    const { found, issues: headerIssues } = matchColumns(table, columns);
    appendAll(issues, headerIssues);
    table.forEachRow((cells, row) => {
      const cell = (key: "file" | "row" | "tray" | "column" | "value") =>
        cells[found.get(key)?.index ?? -1]?.trim() ?? "";
      if (cell("value") === "") return;
      const number = Number(cell("row"));
      if (Number.isInteger(number) && number > 0 && cell("column") !== "") {
        const about = { file: cell("file"), tray: cell("tray"), column: cell("column"), value: cell("value") };
        answers.push({ ...about, row: number, source: { file, row } });
        return;
      }
      issues.push(
        logEntry({
          file,
          row,
          raw: cells.join(","),
          rule: "cell-answer-without-place",
          severity: "error",
          reason: "the line does not say which cell it is about; it was not used",
          expected: "file,row,tray,column,value",
          action: "Type the row and the column as the log names them",
        }),
      );
    });
  }
  return { answers, issues };
}

function isAbout(answer: CellAnswer, file: string): boolean {
  const [path = "", tab] = file.split(" > ");
  const last = fileName(path);
  return ["", file, path, last, fileStem(last), tab ?? file].some((name) => same(name, answer.file));
}

/** Whether a line is about this row: by its number, and by its tray where the sheet has several trays in a row. */
const meets = ({ row, tray }: CellAnswer, { plan }: RawTable, cells: ReadonlyArray<string>, at: number): boolean =>
  row === at && (plan?.layout !== "cells" || tray === "" || same(cells[0]!, tray));

/** The lines whose row is of another tray, and their tray in another row: the sheet was sorted, say. */
function elsewhere(answers: ReadonlyArray<CellAnswer>, table: RawTable): Set<CellAnswer> {
  const column = table.header.findIndex((name) =>
    meaningsOfHeader(name).some(({ field, rank }) => field === "tray_id" && rank > 1),
  );
  const [away, here] = [new Set<CellAnswer>(), new Set<CellAnswer>()];
  const named = column < 0 ? [] : answers.filter(({ tray }) => tray !== "");
  if (named.length === 0) return away;
  table.forEachRow((cells, at) => {
    const name = cells[column]!;
    for (const answer of named) {
      if (at === answer.row && (name === "" || same(name, answer.tray))) here.add(answer);
      else if (same(name, answer.tray)) away.add(answer);
    }
  });
  for (const answer of here) away.delete(answer);
  return away;
}

/** One table with the answers about it in place of its cells. @param keys columns that an answer may add */
function answered(
  table: RawTable,
  keys: ReadonlyArray<string>,
  answers: ReadonlyArray<CellAnswer>,
  used: Set<CellAnswer>,
  issues: Issue[],
): RawTable {
  const header = [...table.header];
  const away = elsewhere(answers, table);
  const placed = answers.flatMap((answer) => {
    let column = header.findIndex((name) => same(name, answer.column));
    if (column < 0 && keys.includes(answer.column)) column = header.push(answer.column) - 1;
    return column < 0 || away.has(answer) ? [] : [{ answer, column }];
  });
  table.forEachRow((cells, row) => {
    for (const { answer, column } of placed) {
      if (!meets(answer, table, cells, row)) continue;
      used.add(answer);
      issues.push(
        logEntry({
          ...{ file: table.file, row, column: header[column]!, raw: cells[column] ?? "", result: answer.value },
          rule: "cell-answered",
          severity: "change",
          reason: `the answer in ${answer.source.file} is read in place of what was typed`,
        }),
      );
    }
  });
  const inPlace = placed.filter(({ answer }) => used.has(answer));
  if (inPlace.length === 0) return table;
  return withRows(table, header, (typed, row) => {
    const cells = [...typed];
    while (cells.length < header.length) cells.push("");
    for (const { answer, column } of inPlace) if (meets(answer, table, typed, row)) cells[column] = answer.value;
    return cells;
  });
}

type Groups = ReadonlyArray<{ tables: ReadonlyArray<RawTable>; keys: ReadonlyArray<string> }>;

/** What a line that meets no cell could have named: columns of its sheet, or the sheets. */
function placesFor(answer: CellAnswer, groups: Groups): string {
  const tables = groups.flatMap((group) => group.tables);
  const own = tables.find(({ file }) => isAbout(answer, file));
  return own === undefined
    ? `a file: ${tables.map(({ file }) => file).join(", ")}`
    : `a row of ${own.file} with its own tray, and a column: ${own.header.join(", ")}`;
}

/**
 * Tables with the answers of cells.csv in place of their cells; every cell so read is a change in the log, and a line that
 * meets no cell is pointed out. The sheets themselves stay as they are.
 * @param groups tables of one kind each, with the columns they may have
 * @returns the tables, group by group
 */
export function withCellAnswers(
  groups: Groups,
  answers: ReadonlyArray<CellAnswer>,
): { groups: RawTable[][]; issues: Issue[] } {
  const used = new Set<CellAnswer>();
  const issues: Issue[] = [];
  const made = groups.map(({ tables, keys }) =>
    tables.map((table) => {
      const own = answers.filter((answer) => isAbout(answer, table.file));
      return own.length === 0 ? table : answered(table, keys, own, used, issues);
    }),
  );
  for (const answer of answers) {
    if (used.has(answer)) continue;
    issues.push(
      logEntry({
        ...answer.source,
        raw: [answer.file, answer.row, answer.tray, answer.column].join(","),
        rule: "no-such-cell",
        severity: "warning",
        reason: "no sheet has this column and tray in this row; the answer was not used",
        expected: placesFor(answer, groups),
        action: "Correct the line, or remove it",
      }),
    );
  }
  return { groups: made, issues };
}
