import { sheetQuestions } from "../engine/sheet-questions.ts";
import type { Book, ColumnReading } from "../records/book.ts";
import { counted } from "../records/counted.ts";
import { harvestField, isHarvestFieldKey } from "../records/harvest-field.ts";
import type { Issue, Severity } from "../records/issue.ts";
import { groupSentence, type IssueGroup, issueGroups, severities } from "../records/issue-groups.ts";
import { visibleText } from "../report/visible-text.ts";

const one: Record<Severity, string> = { error: "error", warning: "flag", note: "note", change: "change" };

/** What a column was taken for, in words. */
function readAs({ field, unit, mayBe }: ColumnReading): string {
  if (mayBe !== undefined) return `? ${mayBe.join(" or ")}`;
  if (!isHarvestFieldKey(field)) return field === "factor" ? "your own column" : "not read";
  const { label } = harvestField(field);
  return `${field}${label.toLowerCase() === field.replaceAll("_", " ") ? "" : ` (${label})`}${unit === "" ? "" : `, ${unit}`}`;
}

/** The table of columns: how each was read, with one example; alike columns of several sheets once. */
function columnTable({ columns }: Book): string[] {
  const rows = new Map<string, string[]>();
  for (const column of columns) {
    if (column.header === "" || (column.example ?? "") === "") continue;
    const cells = [visibleText(column.header, 30), readAs(column), visibleText(column.example ?? "", 30)];
    if (!rows.has(cells.slice(0, 2).join("\t"))) rows.set(cells.slice(0, 2).join("\t"), cells);
  }
  if (rows.size === 0) return [];
  const lines = [["column", "read as", "for example"], ...rows.values()];
  const width = (at: number): number => Math.max(...lines.map((cells) => cells[at]!.length));
  const [first, second] = [width(0), width(1)];
  return lines.map(([a, b, c]) => `  ${a!.padEnd(first)}  ${b!.padEnd(second)}  ${c}`.trimEnd());
}

function groupLine(group: IssueGroup, hasSeveralFiles: boolean): string[] {
  const { files, isOfRows, severity, count, examples, action, expected } = group;
  const [example] = examples;
  const at =
    example !== undefined && isOfRows
      ? ` (row ${example.row}${exampleText(example)}${count > 1 ? ` and ${count - 1} more` : ""})`
      : "";
  // "Correct the line" says nothing without what would be right
  const what =
    /^Correct (?:the (?:line|key|cell)|\w+, or empty)/.test(action) &&
    examples.every((one) => one.expected === expected) &&
    expected !== ""
      ? `Expected ${expected}. `
      : "";
  const [todo = "", ...lines] = `${what}${action}`.split("\n");
  const more = files.length > 1 ? ` and ${counted(files.length - 1, "more file")}` : "";
  const place = hasSeveralFiles ? `${files[0]}${more}: ` : "";
  return [
    `${one[severity]}: ${place}${groupSentence(group)}${at}${todo === "" ? "" : `. ${todo}`}`,
    ...lines.map((line) => `    ${line}`),
  ];
}

const exampleText = ({ raw, result }: Issue): string =>
  raw === "" ? "" : `, “${visibleText(raw, 40)}”${result === "" ? "" : ` as ${visibleText(result, 40)}`}`;

/** The line that adds up: rows of the harvest sheets as counted in the files, and what became of them. */
function closingLine({ leftOut, account, harvestFiles }: Book): string[] {
  if (account === undefined) return [];
  const { filled, headers, trays, aside, lost } = account;
  const rules = new Map<string, number>();
  const harvests = new Set(harvestFiles.map(({ file }) => file));
  // a line of costs left out is no row of trays
  for (const { file, rule } of leftOut)
    if (rule !== "blank-row" && harvests.has(file)) rules.set(rule, (rules.get(rule) ?? 0) + 1);
  const reasons = [...rules]
    .sort((a, b) => b[1] - a[1])
    .map(([rule, count]) => `${count} ${rule.replaceAll("-", " ")}`);
  return [
    `${counted(filled, "row")} = ${headers} of headers + ${trays} of trays + ${aside} set aside${aside === 0 ? "" : ` (${reasons.join(", ")})`}${lost === 0 ? "" : ` + ${lost} LOST`}`,
  ];
}

/** Lines of assumptions shown where nothing has to be corrected, so that a good sheet says so shortly. */
const mostAssumptions = 2;

/** What needs no hand: cells read otherwise than typed, and notes not shown. */
function quietLine(changes: ReadonlyArray<IssueGroup>, notes: number, isFine: boolean): string[] {
  const cells = changes.reduce((sum, { count }) => sum + count, 0);
  const rules = [...new Set(changes.map(({ rule }) => rule.replaceAll("-", " ")))];
  const parts = [
    ...(isFine ? ["nothing to correct"] : []),
    ...(cells === 0
      ? []
      : [
          `${counted(cells, "cell")} safely read otherwise than typed (${rules.slice(0, 4).join(", ")}${rules.length > 4 ? ", ..." : ""})`,
        ]),
    ...(notes === 0 ? [] : [counted(notes, "further note")]),
  ];
  if (parts.length === 0) return [];
  return [`${parts.join("; ")}${cells + notes > 0 ? "; --all lists them" : ""}`];
}

/** Where single cells are asked about: how to answer without touching a sheet. */
function cellsLine({ issues, columns, unread }: Book): string[] {
  const isAsked = sheetQuestions(issues, columns, unread).some(({ key }) => key.startsWith("cell:"));
  return isAsked ? ["Single cells can also be answered in cells.csv: file,row,tray,column,value"] : [];
}

/**
 * What `check` prints: how each column was read, then one line for each kind of thing found, the worst first, and a count of
 * rows that adds up. Safe changes and notes that need nothing share a line.
 */
export function checkLines(book: Book): string[] {
  const kinds = issueGroups(book.issues);
  const hasSeveralFiles = new Set(book.issues.map(({ file }) => file)).size > 1;
  const of = (severity: Severity): IssueGroup[] => kinds.filter((kind) => kind.severity === severity);
  const wrong = [...of("error"), ...of("warning")];
  const isFine = wrong.length === 0;
  const assumed = of("note").filter(({ action }) => action !== "");
  const shown = isFine ? assumed.slice(0, mostAssumptions) : assumed;
  return [
    `${book.name}: ${counted(book.trays.length, "tray")} from ${counted(book.harvestFiles.length, "harvest sheet")}`,
    ...columnTable(book),
    "",
    ...[...wrong, ...shown].flatMap((kind) => groupLine(kind, hasSeveralFiles)),
    ...cellsLine(book),
    ...quietLine(of("change"), of("note").length - shown.length, isFine),
    ...closingLine(book),
  ];
}

const place = ({ file, row, column }: Issue): string =>
  [file, row > 0 ? `row ${row}` : "", column === "" ? "" : `“${column}”`].filter((part) => part !== "").join(", ");

function entryLine(issue: Issue): string {
  const read =
    issue.raw === ""
      ? ""
      : `: read “${visibleText(issue.raw)}”${issue.result === "" ? "" : ` as ${visibleText(issue.result)}`}`;
  const expected = issue.expected === "" ? "" : `; expected ${issue.expected}`;
  const action = issue.action === "" ? "" : `. ${issue.action}`;
  return `${one[issue.severity]}: ${place(issue)}${read}: ${issue.reason}${expected}${action}`;
}

/** Every entry of the log on its line, the worst first, and every row set aside. */
export const everyLine = ({ issues, leftOut }: Book): string[] => [
  ...severities.flatMap((severity) => issues.filter((issue) => issue.severity === severity).map(entryLine)),
  ...leftOut.map(({ file, row, reason }) => `set aside: ${file}, row ${row}: ${reason}`),
];
