import { cleanedHarvestCsv } from "../cleaning/cleaned-harvest-csv.ts";
import { issuesCsv } from "../cleaning/issues-csv.ts";
import { proposeColumns } from "../cleaning/propose-columns.ts";
import type { Book } from "../records/book.ts";
import { checkLines, everyLine } from "./check-lines.ts";
import { openBookFolder } from "./open-book.ts";
import type { PlannedOutput } from "./output/output-place.ts";
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

/** The files the user asked for, and how each is made. */
function outputsOf({ fixed, log, columns }: CheckOptions): (PlannedOutput & { textOf: (book: Book) => string })[] {
  return [
    ...(fixed === undefined
      ? []
      : [{ path: fixed, kind: "sheet" as const, option: "--fixed", textOf: cleanedHarvestCsv }]),
    ...(log === undefined
      ? []
      : [{ path: log, kind: "log" as const, option: "--log", textOf: (book: Book) => issuesCsv(book.issues) }]),
    // its place is in the book
    ...(columns === undefined
      ? []
      : [
          {
            path: columns,
            kind: "sheet" as const,
            option: "--columns",
            intoBook: true as const,
            textOf: proposeColumns,
          },
        ]),
  ];
}

/** `gramwright check`: cleans a book and says what was found. Exit code 1 when there are errors. */
export async function checkBook(path: string, options: CheckOptions): Promise<void> {
  const progress = terminalProgress();
  const outputs = outputsOf(options);
  const { book, folder } = await openBookFolder(path, progress, { set: options.set, outputs });
  progress.done();
  const made = outputs.map(({ textOf, ...output }) => ({ ...output, text: textOf(book) }));
  const written = writeOutputs(made, folder);
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
