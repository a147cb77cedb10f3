import { cleanedHarvestCsv } from "../cleaning/cleaned-harvest-csv.ts";
import { issuesCsv } from "../cleaning/issues-csv.ts";
import { proposeColumns } from "../cleaning/propose-columns.ts";
import type { Book } from "../records/book.ts";
import { checkLines, everyLine } from "./check-lines.ts";
import { openBookFolder } from "./open-book.ts";
import type { Output } from "./output/output-place.ts";
import { writeOutputs } from "./output/output-set.ts";
import { print } from "./print.ts";
import { terminalProgress } from "./progress.ts";
import type { Stated } from "./stated-settings.ts";

export interface CheckOptions {
  all?: boolean;
  fixed?: string;
  log?: string;
  columns?: string;
  json?: boolean;
  /** settings and columns stated on the command line */
  set?: ReadonlyArray<Stated>;
}

/** The files the user asked for. */
function outputsOf(book: Book, { fixed, log, columns }: CheckOptions): Output[] {
  const outputs: Output[] = [];
  if (fixed !== undefined) outputs.push({ path: fixed, text: cleanedHarvestCsv(book), kind: "sheet" });
  if (log !== undefined) outputs.push({ path: log, text: issuesCsv(book.issues), kind: "log" });
  // its place is in the book
  if (columns !== undefined) outputs.push({ path: columns, text: proposeColumns(book), kind: "sheet", intoBook: true });
  return outputs;
}

/** `gramwright check`: cleans a book and says what was found. Exit code 1 when there are errors. */
export async function checkBook(path: string, options: CheckOptions): Promise<void> {
  const progress = terminalProgress();
  const { book, folder } = await openBookFolder(path, progress, options.set);
  progress.done();
  const written = writeOutputs(outputsOf(book, options), folder);
  if (options.json) {
    const { name, harvestFiles, columns, issues, leftOut } = book;
    print(
      `${JSON.stringify({ book: name, trays: book.trays.length, harvestFiles, columns, issues, leftOut }, null, 2)}\n`,
    );
  } else {
    const lines = [
      ...checkLines(book),
      ...(options.all ? ["", ...everyLine(book)] : []),
      ...(written.length === 0 ? [] : ["", `Written: ${written.join(", ")}`]),
    ];
    print(`${lines.join("\n")}\n`);
  }
  if (book.issues.some(({ severity }) => severity === "error")) process.exitCode = 1;
}
