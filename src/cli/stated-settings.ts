import { withAnsweredSettings } from "../engine/answered-settings.ts";
import type { Book } from "../records/book.ts";
import type { Issue } from "../records/issue.ts";
import { PlainFailure } from "./plain-failure.ts";
import type { BookFolder } from "./read-book-folder.ts";

/** A setting, or what a column holds, as stated on the command line. */
export type Stated = readonly [key: string, value: string];

/** A book's sheets with what the command line states of them. */
export async function withStated(folder: BookFolder, stated: ReadonlyArray<Stated>): Promise<BookFolder> {
  if (stated.length === 0) return folder;
  return { ...folder, sheets: (await withAnsweredSettings(folder.sheets, stated)).sources };
}

/** What is in the log of a setting, or of what a column holds, that was not read. */
const notRead = (issue: Issue, [key, value]: Stated): boolean =>
  (issue.severity === "error" || issue.severity === "warning") &&
  /(settings|columns)[^/]*$/i.test(issue.file) &&
  (key.startsWith("column:")
    ? issue.column === "header" || issue.column === "field"
    : issue.column === "key" || issue.column === "value") &&
  [key, value, key.slice(key.indexOf(":") + 1)].includes(issue.raw);

/**
 * Says no where something stated on the command line could not be read: the run would be another than was asked for.
 * @throws PlainFailure with the first of them
 */
export function requireStated({ issues }: Pick<Book, "issues">, stated: ReadonlyArray<Stated>): void {
  for (const one of stated) {
    const issue = issues.find((any) => notRead(any, one));
    if (issue === undefined) continue;
    const expected = issue.expected === "" ? "" : `; expected: ${issue.expected}`;
    throw new PlainFailure(`--set ${one.join("=")}: ${issue.reason}${expected}. Nothing was written.`);
  }
}
