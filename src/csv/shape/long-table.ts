import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { ReadingPlan, ShapeAssumption } from "../../records/reading-plan.ts";
import type { RawTable } from "../../records/sheet.ts";
import { isNothing, nameMask } from "./cell-kind.ts";
import type { FoundHeader } from "./find-header.ts";
import type { ForEachRecord, SheetRow } from "./grid.ts";
import { type LongColumns, longColumns, pivotLong } from "./pivot-long.ts";
import { planIssues } from "./plan-issues.ts";
import { rowMaker } from "./row-maker.ts";
import type { SheetWords } from "./sheet-words.ts";
import type { Survey } from "./survey-rows.ts";

/** Splits rows that say a thing of a tray from remarks: one text where trays' names stand, of another pattern than theirs. */
function withoutRemarks(rows: ReadonlyArray<SheetRow>, { tray, what, values }: LongColumns): [SheetRow[], SheetRow[]] {
  const says = ({ cells }: SheetRow): boolean => [what, ...values].some((column) => !isNothing(cells[column] ?? ""));
  const masks = new Set(rows.filter(says).map(({ cells }) => nameMask(cells[tray] ?? "")));
  const isRemark = (row: SheetRow): boolean => !says(row) && !masks.has(nameMask(row.cells[tray] ?? ""));
  return [rows.filter((row) => !isRemark(row)), rows.filter(isRemark)];
}

/**
 * A long table, turned into one row a tray.
 * @param records of the table, up to its end
 * @returns undefined where the whole of it is none after all
 */
export function longTable(
  file: string,
  records: ForEachRecord,
  header: FoundHeader,
  survey: Survey,
  words: SheetWords,
): { table: RawTable; issues: Issue[]; leftOut: LeftOutRow[] } | undefined {
  const { names } = header;
  const rows: SheetRow[] = [];
  const make = rowMaker(survey, { names, joins: [], titles: [], merges: [], results: [], settings: [] });
  make.forEachRow(records, (cells, row) => rows.push({ cells, row }));
  const columns = longColumns(names, rows, words);
  if (columns === undefined) return undefined;
  const [said, remarks] = withoutRemarks(rows, columns);
  const pivoted = pivotLong(names, said, columns, words);
  const assumption: ShapeAssumption = {
    rule: "long-layout",
    says: `every row says one thing of one tray: “${names[columns.what]}” names it, and ${said.length} rows were put together to ${pivoted.rows.length} rows of trays`,
    columns: [names[columns.what]!],
    count: said.length,
    row: 0,
    example: "",
    undo: { key: "layout", value: "rows" },
  };
  const plan: ReadingPlan = {
    file: file,
    layout: "long",
    headerRows: [header.firstRow, header.lastRow],
    rows: pivoted.rows.length,
    assumptions: [assumption],
  };
  const table: RawTable = {
    file: file,
    header: pivoted.header,
    headerRow: header.lastRow,
    plan,
    joinedRows: said.length - pivoted.rows.length,
    forEachRow: (visit) => {
      for (const { cells, row } of pivoted.rows) visit([...cells], row);
    },
  };
  const reason = "it is a remark beside the table";
  const leftOut = remarks.map(({ cells, row }): LeftOutRow => ({ file, row, cells, rule: "footnote", reason }));
  return { table, issues: planIssues(plan), leftOut };
}
