import { type CleanOptions, cleanBook } from "../cleaning/clean-book.ts";
import { inSheetOrder } from "../cleaning/in-sheet-order.ts";
import type { Book } from "../records/book.ts";
import type { Issue } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { SheetSource } from "../records/sheet.ts";
import { ownSheet } from "./own-output.ts";

/** Something beside the sheets that is not read. */
export interface NotRead extends Pick<Issue, "file" | "reason" | "severity" | "action"> {}

/** What may be passed to and asked of a reading. */
export interface ReadOptions extends CleanOptions {
  /** what was found beside the sheets and is not read: it comes into the log */
  notRead?: ReadonlyArray<NotRead>;
}

/** What stands in the place of a sheet that is not read: whether it is there can matter, as with costs. */
const emptied = ({ path }: SheetSource): SheetSource => ({ path, size: 0, chunks: () => [] });

/**
 * Reads a book's sheets and cleans them. What this program wrote itself is not read, a sheet that cannot be read is as good
 * as empty, and the log names both.
 * @param sources the book's sheets in any order
 */
export async function readBook(sources: ReadonlyArray<SheetSource>, options: ReadOptions = {}): Promise<Book> {
  const notRead: NotRead[] = [...(options.notRead ?? [])];
  const sheets = sources.flatMap((source): SheetSource[] => {
    try {
      const own = ownSheet(source);
      if (own === undefined) return [source];
      const reason = `a ${own} that this program wrote, not a sheet`;
      notRead.push({ file: source.path, reason, severity: sources.length === 1 ? "error" : "note", action: "" });
      return [];
    } catch (error) {
      const reason = `it cannot be read (${error instanceof Error ? error.message : String(error)})`;
      notRead.push({ file: source.path, reason, severity: "error", action: "Allow it to be read, then run again" });
      return [emptied(source)];
    }
  });
  const book = await cleanBook(sheets, options);
  if (notRead.length > 0) {
    const issues = notRead.map((entry) => logEntry({ rule: "file-not-read", ...entry }));
    book.issues = inSheetOrder([...issues, ...book.issues], book.columns);
  }
  return book;
}
