import { writeCsv } from "../csv/write-csv.ts";
import type { Book } from "../records/book.ts";
import { type HarvestFieldKey, isWeightField } from "../records/harvest-field.ts";
import type { Issue } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { RawTable } from "../records/sheet.ts";
import { speaksOfMoney } from "../records/words/money-words.ts";
import { type FieldGuess, guessFields } from "./columns/guess-fields.ts";
import { pickingsNamed } from "./columns/plan-columns.ts";
import { isTreatment } from "./columns/treatment-name.ts";

/** Fields that say what became of a tray. */
const results: ReadonlySet<string> = new Set<HarvestFieldKey>(["fresh_g", "dry_g", "outcome", "harvested_on"]);

/** Fields that neither vary by intent nor are a result: names, places, days and remarks. */
const neither: ReadonlySet<string> = new Set<HarvestFieldKey>([
  "tray_id",
  "batch",
  "load",
  "load_position",
  "jar",
  "shelf",
  "operator",
  "inoculated_on",
  "colonised_on",
  "fruiting_on",
  "dried_on",
  "days_to_colonise",
  "days_to_harvest",
  "flush",
  "final_moisture_pct",
  "trays_in_pool",
  "note",
]);

/** The lines of columns.csv that pin some guesses, ready to paste. */
const pinLines = (guesses: ReadonlyArray<Pick<FieldGuess, "file" | "header" | "field">>): string =>
  writeCsv([["file", "header", "field"], ...guesses.map(({ file, header, field }) => [file, header, field])], {
    guard: true,
    newline: "\n",
  }).trim();

/** Of several lines for one field only one is read. */
const repeatsOf = (guesses: ReadonlyArray<FieldGuess>): string =>
  new Set(guesses.map(({ file, field }) => `${file}\n${field}`)).size === guesses.length
    ? ""
    : ` (one line for each field${guesses.some(({ field }) => isWeightField(field)) ? `; ${pickingsNamed}` : ""})`;

const wording = {
  varied: {
    rule: "no-varied-column",
    reason: "no column is known to hold what you varied (dose, strain, supplement, temperature)",
    expected: "a column such as inoculum_ml, strain, supplement_g or fruiting_c",
    add: "Add a column such as inoculum_ml with each tray’s dose",
  },
  result: {
    rule: "no-result-column",
    reason: "no column is known to hold a weight, an outcome or a harvest date",
    expected: "a column such as fresh_g, dry_g, outcome or harvested_on",
    add: "Add a column such as fresh_g with each tray’s fresh weight in grams",
  },
  weight: {
    rule: "no-weight-column",
    reason: "no column is known to hold a weight, and there is one whose numbers look like weights",
    expected: "a column such as fresh_g or dry_g",
    add: "Say what the column holds: name it Fresh g",
  },
} as const;

/** A column whose numbers differ from row to row within what a tray yields. */
const isLikelyWeight = ({ field, weight, header }: FieldGuess): boolean =>
  field === "fresh_g" && weight >= 0.5 && !speaksOfMoney(header);

/**
 * What a book lacks whose columns cannot answer anything: one that was varied, or one that says what came of it. An
 * error each, with the lines of columns.csv that would most likely settle it; the columns guessed are marked as asked about.
 */
export function missingColumns(
  { columns, harvestFiles }: Pick<Book, "columns" | "harvestFiles">,
  tables: ReadonlyArray<RawTable>,
): Issue[] {
  const first = harvestFiles.find(({ rows }) => rows > 0);
  if (first === undefined) return [];
  const isPinned = (because: string): boolean => because.startsWith("pinned");
  const levels = new Map<string, Set<string>>();
  for (const { file, header, field, because } of columns) {
    if (field !== "factor" || isPinned(because)) continue;
    levels.set(file, (levels.get(file) ?? new Set()).add(header));
  }
  // several columns that could be one field are asked about already
  const asked = columns.flatMap(({ mayBe }) => mayBe ?? []);
  const hasVaried =
    columns.some(
      ({ field }) => field !== "factor" && field !== "unread" && !results.has(field) && !neither.has(field),
    ) ||
    columns.some(({ field, because, header }) => field === "factor" && (isPinned(because) || isTreatment(header))) ||
    asked.some((field) => !results.has(field) && !neither.has(field));
  const hasResult = columns.some(({ field }) => results.has(field)) || asked.some((field) => results.has(field));
  const issues: Issue[] = [];
  const taken = new Set<string>();
  const hasWeight = columns.some(({ field }) => isWeightField(field)) || asked.some(isWeightField);
  for (const wanted of ["varied", "result", "weight"] as const) {
    // columns are looked through only where something is missing
    if (wanted === "varied" ? hasVaried : wanted === "result" ? hasResult : hasWeight || !hasResult) continue;
    const guesses = guessFields(tables, levels, wanted === "varied" ? "varied" : "result").filter(
      ({ file, header, field }) => !taken.has(`${file}\n${header}`) && (wanted !== "weight" || isWeightField(field)),
    );
    // a column of the grower's own name in which a few values recur can be what was varied
    if (wanted === "varied" && hasResult && guesses.length > 0) continue;
    if (wanted === "weight" && !guesses.some(isLikelyWeight)) continue;
    const { rule, reason, expected, add } = wording[wanted];
    for (const { file, header, field } of guesses) {
      taken.add(`${file}\n${header}`);
      const column = columns.find((one) => one.file === file && one.header === header);
      if (column !== undefined) column.mayBe = [...(column.mayBe ?? []), field];
    }
    issues.push(
      logEntry({
        file: first.file,
        rule,
        severity: "error",
        reason,
        expected,
        action:
          guesses.length === 0
            ? add
            : `${add}, or put the right ones of these lines into columns.csv${repeatsOf(guesses)}:\n${pinLines(guesses)}`,
      }),
    );
  }
  return issues;
}
