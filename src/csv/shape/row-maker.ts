import { addTo } from "../../records/grouped.ts";
import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { ShapeAssumption } from "../../records/reading-plan.ts";
import { isNothing } from "./cell-kind.ts";
import { isDitto } from "./fill-down.ts";
import type { ForEachRecord, Merge } from "./grid.ts";
import { type ColumnJoin, joinedCell } from "./join-columns.ts";
import { type RowRecipe, recipeAssumptions, titleColumns } from "./row-recipe.ts";
import type { SectionTitle } from "./section-title.ts";
import type { Survey } from "./survey-rows.ts";

/** Makes rows, and says what it assumes. */
export interface RowMaker {
  header: string[];
  assumptions: ShapeAssumption[];
  forEachRow(records: ForEachRecord, visit: (cells: string[], row: number) => void): void;
  /** what has to be asked or said beyond the assumptions */
  issues(file: string): Issue[];
}

/** Vertical merges by column, from the top: the cell at the top counts for all rows, in a column of results it is asked about. */
class MergedCells {
  private readonly byColumn = new Map<number, Merge[]>();
  readonly asked: { row: number; column: number; rows: number }[] = [];

  constructor(
    merges: ReadonlyArray<Merge>,
    private readonly results: ReadonlySet<number>,
    width: number,
  ) {
    for (const merge of [...merges].sort((a, b) => a.top - b.top)) {
      if (merge.bottom === merge.top) continue;
      for (let column = merge.left; column <= Math.min(merge.right, width - 1); column++) {
        addTo(this.byColumn, column, merge);
        if (results.has(column) && column === merge.left)
          this.asked.push({ row: merge.top, column, rows: merge.bottom - merge.top + 1 });
      }
    }
  }

  get columns(): Iterable<number> {
    return this.byColumn.keys();
  }

  /** Blank cells below the first of each merge of a column. */
  blanksOf(column: number): number {
    return (this.byColumn.get(column) ?? []).reduce((sum, { top, bottom }) => sum + bottom - top, 0);
  }

  /** What a merge makes of a cell; undefined where none covers it. */
  cellAt(column: number, row: number, above: ReadonlyArray<string>, own: string): string | undefined {
    // merged blocks never overlap: the last that begins at the row or above it is the only one that may cover it
    const merge = lastFrom(this.byColumn.get(column) ?? [], row);
    if (merge === undefined || row > merge.bottom) return undefined;
    if (this.results.has(column)) return "";
    return row === merge.top ? undefined : isNothing(own) ? (above[column] ?? "") : undefined;
  }
}

/** The last of some merges in order that begins at a row or above it. */
function lastFrom(merges: ReadonlyArray<Merge>, row: number): Merge | undefined {
  let [from, to] = [0, merges.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (merges[middle]!.top <= row) from = middle + 1;
    else to = middle;
  }
  return merges[from - 1];
}

/** What has to be asked of columns that may go on below, and of results merged over several trays. */
function rowIssues(file: string, survey: Survey, names: ReadonlyArray<string>, merges: MergedCells): Issue[] {
  const asked = survey.fills.flatMap(({ column, because, cells }) =>
    because !== undefined || names[column] === undefined || merges.blanksOf(column) >= cells
      ? []
      : [
          logEntry({
            file,
            column: names[column],
            rule: "fill-down-in-doubt",
            severity: "warning",
            reason: `it is blank on ${cells} rows below filled ones, and nothing else in the sheet says whether the value above goes on; the blank cells were left blank`,
            expected: "a value in every row",
            action: "State fill_down = yes in settings.csv if the value above goes on, or no if the cells are blank",
            setting: "fill_down",
          }),
        ],
  );
  const pooled = merges.asked.map(({ row, column, rows }) =>
    logEntry({
      file,
      row,
      column: names[column] ?? "",
      rule: "merged-result",
      severity: "warning",
      reason:
        "one cell is merged over the rows of several trays: it is not known what belongs to each, so it was not read",
      expected: "one cell for each tray",
      action: `Split the cell, or put the ${rows} trays into one row with ${rows} in a column trays_in_pool`,
    }),
  );
  return [...asked, ...pooled];
}

/** Titles as they come into force going down the rows; a later one replaces what it names and no more. */
class TitlesInForce {
  private next = 0;
  private readonly values = new Map<string, string>();

  constructor(private readonly titles: ReadonlyArray<SectionTitle>) {}

  goTo(row: number): void {
    while (this.next < this.titles.length && this.titles[this.next]!.row < row) {
      for (const { name, value } of this.titles[this.next]!.pairs) this.values.set(name.toLowerCase(), value);
      this.next++;
    }
  }

  valueOf(name: string): string {
    return this.values.get(name.toLowerCase()) ?? "";
  }
}

/** Tells rows that are no data, asked of them from top to bottom. */
function rowsToSkip({ notData }: Survey): (row: number) => boolean {
  let next = 0;
  return (row) => {
    while (next < notData.length && row > notData[next]![1]) next++;
    return next < notData.length && row >= notData[next]![0];
  };
}

/** The columns left once those that are one are put together, and their cells in a row. */
function joinedColumns(names: ReadonlyArray<string>, joins: ReadonlyArray<ColumnJoin>) {
  const dropped = new Set(joins.map(({ right }) => right));
  const kept = names.map((_, column) => column).filter((column) => !dropped.has(column));
  const joinAt = new Map(joins.map((join) => [join.left, join]));
  return {
    names: kept.map((column) => joinAt.get(column)?.name ?? names[column]!),
    cellsOf: (cells: ReadonlyArray<string>): string[] =>
      kept.map((column) => {
        const join = joinAt.get(column);
        return join === undefined ? cells[column]! : joinedCell(join, cells[column]!, cells[join.right] ?? "");
      }),
  };
}

/** Makes the rows of a table by what a survey found: no titles, sums or blanks, blocks filled, columns joined. */
export function rowMaker(survey: Survey, recipe: RowRecipe): RowMaker {
  const { names, joins } = recipe;
  const width = names.length;
  const results = new Set(recipe.results);
  const merges = new MergedCells(recipe.merges, results, width);
  const repeatable = [...names.keys()].filter((column) => !results.has(column));
  const mergedColumns = [...merges.columns];
  const titled = titleColumns(recipe);
  const added = titled.filter(({ own }) => own < 0);
  const filled = new Set(survey.fills.flatMap(({ column, because }) => (because === undefined ? [] : [column])));
  const joined = joinedColumns(names, joins);
  const carried = [...new Set([...recipe.settings, ...filled, ...mergedColumns])];
  const isPlain = mergedColumns.length === 0 && titled.length === 0 && filled.size === 0 && joins.length === 0;

  function forEachRow(records: ForEachRecord, visit: (cells: string[], row: number) => void): void {
    const isSkipped = rowsToSkip(survey);
    const titles = new TitlesInForce(recipe.titles);
    const above: string[] = [];
    records((cells, row) => {
      titles.goTo(row);
      if (isSkipped(row)) return true;
      if (cells.length > width) cells.length = width;
      while (cells.length < width) cells.push("");
      for (const column of repeatable) {
        // a mark that says "as above", where nothing is weighed
        if (isDitto(cells[column]!) && (above[column] ?? "") !== "") cells[column] = above[column]!;
      }
      if (!isPlain) {
        for (const column of mergedColumns)
          cells[column] = merges.cellAt(column, row, above, cells[column]!) ?? cells[column]!;
        for (const column of filled) if (isNothing(cells[column]!)) cells[column] = above[column] ?? "";
        for (const { name, own } of titled) {
          if (own >= 0 && isNothing(cells[own]!)) cells[own] = titles.valueOf(name);
        }
      }
      for (const column of carried) if (!isNothing(cells[column]!)) above[column] = cells[column]!;
      if (isPlain) visit(cells, row);
      else visit([...joined.cellsOf(cells), ...added.map(({ name }) => titles.valueOf(name))], row);
      return true;
    });
  }

  return {
    header: [...joined.names, ...added.map(({ name }) => name)],
    assumptions: recipeAssumptions(recipe, survey, titled),
    forEachRow,
    issues: (file) => rowIssues(file, survey, names, merges),
  };
}
