import { cleanedHarvestCsv } from "../cleaning/cleaned-harvest-csv.ts";
import { groupIssues, type IssueGroup } from "../cleaning/group-issues.ts";
import { issuesCsv } from "../cleaning/issues-csv.ts";
import { proposeColumns } from "../cleaning/propose-columns.ts";
import type { Book } from "../records/book.ts";
import type { Issue, Severity } from "../records/issue.ts";
import { openBookFolder } from "./open-book.ts";
import type { Output } from "./output-place.ts";
import { writeOutputs } from "./output-set.ts";
import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";

export interface CheckOptions {
  all?: boolean;
  fixed?: string;
  log?: string;
  columns?: string;
  json?: boolean;
}

const severities: ReadonlyArray<Severity> = ["error", "warning", "note", "change"];
const plural: Record<Severity, [one: string, many: string]> = {
  error: ["error", "errors"],
  warning: ["flag", "flags"],
  note: ["note", "notes"],
  change: ["change", "changes"],
};
const counted = (count: number, [one, many]: readonly [string, string]): string =>
  `${count} ${count === 1 ? one : many}`;

/** The files the user asked for. */
function outputsOf(book: Book, { fixed, log, columns }: CheckOptions): Output[] {
  const outputs: Output[] = [];
  if (fixed !== undefined) outputs.push({ path: fixed, text: cleanedHarvestCsv(book), kind: "sheet" });
  if (log !== undefined) outputs.push({ path: log, text: issuesCsv(book.issues), kind: "log" });
  // its place is in the book
  if (columns !== undefined) outputs.push({ path: columns, text: proposeColumns(book), kind: "sheet", intoBook: true });
  return outputs;
}

const place = ({ file, row, column }: Issue): string =>
  [file, row > 0 ? `row ${row}` : "", column === "" ? "" : `“${column}”`].filter((part) => part !== "").join(", ");

function entryLine(issue: Issue): string {
  const read = issue.raw === "" ? "" : `: read “${issue.raw}”${issue.result === "" ? "" : ` as ${issue.result}`}`;
  const expected = issue.expected === "" ? "" : `; expected ${issue.expected}`;
  const action = issue.action === "" ? "" : `. ${issue.action}`;
  return `  ${place(issue)}${read}: ${issue.reason}${expected}${action}`;
}

function groupLines(group: IssueGroup): string[] {
  const where = group.examples
    .filter(({ row }) => row > 0)
    .map(({ row, raw }) => `row ${row}${raw === "" ? "" : ` “${raw.length > 40 ? `${raw.slice(0, 40)}…` : raw}”`}`);
  const more = group.count > where.length && where.length > 0 ? `, and ${group.count - where.length} more` : "";
  return [
    `  ${group.file}: ${group.text}`,
    ...(where.length === 0 ? [] : [`      ${where.join(", ")}${more}`]),
    ...(group.action === "" ? [] : [`      to do: ${group.action}`]),
  ];
}

function checkLines(book: Book, options: CheckOptions): string[] {
  const count = (severity: Severity) => book.issues.filter((issue) => issue.severity === severity).length;
  const groups = groupIssues(book.issues);
  const flagged = book.trays.filter(({ flags }) => flags.length > 0).length;
  const lines = [
    `${book.name}: ${counted(book.trays.length, ["tray", "trays"])} from ${counted(book.harvestFiles.length, ["harvest sheet", "harvest sheets"])}`,
    `${severities.map((severity) => counted(count(severity), plural[severity])).join(", ")}; ${counted(book.leftOut.length, ["row", "rows"])} left out; ${counted(flagged, ["tray", "trays"])} with a flag`,
  ];
  for (const severity of severities) {
    const own = groups.filter((group) => group.severity === severity);
    if (own.length === 0) continue;
    lines.push("", `${plural[severity][1].replace(/^./, (letter) => letter.toUpperCase())}`);
    if (options.all) lines.push(...book.issues.filter((issue) => issue.severity === severity).map(entryLine));
    else lines.push(...own.flatMap(groupLines));
  }
  if (book.leftOut.length > 0) {
    lines.push("", "Rows left out");
    const shown = options.all ? book.leftOut : book.leftOut.slice(0, 20);
    lines.push(...shown.map(({ file, row, reason }) => `  ${file}, row ${row}: ${reason}`));
    if (shown.length < book.leftOut.length)
      lines.push(`  and ${book.leftOut.length - shown.length} more (--all shows them)`);
  }
  return lines;
}

/** `gramwright check`: cleans a book and says what was found. Exit code 1 when there are errors. */
export async function checkBook(path: string, options: CheckOptions): Promise<void> {
  const progress = terminalProgress();
  const { book, folder } = await openBookFolder(path, progress);
  progress.done();
  const written = writeOutputs(outputsOf(book, options), folder);
  if (options.json) {
    const { name, harvestFiles, columns, issues, leftOut } = book;
    print(
      `${JSON.stringify({ book: name, trays: book.trays.length, harvestFiles, columns, issues, leftOut }, null, 2)}\n`,
    );
  } else {
    const lines = [
      ...checkLines(book, options),
      ...(written.length === 0 ? [] : ["", `Written: ${written.join(", ")}`]),
    ];
    print(`${lines.join("\n")}\n`);
  }
  if (book.issues.some(({ severity }) => severity === "error")) process.exitCode = 1;
}
