import { InvalidArgumentError } from "commander";
import type { Book } from "../records/book.ts";
import type { Issue } from "../records/issue.ts";
import { PlainFailure } from "./plain-failure.ts";
import type { BookFolder } from "./read-book-folder.ts";

/** A setting, or what a column holds, as stated on the command line. */
export type Stated = readonly [key: string, value: string];

/**
 * Reads one `--set`: a key of settings.csv and its value, or `column:HEADER` and what the column holds.
 * @throws InvalidArgumentError where it is neither
 * @example statedSetting("date_order=day first", []) // [["date_order", "day first"]]
 */
export function statedSetting(text: string, before: ReadonlyArray<Stated> = []): Stated[] {
  const at = text.lastIndexOf("=");
  const [key, value] = [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  if (at < 1 || key === "" || value === "") {
    throw new InvalidArgumentError('Give key=value, such as date_order="day first" or column:Squirt=inoculum_ml.');
  }
  return [...before, [key, value]];
}

/** A book's sheets with what the command line states of them. */
export async function withStated(folder: BookFolder, stated: ReadonlyArray<Stated>): Promise<BookFolder> {
  if (stated.length === 0) return folder;
  // loaded here, as the command line reads its options by this file and that one loads the whole cleaning
  const { withAnsweredSettings } = await import("../engine/answered-settings.ts");
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
