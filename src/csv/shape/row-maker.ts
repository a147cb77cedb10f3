import type { Issue } from "../../records/issue.ts";
import type { ShapeAssumption } from "../../records/reading-plan.ts";
import { sheetIssue } from "../sheet-issue.ts";
import { isNothing } from "./cell-kind.ts";
import { isDitto } from "./fill-down.ts";
import type { ForEachRecord, Merge } from "./grid.ts";
import { type ColumnJoin, joinedCell } from "./join-columns.ts";
import type { SectionTitle } from "./section-title.ts";
import type { Survey } from "./survey-rows.ts";

/** How the rows of a table are made of its records. */
export interface RowRecipe {
  /** of the columns read, as the header has them */
  names: ReadonlyArray<string>;
  joins: ReadonlyArray<ColumnJoin>;
  /** titles above rows, top to bottom */
  titles: ReadonlyArray<SectionTitle>;
  merges: ReadonlyArray<Merge>;
  /** columns that are never filled from above: weights, outcomes, notes */
  results: ReadonlyArray<number>;
  /** columns in which a mark may say "as above" */
  settings: ReadonlyArray<number>;
}

/** Makes rows, and says what it assumes. */
export interface RowMaker {
  header: string[];
  assumptions: ShapeAssumption[];
  forEachRow(records: ForEachRecord, visit: (cells: string[], row: number) => void): void;
  /** what has to be asked or said beyond the assumptions */
  issues(file: string): Issue[];
}

interface TitleColumn {
  name: string;
  /** place in the table's own columns where it has one of that name, else -1 */
  own: number;
}

/** The columns that titles speak of. One that is no known name is kept only where several titles differ in it. */
function titleColumns({ titles, names }: RowRecipe): TitleColumn[] {
  const values = new Map<string, { name: string; known: boolean; values: Set<string>; count: number }>();
  for (const { pairs } of titles) {
    for (const { name, value, known } of pairs) {
      const key = name.toLowerCase();
      const entry = values.get(key) ?? { name, known, values: new Set<string>(), count: 0 };
      entry.values.add(value);
      entry.count++;
      values.set(key, entry);
    }
  }
  return [...values.values()]
    .filter(({ known, values: own }) => known || own.size >= 2)
    .map(({ name }) => ({ name, own: names.findIndex((own) => own.toLowerCase() === name.toLowerCase()) }));
}

const list = (names: ReadonlyArray<string>): string => names.map((name) => `“${name}”`).join(", ");

function titleAssumptions({ titles }: RowRecipe, columns: ReadonlyArray<TitleColumn>): ShapeAssumption[] {
  if (columns.length === 0) return [];
  const used = titles.filter(({ pairs }) =>
    pairs.some(({ name }) => columns.some((one) => one.name.toLowerCase() === name.toLowerCase())),
  );
  const first = used[0]!;
  return [
    {
      rule: "section-titles",
      says: `${used.length === 1 ? "a title tells" : `${used.length} titles tell`} ${list(columns.map(({ name }) => name))} of the rows below`,
      columns: [],
      count: used.length,
      row: first.row,
      example: first.pairs.map(({ name, value }) => `${name}: ${value}`).join("; "),
      undo: { key: "section_titles", value: "ignore" },
    },
  ];
}

function fillAssumptions({ fills }: Survey, names: ReadonlyArray<string>): ShapeAssumption[] {
  return fills.flatMap(({ column, because, cells }): ShapeAssumption[] =>
    because === undefined || names[column] === undefined
      ? []
      : [
          {
            rule: "fill-down",
            says: `blank cells are taken as the one above: ${because}`,
            columns: [names[column]],
            count: cells,
            row: 0,
            example: "",
            undo: { key: "fill_down", value: "no" },
          },
        ],
  );
}

function joinAssumptions(joins: ReadonlyArray<ColumnJoin>, names: ReadonlyArray<string>): ShapeAssumption[] {
  return joins.map(({ how, left, right, units, name }) => ({
    rule: "joined-columns",
    says:
      how === "unit"
        ? `the column right of it, “${names[right]}”, holds its units`
        : how === "parts"
          ? `read together with the column “${names[right]}” as one weight in pounds and ounces`
          : `the column “${names[right]}” holds the same weight in ${units[1]}; it is read only where this one is blank`,
    columns: [names[left] || name],
    count: 0,
    row: 0,
    example: "",
  }));
}

/** Vertical merges by column: the cell at the top counts for all rows, in a column of results it is asked about. */
class MergedCells {
  private readonly byColumn = new Map<number, Merge[]>();
  readonly asked: { row: number; column: number; rows: number }[] = [];

  constructor(
    merges: ReadonlyArray<Merge>,
    private readonly results: ReadonlySet<number>,
  ) {
    for (const merge of merges) {
      if (merge.bottom === merge.top) continue;
      for (let column = merge.left; column <= merge.right; column++) {
        this.byColumn.set(column, [...(this.byColumn.get(column) ?? []), merge]);
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
    const merge = this.byColumn.get(column)?.find(({ top, bottom }) => row >= top && row <= bottom);
    if (merge === undefined) return undefined;
    if (this.results.has(column)) return "";
    return row === merge.top ? undefined : isNothing(own) ? (above[column] ?? "") : undefined;
  }
}

/** What has to be asked of columns that may go on below, and of results merged over several trays. */
function rowIssues(file: string, survey: Survey, names: ReadonlyArray<string>, merges: MergedCells): Issue[] {
  const asked = survey.fills.flatMap(({ column, because, cells }) =>
    because !== undefined || names[column] === undefined || merges.blanksOf(column) >= cells
      ? []
      : [
          sheetIssue({
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
    sheetIssue({
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

/** Makes the rows of a table by what a survey found: no titles, sums or blanks, blocks filled, columns joined. */
export function rowMaker(survey: Survey, recipe: RowRecipe): RowMaker {
  const { names, joins } = recipe;
  const width = names.length;
  const results = new Set(recipe.results);
  const merges = new MergedCells(recipe.merges, results);
  const mergedColumns = [...merges.columns].filter((column) => column < width);
  const titled = titleColumns(recipe);
  const added = titled.filter(({ own }) => own < 0);
  const filled = new Set(survey.fills.flatMap(({ column, because }) => (because === undefined ? [] : [column])));
  const dropped = new Set(joins.map(({ right }) => right));
  const kept = names.map((_, column) => column).filter((column) => !dropped.has(column));
  const joinAt = new Map(joins.map((join) => [join.left, join]));
  const header = [
    ...kept.map((column) => joinAt.get(column)?.name ?? names[column]!),
    ...added.map(({ name }) => name),
  ];
  const carried = [...new Set([...recipe.settings, ...filled, ...mergedColumns])];
  const isPlain = mergedColumns.length === 0 && titled.length === 0 && filled.size === 0 && joins.length === 0;

  function forEachRow(records: ForEachRecord, visit: (cells: string[], row: number) => void): void {
    let next = 0;
    let nextTitle = 0;
    let title = new Map<string, string>();
    const above: string[] = [];
    records((cells, row) => {
      while (nextTitle < recipe.titles.length && recipe.titles[nextTitle]!.row < row) {
        const { pairs } = recipe.titles[nextTitle++]!;
        title = new Map([...title, ...pairs.map(({ name, value }) => [name.toLowerCase(), value] as const)]);
      }
      while (next < survey.notData.length && row > survey.notData[next]![1]) next++;
      if (next < survey.notData.length && row >= survey.notData[next]![0]) return true;
      if (cells.length > width) cells.length = width;
      while (cells.length < width) cells.push("");
      for (let column = 0; column < width; column++) {
        const cell = cells[column]!;
        // a mark that says "as above", where nothing is weighed
        if (cell !== "" && cell.length < 15 && !results.has(column) && isDitto(cell) && (above[column] ?? "") !== "")
          cells[column] = above[column]!;
      }
      if (!isPlain) {
        for (const column of mergedColumns)
          cells[column] = merges.cellAt(column, row, above, cells[column]!) ?? cells[column]!;
        for (const column of filled) if (isNothing(cells[column]!)) cells[column] = above[column] ?? "";
        for (const { name, own } of titled) {
          if (own >= 0 && isNothing(cells[own]!)) cells[own] = title.get(name.toLowerCase()) ?? "";
        }
      }
      for (const column of carried) if (!isNothing(cells[column]!)) above[column] = cells[column]!;
      if (isPlain) visit(cells, row);
      else {
        const made = kept.map((column) => {
          const join = joinAt.get(column);
          return join === undefined ? cells[column]! : joinedCell(join, cells[column]!, cells[join.right] ?? "");
        });
        visit([...made, ...added.map(({ name }) => title.get(name.toLowerCase()) ?? "")], row);
      }
      return true;
    });
  }

  return {
    header,
    assumptions: [
      ...titleAssumptions(recipe, titled),
      ...fillAssumptions(survey, names),
      ...mergeAssumptions(recipe, results),
      ...joinAssumptions(joins, names),
      ...summaryAssumptions(survey),
    ],
    forEachRow,
    issues: (file) => rowIssues(file, survey, names, merges),
  };
}

function mergeAssumptions({ merges, names }: RowRecipe, results: ReadonlySet<number>): ShapeAssumption[] {
  const columns = new Set(
    merges.filter(({ top, bottom, left }) => bottom > top && !results.has(left)).map(({ left }) => left),
  );
  return [...columns].flatMap((column): ShapeAssumption[] => {
    const own = merges.filter(({ left, top, bottom }) => left === column && bottom > top);
    const name = names[column];
    if (name === undefined) return [];
    const count = own.reduce((sum, { top, bottom }) => sum + bottom - top, 0);
    const says = "a cell merged over several rows counts for each of them";
    return [{ rule: "merged-cells", says, columns: [name], count, row: own[0]!.top, example: "" }];
  });
}

function summaryAssumptions({ summaries }: Survey): ShapeAssumption[] {
  const found = summaries.filter(({ byArithmetic }) => byArithmetic);
  if (found.length === 0) return [];
  return [
    {
      rule: "summary-by-arithmetic",
      says: `${found.length === 1 ? "a row’s numbers sum" : `the numbers of ${found.length} rows sum`} up the rows above: set aside`,
      columns: [],
      count: found.length,
      row: found[0]!.row,
      example: found[0]!.example,
      undo: { key: "summary_rows", value: "keep" },
    },
  ];
}
