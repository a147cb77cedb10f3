import type { ShapeAssumption } from "../../records/reading-plan.ts";
import type { Merge } from "./grid.ts";
import type { ColumnJoin } from "./join-columns.ts";
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

/** A column that titles speak of. */
export interface TitleColumn {
  name: string;
  /** place in the table's own columns where it has one of that name, else -1 */
  own: number;
}

/** The columns that titles speak of. One that is no known name is kept only where several titles differ in it. */
export function titleColumns({ titles, names }: RowRecipe): TitleColumn[] {
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
      columns: columns.map(({ name }) => name),
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
          : how === "shots"
            ? `added up with the column “${names[right]}”: a dose given in two goes`
            : `the column “${names[right]}” holds the same weight in ${units[1]}; it is read only where this one is blank`,
    columns: [names[left] || name],
    count: 0,
    row: 0,
    example: "",
    undo: { key: "joined_cells", value: "ignore" },
  }));
}

function mergeAssumptions({ merges, names }: RowRecipe, results: ReadonlySet<number>): ShapeAssumption[] {
  const columns = new Set(
    merges.filter(({ top, bottom, left }) => bottom > top && !results.has(left)).map(({ left }) => left),
  );
  return [...columns].flatMap((column): ShapeAssumption[] => {
    const name = names[column];
    if (name === undefined) return [];
    const own = merges.filter(({ left, top, bottom }) => left === column && bottom > top);
    const count = own.reduce((sum, { top, bottom }) => sum + bottom - top, 0);
    const says = "a cell merged over several rows counts for each of them";
    const undo = { key: "joined_cells", value: "ignore" };
    return [{ rule: "merged-cells", says, columns: [name], count, row: own[0]!.top, example: "", undo }];
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

/** What is assumed in making rows by a recipe, each with what undoes it. */
export const recipeAssumptions = (
  recipe: RowRecipe,
  survey: Survey,
  titled: ReadonlyArray<TitleColumn>,
): ShapeAssumption[] => [
  ...titleAssumptions(recipe, titled),
  ...fillAssumptions(survey, recipe.names),
  ...mergeAssumptions(recipe, new Set(recipe.results)),
  ...joinAssumptions(recipe.joins, recipe.names),
  ...summaryAssumptions(survey),
];
